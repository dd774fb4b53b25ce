### Photos of heads, stops and plantings, and the room they take.

title = Fotos
of-planting = Fotos de { $name }

count =
    { $count ->
        [0] Fotos
       *[other] Fotos ({ $count })
    }

none = Todavía no hay fotos. Tome aquí una de la siembra; en una recorrida el botón de la cámara toma una de la parada, y Marcar una de una panoja.
camera = Tomar una foto
choose = Elegir una imagen
of-stop = Foto de la parada { $stop }
of-head = Foto de la panoja { $head }
keeping = Guardando la foto
kept-stop = La foto de la parada { $stop } está guardada.
kept-head = La foto de la panoja { $head } está guardada.
kept = La foto está guardada.
offered = La imagen lleva una posición. ¿Es la de esta parada?
use-place = Usar su posición
leave-place = No usarla
place-used = La parada tiene la posición de la imagen.
the-planting = La siembra
stop-shown = Parada { $stop }
head-shown = Panoja { $head } de la parada { $stop }
shown-on = { $what }, { DATE($on) }
shown-reading = { $what } ({ $reading })
captioned = { $what }: { $caption }
caption = Qué muestra
keep-caption = Guardar el pie de foto
caption-kept = Guardado.
taken = Tomada { $when }
not-here = Esta foto no está en este aparato.
on-hub = Está en el servidor.
only-here = Por ahora solo en este aparato.
fetch = Traerla en el próximo intercambio
fetching = Se traerá en el próximo intercambio.
remove = Eliminar esta foto
removed = Se eliminó la foto.
not-told = La posición, el dueño y la cámara se quitaron del archivo antes de guardarlo.
storage = Espacio de las fotos
no-photos = No hay fotos en este aparato.

photos-take =
    { $photos ->
        [one] { $photos } foto ocupa { $megabytes } MB.
       *[other] { $photos } fotos ocupan { $megabytes } MB.
    }

only-here-count =
    { $count ->
        [0] El servidor las tiene todas.
       *[other] { $count ->
            [one] { $count } está solo en este aparato y no se quitará.
           *[other] { $count } están solo en este aparato y no se quitarán.
        }
    }

elsewhere =
    { $count ->
        [one] { $count } foto no está
       *[other] { $count } fotos no están
    } en este aparato; sus imágenes pequeñas pueden estar.

free-megabytes = Liberar { $megabytes } MB
nothing-to-free = No hay nada que liberar: solo pueden irse las fotos que están en el servidor.
freed = El espacio está libre. Las fotos están en el servidor.
