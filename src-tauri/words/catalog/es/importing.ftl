### Files of heads and plantings.

title = Traer panojas o siembras
intro = Panojas: un archivo CSV en UTF-8 con encabezado: planting, walked_on, stop, reading, share; y latitude, longitude, scout, note y flags si los tiene. Verá lo que contiene antes de guardar nada.
intro-plantings = O una lista de siembras: planting, hybrid, planted_on, purpose; y field, station, acres o hectares y half_bloom_on si los tiene.
choose = Elegir un archivo
choose-other = Elegir otro archivo
reading = Leyendo { $name }
not-text = { $name } no es texto UTF-8. Guárdelo como CSV en UTF-8 y elíjalo de nuevo; no se guardó nada.
unreadable = { $name } no se pudo leer del aparato. Elíjalo de nuevo; no se guardó nada.
holds = Qué contiene { $name }

good =
    { $heads ->
        [one] { $heads } panoja buena
       *[other] { $heads } panojas buenas
    } en { $stops ->
        [one] { $stops } parada
       *[other] { $stops } paradas
    } de { $walks ->
        [one] { $walks } recorrida
       *[other] { $walks } recorridas
    }

already =
    { $count ->
        [one] { $count } ya está en el cuaderno y no se guardará dos veces
       *[other] { $count } ya están en el cuaderno y no se guardarán dos veces
    }

new-plantings =
    { $count ->
        [one] { $count } siembra nueva
       *[other] { $count } siembras nuevas
    }

refused =
    { $count ->
        [one] { $count } fila rechazada
       *[other] { $count } filas rechazadas
    }

first-refused = Las primeras { $count }:
line = Línea { $line }

store =
    Guardar { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }

swapped-title = ¿Están cambiadas la latitud y la longitud?

swapped =
    { $rows ->
        [one] { $rows } fila no es un lugar o queda lejos de sus lotes como está escrita, y encaja con las dos cambiadas. No se guarda nada antes de que responda.
       *[other] { $rows } filas no son un lugar o quedan lejos de sus lotes como están escritas, y encajan con las dos cambiadas. No se guarda nada antes de que responda.
    }

swap = Cambiarlas
as-written = Dejarlas como están
will-swap = Al guardar este archivo se cambian la latitud y la longitud.
stays-as-written = La latitud y la longitud se guardan como están escritas.
ask-again = Responder de nuevo
nothing-new = Nada en este archivo es nuevo; no hay nada que guardar.

good-plantings =
    { $count ->
        [one] { $count } siembra
       *[other] { $count } siembras
    }

updated-plantings =
    { $count } ya { $count ->
        [one] está y se pondrá
       *[other] están y se pondrán
    } al día

lists-plantings = Lo que el archivo no menciona queda como está.
store-plantings = Guardar las siembras

stored-plantings =
    { $added ->
        [one] { $added } siembra agregada
       *[other] { $added } siembras agregadas
    }, { $updated } al día.

stop = Detener
storing = Guardando: todo o nada

stored =
    { $heads ->
        [one] Se guardó 1 panoja.
       *[other] Se guardaron { $heads } panojas.
    }

stored-refused =
    { $count ->
        [one] { $count } fila rechazada quedó
       *[other] { $count } filas rechazadas quedaron
    } fuera; el archivo no cambió.

see = Ver las siembras
