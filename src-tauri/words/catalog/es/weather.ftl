### Weather stations: what they hold, files, and days typed in.

title = Tiempo
empty = Todavía no hay tiempo. Sin él no hay fechas: traiga un archivo diario de la estación más cercana, o escriba máximas y mínimas.
holds = { $days } días, del { DATE($first) } al { DATE($last) }
filled = { $days } días completados con sus vecinos, por regla
gap = Sin tiempo del { DATE($from) } al { DATE($to) }
more-gaps = y { $count } huecos más
refused = No se puede usar así: { $why }
bring-in = Traer un archivo del tiempo
type-in = Escribir un día
file-intro = Un CSV con date, high_f y low_f (o high_c, low_c), y rain_in o rain_mm, humidity y station si los tiene; o un archivo GHCN-Daily. De los años pasados de la estación se toman los días que vienen.
station-for-file = Estación, si el archivo no nombra ninguna
review = { $station }: { $rows } días, del { DATE($first) } al { DATE($last) }
already = { $count } de ellos ya están aquí
found-title = Lo que hallaron las revisiones ({ $count })
store = Guardar este tiempo
stored = El tiempo está guardado; todos los pronósticos ya lo usan.
back = Ver las estaciones
station = Estación
day = Día
high = Máxima
low = Mínima
rain = Lluvia (puede quedar vacía)
keep = Guardar este día
kept = { $when } queda guardado para { $station }.
need-number = Dé la máxima y la mínima como números.
low-above-high = La mínima es mayor que la máxima. Revise las dos.
need-station = Dé un nombre a la estación: el pueblo, o «mi pluviómetro».
used-here = Tiempo de { $station }

chosen-how =
    .planting = nombrada por la siembra
    .field = elegida para el lote
    .only = la única que hay

chosen-nearest = la más cercana, a { $km } km
