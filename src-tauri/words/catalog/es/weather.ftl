### Weather stations: what they hold, files, and days typed in.

title = Clima
empty = Todavía no hay datos del clima, y sin ellos no hay fechas. Importe un archivo diario de la estación más cercana, o escriba máximas y mínimas.

holds =
    { $days ->
        [one] { $days } día
       *[other] { $days } días
    }, del { DATE($first) } al { DATE($last) }

filled =
    { $days ->
        [one] { $days } día completado con sus vecinos, por regla
       *[other] { $days } días completados con sus vecinos, por regla
    }

gap = Sin datos del clima del { DATE($from) } al { DATE($to) }

more-gaps =
    y { $count ->
        [one] { $count } hueco más
       *[other] { $count } huecos más
    }

refused = No se puede usar así: { $why }
bring-in = Importar un archivo del clima
type-in = Escribir un día
file-intro = Un CSV con date, high_f y low_f (o high_c, low_c), y rain_in o rain_mm, humidity y station si los tiene; o un archivo GHCN-Daily. Los días que vienen se toman de los años pasados de la estación.
station-for-file = Estación, si el archivo no nombra ninguna

review =
    { $station }: { $rows ->
        [one] { $rows } día
       *[other] { $rows } días
    }, del { DATE($first) } al { DATE($last) }

already =
    { $count ->
        [one] { $count } de ellos ya está aquí
       *[other] { $count } de ellos ya están aquí
    }

found-title = Lo que hallaron las revisiones ({ $count })
store = Importar estos datos del clima
stored = Los datos del clima están importados; todos los pronósticos ya los usan.
back = Ver las estaciones
station = Estación
day = Día
high = Máxima
low = Mínima
rain = Lluvia (opcional)
keep = Guardar este día
kept = { $when } está guardado para { $station }.
need-number = Dé la máxima y la mínima como números.
low-above-high = La mínima es mayor que la máxima. Revise las dos.
need-station = Dé un nombre a la estación: el pueblo, o «mi pluviómetro».
used-here = Clima de { $station }

chosen-how =
    .planting = indicada para la siembra
    .field = indicada para el lote
    .only = la única estación

chosen-nearest = la más cercana, a { $km } km
