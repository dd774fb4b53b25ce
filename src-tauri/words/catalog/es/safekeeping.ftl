### Backups, checks, and a notebook that does not open.

title = Copia de seguridad
intro = Todo lo que anota está en un archivo de este aparato. Una copia de seguridad lo copia entero, y se revisa antes de darla por buena.
back-up = Hacer una copia ahora
backing-up = Copiando el cuaderno y revisando la copia
made = Copia hecha y revisada: { $name }
last = Última copia
none = Todavía no hay ninguna copia en este aparato.
older = { $count } anteriores; las más viejas dejan lugar a las nuevas
at = { MOMENT($at) }
size = { NUMBER($megabytes, maximumFractionDigits: 1) } MB
where = Dónde está
check-title = ¿Está entero el cuaderno?
check = Revisar el cuaderno ahora
checking = Leyendo cada cambio del cuaderno
checked = Revisado { MOMENT($when) }: los { $changes } cambios están como se escribieron.
never-checked = Sin revisar todavía. Se revisa solo una vez al día, y cuando el teléfono se apagó de golpe.
mended = Algo en pantalla no coincidía con lo anotado. Se rehizo a partir de lo anotado; no se perdió nada.

photos-whole =
    { $photos ->
        [one] 1 foto está como se tomó.
       *[other] { $photos } fotos están como se tomaron.
    }

photos-damaged =
    { $photos ->
        [one] 1 foto estaba dañada y se apartó
       *[other] { $photos } fotos estaban dañadas y se apartaron
    }, sin borrarse. En un equipo, sincronice: vuelve lo que haya en el servidor.

photos-missing =
    { $photos ->
        [one] Falta 1 foto que estaba en este aparato. Sincronice, o traiga un archivo del cuaderno que la tenga.
       *[other] Faltan { $photos } fotos que estaban en este aparato. Sincronice, o traiga un archivo del cuaderno que las tenga.
    }

restore-title = Volver a una copia
restore-intro = Elija una. Saque copias de este aparato de vez en cuando: un teléfono perdido se lleva sus copias.
restore-of = La copia de { $when } toma el lugar del cuaderno.
restore-means = El cuaderno como está ahora se aparta y se conserva; no se borra nada. Lo que anotó después de esa copia no está en ella; en un equipo vuelve al sincronizar, hasta donde lo tenga el servidor.
restore = Volver a esta copia
restore-not = Dejar el cuaderno como está
restoring = Revisando la copia y poniéndola en su lugar

restored =
    La copia está en su lugar, con { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    }.

restored-aside = El cuaderno anterior se conserva aquí:
restored-title = La copia está en su lugar
restore-instead = O volver a una copia
restore-instead-means = Rescatar lo que se pueda leer conserva más: también toma de las copias. Vuelva a una copia si eso no sirvió. Un archivo del cuaderno se puede traer después, en Más.
salvage-title = Este cuaderno se rescató de un archivo dañado

kept =
    Conservado: { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    }, entre ellos { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }.

lost-none = Que se sepa, no se perdió nada.

lost =
    Perdido: { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    }.

lost-between =
    Perdido: { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    }, entre { MOMENT($from) } y { MOMENT($to) }. Mire las recorridas de ese momento.

end-unknown = También pueden faltar las panojas más nuevas. Mire su última recorrida.

unproved =
    { $changes ->
        [one] { $changes } cambio se lee bien pero no se pudo
       *[other] { $changes } cambios se leen bien pero no se pudieron
    } comprobar.

from-backup =
    { $changes ->
        [one] { $changes } vino
       *[other] { $changes } vinieron
    } de una copia.

settings-lost = Los ajustes están como el primer día; póngalos de nuevo.
set-aside = El archivo dañado se conserva aquí:
go-on = Seguir a las siembras
open-again = Intentar de nuevo
opening = Abriendo el cuaderno
salvage = Rescatar lo que se pueda leer
go-on-with-this = Seguir con lo que hay aquí
salvaging = Leyendo el archivo dañado y escribiendo uno nuevo

trouble-title =
    .damaged = El cuaderno está dañado
    .incomplete = A este cuaderno le faltan cambios guardados
    .from_newer_app = Este cuaderno es de un Headwalk más nuevo
    .read_only = No se puede escribir en el cuaderno
    .disk_full = El aparato está lleno
    .unavailable = El cuaderno no se puede abrir

trouble-text =
    .damaged = Su archivo no se puede leer entero. Headwalk puede pasar a un cuaderno nuevo cada cambio que todavía se lea.
    .incomplete = No tiene todo lo que se mostró como guardado. Puede ser una copia hecha mientras el cuaderno estaba abierto, o una anterior. No se tocó nada.
    .from_newer_app = Esta versión no conoce todo lo que el cuaderno puede contener, así que no lo tocó.
    .read_only = Su archivo o su carpeta solo se pueden leer, y nada de lo que anote quedaría guardado.
    .disk_full = No queda lugar para abrir el cuaderno. Lo guardado antes está completo.
    .unavailable = Puede tenerlo otra ventana de Headwalk, o no se llega a su carpeta.

trouble-damaged-steps =
    .step1 = El archivo dañado se aparta y se conserva, nunca se borra.
    .step2 = Lo que solo está en una copia se toma de ahí.
    .step3 = Se le dirá qué se conservó y qué se perdió.

trouble-incomplete-steps =
    .step1 = Si copió o restauró archivos a mano, ponga todos en su lugar e intente de nuevo.
    .step2 = O siga con lo que hay aquí. También se usan las copias de este aparato, y se le dirá qué falta.
    .step3 = En un equipo, al sincronizar vuelve lo que tenga el servidor.

trouble-from-newer-app-steps =
    .step1 = Actualice Headwalk.
    .step2 = Después ábralo de nuevo: está todo.

trouble-read-only-steps =
    .step1 = Mire que la tarjeta o el disco no estén bloqueados.
    .step2 = Mire los permisos del archivo y de su carpeta.
    .step3 = Después intente de nuevo. Lo guardado antes está completo.

trouble-disk-full-steps =
    .step1 = Quite fotos, videos o aplicaciones que no necesite.
    .step2 = Después intente de nuevo.

trouble-unavailable-steps =
    .step1 = Cierre otras ventanas de Headwalk.
    .step2 = Después intente de nuevo. Lo guardado antes está completo.
