### What was changed, two walks side by side, and search.

open = Historial
title = Historial
of = Todo lo que se cambió en { $name }, primero lo último.

acts =
    .planting_added = Siembra agregada
    .planting_edited = Siembra editada
    .planting_removed = Siembra quitada
    .planting_restored = Siembra recuperada
    .walk_started = Recorrida empezada
    .walk_finished = Recorrida terminada
    .walk_reopened = Recorrida abierta de nuevo
    .walk_edited = Fecha de la recorrida corregida
    .walk_removed = Recorrida quitada
    .stop_added = Parada siguiente
    .stop_placed = Parada ubicada
    .head_read = Panoja leída
    .head_corrected = Panoja corregida
    .head_removed = Panoja quitada
    .undone = Deshecho
    .file_imported = Traído de un archivo
    .outlines_imported = Contorno traído
    .outline_removed = Contorno quitado
    .photo_added = Foto agregada
    .photo_captioned = Pie de foto escrito
    .photo_removed = Foto quitada
    .photo_restored = Foto recuperada
    .observed = Grano maduro observado
    .observation_corrected = Observación corregida
    .observation_removed = Observación quitada
    .terms_set = Condiciones de cosecha
    .harvest_undone = Deshecho

newer-act = Algo que escribió una versión más nueva

fields =
    .name = Nombre
    .farm = Finca
    .field = Lote
    .hybrid = Híbrido
    .planted_on = Sembrada el
    .half_bloom_on = Media floración el
    .purpose = Destino
    .area = Superficie
    .station = Estación del tiempo
    .outline = Contorno
    .place = Lugar
    .caption = Pie de foto
    .finished = Terminada
    .removed = Quitada
    .number = Número

yes = sí
no = no
nothing = nada
position = { NUMBER($latitude, maximumFractionDigits: 5) }, { NUMBER($longitude, maximumFractionDigits: 5) }
quoted = “{ $note }”
field-set = { $field }: { $to }
field-changed = { $field }: { $to } (antes: { $was })
walk-of = Recorrida del { DATE($on) }
walk-of-by = Recorrida del { DATE($on) }, { $scout }
stop = Parada { $stop }
photo = Una foto
heads = { $count } panojas
head-corrected = { $to } (antes: { $was })
head-out = Fuera: { $head }
a-head-out = Una panoja, fuera
head-back = De vuelta: { $head }
a-head-back = Una panoja, de vuelta
you = este aparato
someone = otro aparato
by = { $who }, { $device }
taken-back = deshecho después
take-back = Deshacer esto
take-back-of = Deshacer esto: { $act }, { $at }
done = Deshecho. Queda en el historial y también se puede deshacer.
older = Mostrar cambios anteriores
end = Aquí empieza.
empty = Todavía no se cambió nada.
open-walk = A la recorrida del { $on }
compare-open = Comparar recorridas
compare-title = Comparar dos recorridas
compare-needs = Hacen falta dos recorridas con panojas. Recórrala una vez más y vuelva.
first-walk = Una recorrida
second-walk = La otra recorrida
same-walk = Elija dos recorridas distintas.
earlier-walk = Antes: { $on }
later-walk = Después: { $on }

days =
    { $days ->
        [one] Hay 1 día entre ellas.
       *[other] Hay { $days } días entre ellas.
    }

gained-title = Qué cambió
gained-more = De cada 100 panojas, unas { $mid } más están ya { $at } (entre { $low } y { $high }).
gained-fewer = De cada 100 panojas, unas { $mid } menos están { $at } (entre { $low } y { $high }): las recorridas no encajan.
gained-unknown = No se puede decir si hay más panojas { $at }: de { $down } a { $up } de cada cien.
fewer = { $count } menos
more-heads = { $count } más
no-more = ninguna
gained-none = Ninguna parte difiere lo bastante para hablar de ella.
gained-note = Cada recorrida se toma solo por sus panojas. Cada intervalo contiene la verdad { PERCENT($level) } de cada cien veces.
search-title = Buscar
search = Buscar notas, nombres, híbridos y quién recorrió
search-hint = basta el comienzo de las palabras
search-start = Escriba una palabra o su comienzo. No importan acentos ni mayúsculas.
search-none = Nada empieza por “{ $text }”. Pruebe con menos letras u otra palabra.

found =
    { $count ->
        [one] 1 resultado
       *[other] { $count } resultados
    }

plantings = Siembras
walks = Recorridas por persona
notes = Notas de panojas

found-by =
    .name = Nombre
    .hybrid = Híbrido
    .field = Lote
    .farm = Finca

note-at = { $planting }, { $on }, parada { $stop }
more = Hay más de lo que cabe aquí. Escriba más letras.
