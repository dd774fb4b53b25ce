### What dates rest on: stations and their places, heat sets, hybrids and their pace.

change = Cambiar en qué se basa
title = En qué se basa { $planting }
title-open = En qué se basan las fechas
station = Estación meteorológica
station-text = La aplicación usa la estación con datos del clima más cercana, si se conocen las posiciones; o elija una.
not-placed = Esta siembra todavía no tiene posición: ninguna parada la tiene. No hay distancias; elija una estación.
no-station = Ninguna estación tiene datos del clima todavía.
leave-to-app = Que elija la aplicación
station-distance = { $km } km
station-until = hasta el { DATE($last) }
nearest-mark = la más cercana
for-field = Para todas las siembras de { $field }
for-field-hint = Las siembras con estación propia la conservan.
kept = Guardado. El pronóstico ya lo usa.
uses-now = En uso: { $name }, { $by }

chosen-by =
    .planting = indicada para la siembra
    .field = indicada para el lote
    .nearest = la más cercana
    .only = la única estación

place = Posición de la estación
place-of = Posición de { $name }
place-text = En grados, como en los mapas. Con ella la aplicación halla la estación más cercana a una siembra.
latitude = Latitud (norte sobre 0)
longitude = Longitud (este sobre 0)
place-known = En { NUMBER($latitude, maximumFractionDigits: 3) }, { NUMBER($longitude, maximumFractionDigits: 3) }
place-unknown = Todavía sin posición
here = Usar la posición de este aparato
looking = Buscando la posición
no-position = Este aparato no da su posición aquí. Escríbala, o permítala en los ajustes del aparato.
place-bad = Dé la latitud de -90 a 90 y la longitud de -180 a 180.
keep-place = Guardar esta posición

sets-title = Tablas de unidades de calor
sets-text = Base, límite superior, método y tabla van juntos y se eligen juntos. La elegida aquí es la predeterminada donde ni híbrido ni siembra tienen otra.
heat-set = Tabla de unidades de calor
as-wider = La del híbrido o la predeterminada
as-notebook = La predeterminada
set-base = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }
set-limits = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }, límite superior { NUMBER($upper, maximumFractionDigits: 1) } { $degrees }
set-unused = Fuente
counts-in = Calor contado por «{ $name }»

set-by =
    .planting = indicada para esta siembra
    .hybrid = indicada para el híbrido
    .notebook = predeterminada para todas las siembras
    .default = predeterminada de la aplicación

in-use = Predeterminada
use-set = Usar como predeterminada
edit-set = Editar
new-set = Agregar una tabla de unidades de calor
new-set-title = Tabla de unidades de calor nueva
edit-set-title = Editar tabla de unidades de calor
remove-set = Eliminar esta tabla
set-removed = Se eliminó «{ $name }»; las siembras que la usaban usan la elección siguiente.
set-restored = «{ $name }» está de vuelta.
set-name = Nombre
set-source = De dónde viene la tabla
set-source-hint = boletín y año, o sus propias cuentas
unit = Unidad

units =
    .fahrenheit = °F
    .celsius = °C

base = Base
upper = Límite superior
method = Método diario

methods =
    .both_limits = Máxima bajada al límite, mínima subida a la base
    .upper_limit_only = Máxima bajada al límite, mínima como es
    .plain_mean = Media simple de máxima y mínima

tables = Tabla
column = Clase de madurez { $at }
column-name = Clase
add-column = Agregar una clase
drop-column = Eliminar esta clase

mark =
    .emergence = Emergencia
    .three_leaf = Tres hojas
    .five_leaf = Cinco hojas
    .growing_point = Punto de crecimiento
    .flag_leaf = Hoja bandera
    .boot = Embuche
    .half_bloom = Media floración
    .soft_dough = Grano pastoso
    .hard_dough = Grano pastoso duro
    .black_layer = Capa negra

units-from-planting = Unidades de calor desde la siembra. Hacen falta media floración y capa negra; lo demás ayuda.
need-numbers = Dé la base, el límite y cada marca como número.
start-from = Empezar con los números de
save-set = Guardar la tabla

hybrids-title = Híbridos
hybrids-empty = Todavía no hay híbridos. Se nombran en la siembra.

hybrid-plantings =
    { $count ->
        [one] 1 siembra
       *[other] { $count } siembras
    }

maturity = Clase de madurez
maturity-text = De la guía de semilla. Dice cuánto calor toma la media floración antes de ver nada en el campo.

class-name =
    .early = Precoz
    .medium_early = Intermedio-precoz
    .medium = Intermedio
    .medium_late = Intermedio-tardío
    .late = Tardío

class-unknown = Sin indicar
class-units = media floración tras unas { $units } unidades
days-in-guide = Días a media floración en la guía
days-hint = elige la clase; las guías difieren unos días (práctica común)
pace-title = Ritmo tras la media floración
pace-text = Comparado con la tabla publicada: 100 pide el calor de la tabla, 105 pide 5 % menos.
pace-published = Solo la tabla: { PERCENT($low) } a { PERCENT($high) }, 80 % de seguridad.

pace-learned =
    Con lo que mostraron aquí { $plantings ->
        [one] { $plantings } siembra
       *[other] { $plantings } siembras
    }: cerca de { PERCENT($mid) } ({ PERCENT($low) } a { PERCENT($high) }).

pace-nothing = Ninguna siembra suya ha mostrado nada aún; vale solo la tabla.
pace-next = Su próxima siembra: { PERCENT($low) } a { PERCENT($high) }; las siembras de un híbrido también difieren.
bloom-title = Calor a media floración
bloom-line = Unas { $mid } unidades desde la siembra ({ $low } a { $high }).
bloom-published = Solo la tabla: { $low } a { $high }.

planting-pace =
    cerca de { PERCENT($mid) } ({ PERCENT($low) } a { PERCENT($high) }), de { $sightings ->
        [one] 1 recorrida o fecha de floración
       *[other] { $sightings } recorridas o fechas de floración
    }

planting-unseen = todavía sin recorrer
other-set = contada con otra tabla de unidades de calor; aquí no enseña nada
chart-label = Ritmo: la tabla, lo aprendido y cada siembra
row-published = Tabla
row-learned = Aprendido
row-next = Próxima siembra
table-title = En tabla
table-what = Qué
table-low = Bajo
table-mid = Medio
table-high = Alto

half-bloom-hint = la mitad de las plantas en flor; afina cada fecha
emptied = Sin indicar

step =
    .reading = Leyendo el archivo
    .storing = Guardando

progress = { $step }: { PERCENT($share) } %
stopping = Deteniendo: no se guarda nada
stopped-file = Detenido. No se guardó nada del archivo.

maturity-of =
    .early = Híbrido precoz
    .medium_early = Híbrido intermedio-precoz
    .medium = Híbrido intermedio
    .medium_late = Híbrido intermedio-tardío
    .late = Híbrido tardío

maturity-not-known = clase de madurez del híbrido sin indicar
