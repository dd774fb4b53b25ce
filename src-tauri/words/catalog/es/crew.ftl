### The crew: joining, who is in it, exchanging, and what does not agree.

title = Equipo

# For a native reader: monitoreador (also explorador, recorredor).
role =
    .owner = Dueño
    .scout = Monitoreador
    .reader = Lector

may =
    .owner = registra, invita y quita
    .scout = registra y ve todo
    .reader = ve todo, no registra para otros

not-in = Varios monitoreadores, un solo cuaderno. El equipo se encuentra en un servidor propio; nadie de afuera ve nada. Sin señal todo funciona igual.
join-title = Unirse a un equipo
open = Equipo e intercambio

you-are-a =
    .owner = Usted es dueño: registra, invita y quita.
    .scout = Usted es monitoreador: registra y ve todo.
    .reader = Usted es lector: ve todo, no registra para otros.

invitation = Invitación
invitation-hint = el enlace, o las 20 letras y cifras
paste = Pegar
scan = Escanear el código QR
scan-picture = Foto del código QR
camera-asked = Permita la cámara para leer el código. No se guarda ninguna imagen.
camera-shows = Lo que muestra la cámara
hold-code = Ponga el código QR de la invitación frente a la cámara.
camera-stop = Apagar la cámara

camera-not =
    .refused = La cámara no está permitida aquí. Permítala en los ajustes del aparato o del navegador, o tome una foto del código, o escriba la invitación.
    .none = Aquí no se encontró una cámara. Elija una foto del código, o escriba la invitación.
    .busy = La cámara no da imagen; quizás la usa otra aplicación. Ciérrela e intente de nuevo, elija una foto del código, o escriba la invitación.

not-ours = Este código QR no es una invitación a un equipo. Quien es dueño muestra el correcto en Equipo, Invitar a alguien.
no-code = En la foto no hay un código QR. Acérquese y tómela de nuevo.
hub = Dirección del servidor
hub-hint = empieza con https://
your-name = Su nombre
this-device = Nombre de este aparato

device-guess =
    { $phone ->
        [true] Teléfono
       *[other] Computadora
    }

crew-name = Nombre del equipo
crew-name-hint = solo cuenta con el primer código de un servidor
crew-name-default = Equipo
certificate = El servidor tiene un certificado propio
certificate-chosen = Certificado: { $name }
choose-certificate = Elegir su archivo PEM
join = Unirse
joining = Preguntando al servidor
what-happens = Todo lo registrado aquí va al equipo, y todo lo del equipo viene aquí.

exchange-title = Intercambio
never = Todavía sin intercambio
last = Último intercambio { RECENT($at) }
nothing-waits = al día

heads-wait =
    { $heads ->
        [one] { $heads } panoja espera
       *[other] { $heads } panojas esperan
    }

changes-wait =
    { $changes ->
        [one] { $changes } anotación espera
       *[other] { $changes } anotaciones esperan
    }

heads-and-photos-wait =
    { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }, { $photos ->
        [one] { $photos } foto esperan
       *[other] { $photos } fotos esperan
    }

changes-and-photos-wait =
    { $changes ->
        [one] { $changes } anotación
       *[other] { $changes } anotaciones
    }, { $photos ->
        [one] { $photos } foto esperan
       *[other] { $photos } fotos esperan
    }

photos-wait =
    { $photos ->
        [one] { $photos } foto espera
       *[other] { $photos } fotos esperan
    }

exchange-now = Intercambiar ahora
stop = Detener
looking = Preguntando al servidor

giving =
    { $done } de { $all ->
        [one] { $all } panoja
       *[other] { $all } panojas
    } entregadas

giving-changes =
    { $done } de { $all ->
        [one] { $all } anotación
       *[other] { $all } anotaciones
    } entregadas

fetching =
    { $done } de { $all ->
        [one] { $all } anotación
       *[other] { $all } anotaciones
    } recibidas

photos-left =
    { $left ->
        [one] queda { $left } foto
       *[other] quedan { $left } fotos
    }

no-signal-then = Sin señal en el último intento. Sigue solo cuando haya; no se pierde nada.
next-at = Próximo intento: { RECENT($at) }
itself = Sigue solo donde hay señal.
reader-holds = Como lector, lo que registra queda en este aparato.

people = Personas y aparatos
you = usted
this-one = este aparato
seen = aquí por última vez { RECENT($at) }
removed-at = quitado { RECENT($at) }
people-no-signal = Quién está en el equipo se muestra donde hay señal.
change-role = Qué puede hacer { $name }
remove-device = Quitar
remove-title = ¿Quitar { $device } de { $person }?
remove-text = Desde ahora no puede intercambiar nada, y olvida su llave cuando vuelva a preguntar. Lo que ya entregó queda en el equipo; lo que no había entregado queda en él.
remove-yes = Quitar ahora
keep = Cancelar
removed-done = { $device } está fuera del equipo.

invite = Invitar a alguien
invite-first = Usted es la primera persona aquí. Invite a los monitoreadores de su equipo.
invite-title = Invitación
invite-role = Qué podrá hacer
invite-for = Para quién
somebody-new = Alguien nuevo
further-device = Otro aparato de { $name }
holds = Vale por
lasts-minutes = { $minutes } minutos

lasts-hours =
    { $hours ->
        [one] { $hours } hora
       *[other] { $hours } horas
    }

lasts-days =
    { $days ->
        [one] { $days } día
       *[other] { $days } días
    }

make-invitation = Hacer la invitación
qr-code = Código QR de la invitación
ends-at = Vale hasta { RECENT($at) }, para un aparato, una vez.
code = Código
copy = Copiar el enlace
copied = El enlace está copiado.
share = Compartir el enlace
another = Otra invitación
open-invitations = Invitaciones abiertas
open-invitation-as = { $role }, hasta { RECENT($ends) }
withdraw = Retirar
withdrawn = La invitación está retirada.

file-title = De teléfono a teléfono por archivo
file-text = Sin servidor a mano, el mismo intercambio va por un archivo: escríbalo aquí, envíelo como quiera y léalo en el otro aparato del equipo.
write-file = Escribir un archivo
file-name = headwalk { $day }.hwx
file-written = { $name } está escrito. Contiene todo este cuaderno, solo para su equipo.
read-file = Leer un archivo
reading-file = Leyendo { $name }

file-read =
    { $fresh } de { $all ->
        [one] { $all } anotación
       *[other] { $all } anotaciones
    } eran nuevas aquí.

leave = Salir del equipo
leave-title = ¿Salir de { $crew }?
leave-text = Este aparato deja de intercambiar. Todo lo del cuaderno queda aquí, y lo entregado queda en el equipo.
leave-waits = Lo que espera aquí todavía no se entregó.
leave-yes = Salir
stay = Quedarse
left = Este aparato no está en ningún equipo.
leave-here = Salir sin el servidor
leave-here-title = ¿Salir de { $crew } sin su servidor?
leave-here-text = Todo lo del cuaderno queda aquí. El servidor no se entera y muestra este aparato hasta que un dueño lo quite. Puede unirse de nuevo con otro código.
leave-unknown-text = Todo lo del cuaderno queda aquí. Puede unirse de nuevo con otro código.
leave-here-owner = Usted es dueño: si el servidor sigue en marcha, debe quedar otro dueño para invitar y quitar.
leave-here-waits = Lo que espera aquí va al próximo equipo al que se una.
unknown-title = El servidor no conoce este aparato
unknown-text = Su cuaderno está completo. Quizás el servidor se instaló de nuevo, o una página de acceso de esta red responde en su lugar: pruebe en otra red, y luego únase con otro código o salga aquí.
to-crew = Ir al equipo

left-title = Fuera del intercambio
left-text = Todo lo demás se intercambió, y aquí no cambió nada.
left-of-this = Anotaciones de este aparato
left-of-other = Anotaciones de otro aparato
left-of-one = Anotaciones de { $who }

left-why =
    .not_signed = Algunas llegaron sin la firma del aparato que las escribe.
    .other_key = Llevan la firma de otra llave que la que este aparato conoce.
    .not_taken = El servidor no las acepta de este aparato.
    .incoherent = Lo que el servidor dice de ellas no concuerda.

left-do =
    .not_signed = Actualice la aplicación en ese aparato e intercambie allí; si sigue igual, avise a un dueño.
    .other_key = Avise a un dueño: quizás se copió un cuaderno, o alguien más escribe como ese aparato.
    .not_taken = Haga que ese aparato intercambie él mismo con el servidor.
    .incoherent = Avise a quien maneja el servidor.

left-do-own = Intercambie de nuevo; si sigue igual, avise a un dueño.
moved-title = Este aparato tiene otra identificación

moved-why =
    .written_elsewhere = Otro aparato escribió con la identificación de este, como pasa al copiar un cuaderno o restaurar una copia vieja.
    .new_key = Este aparato se unió de nuevo, y la llave que tenía antes ya no está.

moved-text = Por eso escribe desde ahora con otra identificación, y sus anotaciones que el servidor no tenía pasaron a ella. No se perdió nada, y no hay que hacer nada.
moved-seen = Entendido

differ-title = Dos personas dieron valores distintos
differ-text = Se muestra el último. Elija, y los demás ven su elección.
shown-now = se muestra

given = dado { RECENT($at) }
none = ninguno
yes = sí
no = no
use = Usar { $value }
keep-value = Dejar { $value }
settled = { $field }: { $value }
of-its-own = una siembra aparte
it-is = Es { $what }
same-as = la misma que { $name }

duplicates-title = Duplicados
duplicates-intro = Estas siembras parecen una sola que dos personas agregaron sin señal. Unidas son una siembra con las recorridas de las dos; se puede deshacer en cualquier momento.
no-duplicates = No hay dos siembras que parezcan una.
may-be-twice = Esta siembra puede ser un duplicado.
look = Mirar

walks =
    { $walks ->
        [one] { $walks } recorrida
       *[other] { $walks } recorridas
    }

walks-by =
    { $walks ->
        [one] { $walks } recorrida
       *[other] { $walks } recorridas
    } de { $scouts }

are-one = Unir: dejar { $name }
merged = { $other } se muestra ahora como { $name }.
merged-title = Unidas a esta siembra
take-apart = Deshacer la unión de { $name }
apart = { $name } es otra vez una siembra aparte.
