### What was changed, two walks side by side, and search.

open = Historial
title = Historial
of = Cada cambio de { $name }, primero lo último.

acts =
    .planting_added = Siembra agregada
    .planting_edited = Siembra editada
    .planting_removed = Siembra eliminada
    .planting_restored = Siembra recuperada
    .planting_merged = Siembras unidas
    .planting_unmerged = Siembras unidas separadas
    .walk_started = Recorrida empezada
    .walk_finished = Recorrida terminada
    .walk_reopened = Recorrida abierta de nuevo
    .walk_edited = Fecha de la recorrida corregida
    .walk_removed = Recorrida eliminada
    .walk_restored = Recorrida recuperada
    .stop_added = Parada siguiente
    .stop_placed = Parada ubicada
    .head_read = Panoja leída
    .head_corrected = Panoja corregida
    .head_removed = Panoja eliminada
    .branch_moved = Cambios pasados a una serie propia
    .undone = Deshecho
    .file_imported = Importado de un archivo
    .weather_imported = Datos del clima importados
    .weather_typed = Datos del clima anotados
    .station_placed = Estación ubicada
    .heat_set_saved = Tabla de unidades de calor guardada
    .heat_set_removed = Tabla de unidades de calor eliminada
    .heat_set_restored = Tabla de unidades de calor recuperada
    .heat_set_chosen = Tabla de unidades de calor elegida
    .hybrid_edited = Híbrido editado
    .field_edited = Lote editado
    .outlines_imported = Contorno importado
    .outline_removed = Contorno eliminado
    .photo_added = Foto agregada
    .photo_captioned = Pie de foto escrito
    .photo_removed = Foto eliminada
    .photo_restored = Foto recuperada
    .observed = Grano maduro observado
    .observation_corrected = Observación corregida
    .observation_removed = Observación eliminada
    .terms_set = Condiciones de cosecha
    .harvest_undone = Deshecho
    .newer = Algo que escribió una versión más nueva

# For a native reader: finca (also campo, rancho).
fields =
    .name = Nombre
    .farm = Finca
    .field = Lote
    .hybrid = Híbrido
    .planted_on = Fecha de siembra
    .half_bloom_on = Media floración el
    .purpose = Destino
    .area = Superficie
    .station = Estación meteorológica
    .outline = Contorno
    .heat_set = Tabla de unidades de calor
    .merged_into = La misma siembra que
    .maturity = Madurez
    .scale = Unidades de calor
    .planting = Siembra
    .walked_on = Recorrida el
    .scout = Quien recorrió
    .finished = Terminada
    .number = Número
    .place = Lugar
    .caption = Pie de foto
    .removed = Eliminada
    .newer = Algo que escribió una versión más nueva

parts =
    .kind = Observado
    .meter = Medidor
    .meter_name = Nombre del medidor
    .meter_error = Error del medidor
    .percents = Humedad, %
    .frame_square_feet = Marco, pies²
    .seeds = Semillas en cada marco
    .heads = Panojas en el suelo
    .lodged = Acamadas, %
    .weak_stalks = Tallos débiles, %
    .weathering = Deterioro, 0 a 9
    .on = Fecha
    .scout = Quien observó
    .note = Nota
    .removed = Eliminada
    .newer = Algo que escribió una versión más nueva

other-term = Comprador, combustible o descuentos

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

heads =
    { $count ->
        [one] { $count } panoja
       *[other] { $count } panojas
    }

head-corrected = { $to } (antes: { $was })
head-out = Eliminada: { $head }
a-head-out = Una panoja, eliminada
head-back = Recuperada: { $head }
a-head-back = Una panoja, recuperada
you = este aparato
someone = otro aparato
by = { $who }, { $device }
taken-back = deshecho después
take-back = Deshacer esto
take-back-of = Deshacer esto: { $act }, { $at }
done = Deshecho. Queda en el historial y también se puede deshacer.
older = Mostrar cambios anteriores
end = Aquí empieza el historial.
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
gained-more = Cerca de { $mid } % más de las panojas { $reached } ({ $low } % a { $high } %).
gained-fewer = Cerca de { $mid } % menos de las panojas { $reached } ({ $low } % a { $high } %): las recorridas no concuerdan.
gained-unknown = No está claro si más panojas { $reached }: de { $down } a { $up }.
fewer = { $count } % menos
more-heads = { $count } % más
no-more = sin cambio
gained-none = Ninguna parte cambió con claridad.
gained-note = Cada recorrida se juzga solo por sus panojas. Cada rango tiene { PERCENT($level) } % de seguridad.
search-title = Buscar
search = Buscar notas, nombres, híbridos y quién recorrió
search-hint = bastan las primeras letras
search-start = Escriba las primeras letras de una palabra. No importan acentos ni mayúsculas.
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
