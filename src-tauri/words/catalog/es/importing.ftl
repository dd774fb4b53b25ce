### Files of heads and plantings.

title = Importar panojas o siembras
intro = Panojas: un archivo CSV en UTF-8 con encabezado: planting, walked_on, stop, reading, share; y latitude, longitude, scout, note y flags si los tiene. Verá lo que contiene antes de guardar nada.
intro-plantings = O una lista de siembras: planting, hybrid, planted_on, purpose; y field, station, acres o hectares y half_bloom_on si los tiene.
choose = Elegir un archivo
choose-other = Elegir otro archivo
reading = Leyendo { $name }
not-text = { $name } no es texto UTF-8; no se guardó nada. Guárdelo como CSV en UTF-8 y elíjalo de nuevo.
unreadable = { $name } no se pudo leer del aparato; no se guardó nada. Elíjalo de nuevo.
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
    Importar { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }

swapped-title = ¿Están cambiadas la latitud y la longitud?

swapped =
    { $rows ->
        [one] Como está escrita, { $rows } fila no es una posición real o queda lejos de sus lotes; encaja con las dos cambiadas. No se guarda nada antes de que responda.
       *[other] Como están escritas, { $rows } filas no son una posición real o quedan lejos de sus lotes; encajan con las dos cambiadas. No se guarda nada antes de que responda.
    }

swap = Cambiarlas
as-written = Dejarlas como están
will-swap = Al importar este archivo se cambian la latitud y la longitud.
stays-as-written = La latitud y la longitud se importan como están escritas.
ask-again = Cambiar la respuesta
nothing-new = Nada en este archivo es nuevo; no hay nada que importar.

good-plantings =
    { $count ->
        [one] { $count } siembra
       *[other] { $count } siembras
    }

updated-plantings =
    { $count ->
        [one] { $count } ya está y se actualizará
       *[other] { $count } ya están y se actualizarán
    }

lists-plantings = Lo que el archivo no menciona queda como está.
store-plantings = Importar las siembras

stored-plantings =
    { $added ->
        [one] { $added } siembra agregada
       *[other] { $added } siembras agregadas
    }, { $updated } al día.

stop = Detener
storing = Importando: todo o nada

stored =
    { $heads ->
        [one] Se importó { $heads } panoja.
       *[other] Se importaron { $heads } panojas.
    }

stored-refused =
    { $count ->
        [one] { $count } fila rechazada quedó
       *[other] { $count } filas rechazadas quedaron
    } fuera; el archivo no cambió.

see = Ir a las siembras
