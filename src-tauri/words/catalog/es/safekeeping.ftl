### Backups, checks, and a notebook that does not open.

title = Copia de seguridad
intro = Todo lo que anota está en un archivo de este aparato. Una copia de seguridad lo copia entero, y se revisa antes de darla por buena.
back-up = Hacer una copia ahora
backing-up = Copiando el cuaderno y revisando la copia
made = Copia hecha y revisada: { $name }
last = Última copia
none = Todavía no hay ninguna copia en este aparato.

older =
    { $count ->
        [one] { $count } anterior; las más viejas dejan lugar a las nuevas
       *[other] { $count } anteriores; las más viejas dejan lugar a las nuevas
    }

at = { MOMENT($at) }
size = { NUMBER($megabytes, maximumFractionDigits: 1) } MB
where = Dónde está
check-title = ¿Está intacto el cuaderno?
check = Revisar el cuaderno ahora
checking = Leyendo cada cambio del cuaderno
checked = Revisado { MOMENT($when) }: los { $changes } cambios están intactos.
never-checked = Sin revisar todavía. Se revisa solo una vez al día, y cuando el teléfono se apagó de golpe.
mended = Algo en pantalla no coincidía con lo anotado. Se rehizo a partir de lo anotado; no se perdió nada.

photos-whole =
    { $photos ->
        [one] { $photos } foto está intacta.
       *[other] { $photos } fotos están intactas.
    }

photos-damaged =
    { $photos ->
        [one] { $photos } foto estaba dañada y se apartó
       *[other] { $photos } fotos estaban dañadas y se apartaron
    }, sin eliminarse. En un equipo, intercambie con el servidor: vuelve lo que tenga.

photos-missing =
    { $photos ->
        [one] Falta { $photos } foto que estaba en este aparato. Intercambie con el servidor, o importe un cuaderno que la tenga.
       *[other] Faltan { $photos } fotos que estaban en este aparato. Intercambie con el servidor, o importe un cuaderno que las tenga.
    }

restore-title = Restaurar una copia
restore-intro = Elija una. Saque copias de este aparato de vez en cuando: un teléfono perdido se lleva sus copias.
restore-of = La copia de { $when } reemplazará el cuaderno.
restore-means = El cuaderno como está ahora se aparta y se conserva. Lo que anotó después de esa copia no está en ella; en un equipo vuelve con el próximo intercambio, hasta donde lo tenga el servidor.
restore = Restaurar esta copia
restore-not = Cancelar
restoring = Revisando y restaurando la copia

restored =
    La copia está restaurada, con { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    }.

restored-aside = El cuaderno anterior se conserva aquí:
restored-title = La copia está restaurada
restore-instead = O restaurar una copia
restore-instead-means = Rescatar lo que se pueda leer conserva más: también usa las copias. Restaure una copia si eso no sirvió. Un cuaderno exportado se puede importar después, en Más.
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
go-on = Ir a las siembras
open-again = Intentar de nuevo
opening = Abriendo el cuaderno
salvage = Rescatar lo que se pueda leer
go-on-with-this = Continuar con lo que hay aquí
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
    .incomplete = Faltan cambios que se mostraron como guardados. Puede ser una copia hecha mientras el cuaderno estaba abierto, o una anterior. No se cambió nada.
    .from_newer_app = Esta versión no conoce todo lo que el cuaderno puede contener, así que no lo tocó.
    .read_only = Su archivo o su carpeta solo se pueden leer, y nada de lo que anote quedaría guardado.
    .disk_full = No queda espacio para abrir el cuaderno. Lo guardado antes está a salvo.
    .unavailable = Puede tenerlo otra ventana de Headwalk, o no se llega a su carpeta.

trouble-damaged-steps =
    .step1 = El archivo dañado se aparta y se conserva, nunca se elimina.
    .step2 = Lo que solo está en una copia se toma de ahí.
    .step3 = Se le dirá qué se conservó y qué se perdió.

trouble-incomplete-steps =
    .step1 = Si copió o restauró archivos a mano, ponga todos en su lugar e intente de nuevo.
    .step2 = O siga con lo que hay aquí. También se usan las copias de este aparato, y se le dirá qué falta.
    .step3 = En un equipo, el próximo intercambio devuelve lo que tenga el servidor.

trouble-from-newer-app-steps =
    .step1 = Actualice Headwalk.
    .step2 = Después ábralo de nuevo: está todo.

trouble-read-only-steps =
    .step1 = Mire que la tarjeta o el disco no estén bloqueados.
    .step2 = Mire los permisos del archivo y de su carpeta.
    .step3 = Después intente de nuevo. Lo guardado antes está a salvo.

trouble-disk-full-steps =
    .step1 = Elimine fotos, videos o aplicaciones que no necesite.
    .step2 = Después intente de nuevo.

trouble-unavailable-steps =
    .step1 = Cierre otras ventanas de Headwalk.
    .step2 = Después intente de nuevo. Lo guardado antes está a salvo.
