### Dates as spans, reasons why one is missing, and the windows that cost money.

title = Pronóstico
open = Pronóstico: ¿cuándo estará?
for-planting = Pronóstico de { $name }

event =
    .half_bloom = media floración
    .milk = grano lechoso
    .soft_dough = grano pastoso
    .hard_dough = grano pastoso duro
    .black_layer = capa negra
    .moisture_20 = grano al 20 %
    .moisture_18 = grano al 18 %
    .moisture_16 = grano al 16 %
    .moisture_14 = grano al 14 %

not-planted-yet = Se siembra el { DATE($on) }, después del día de este pronóstico.
nothing-to-start-from = No hay fecha de siembra ni recorrida de la que partir. Indique la fecha o recórrala una vez.
no-weather = No hay datos del clima hasta hoy. Importe un archivo del clima o escriba las máximas y mínimas.
heat-unknown = Faltan datos del clima desde el { DATE($from) } y no hay recorrida posterior. Complételos o recórrala una vez.
weather-ends-early = Los datos del clima terminan el { DATE($on) }. Importe días más nuevos.
no-days-ahead = No hay temporadas pasadas para los días que vienen. Importe años anteriores de la estación.
not-before-freeze = En { $chance } % de las temporadas simuladas no llega antes de una helada letal o del { DATE($horizon) }.
before-weather = Ocurrió antes de que empiecen los datos del clima.
no-moisture = La humedad del grano no se pronostica para esta siembra.
event-lacks = { CAPITAL($event) }: { LOWER($why) }

# For a native reader: desecante for a harvest aid; embuche.
window =
    .boot_nights = Noches frías en embuche
    .bloom_weather = Clima durante la floración
    .last_irrigation = Último riego
    .silage = Corte para ensilaje
    .harvest_aid = Desecante
    .freeze = Helada antes de la capa negra
    .prussic_acid = Ácido prúsico tras una helada
    .nitrate = Nitratos en el forraje

source-of = Fuente: { $source }

sources =
    .cold_sterility = Downes & Marshall 1971; Brooking 1976
    .bloom_heat = Prasad et al. 2015; Singh et al. 2015. Para la lluvia no se halló cifra publicada.
    .last_irrigation_practice = práctica común
    .silage_extension = extensión universitaria
    .harvest_aid_extension = extensión de Texas; GRDC 2014
    .freeze_loss = Staggenborg y Vanderlip 1996; extensión de Texas
    .prussic_acid_extension = extensión de Nebraska (5 a 7 días); otros estados (hasta dos semanas)
    .nitrate_practice = práctica común

# For a native reader: macollos (also hijuelos); aplicador autorizado; técnico o laboratorio for an extension office.
caution =
    .lines_differ_in_cold = Los híbridos difieren mucho en tolerancia al frío. Busque flores vacías dos semanas después de la floración.
    .rain_shown_no_loss_claimed = Los híbridos difieren en tolerancia al calor, y de la lluvia no se atribuye pérdida. Revise el cuaje.
    .irrigation_local_rules = Deciden el agua del suelo, su dotación y las normas locales.
    .test_whole_plant_moisture = Mida la humedad de la planta entera antes de cortar (65 a 70 %).
    .label_and_local_rules_first = Primero la etiqueta y las normas locales. Un desecante seca hoja, tallo y macollos tardíos, no el grano. Revise pudrición y acame, trate solo lo que se pueda cosechar a tiempo y consulte a un aplicador autorizado o a un técnico.
    .low_ground_freezes_first = Los bajos se hielan primero y la estación puede no notarlo.
    .test_ask_vet_prussic_acid = No pastoree ni corte en verde tras una helada; cada helada reinicia la espera. Haga analizar el forraje y consulte al veterinario y a un técnico o laboratorio.
    .test_ask_vet_nitrate = Haga analizar el forraje antes de darlo y consulte al veterinario y a un técnico o laboratorio.

found-cold-nights = { $cold } de { $nights } noches fueron de { $limit } o menos, { $inRow } seguidas como mucho; cinco seguidas esterilizaron líneas.
found-coldest = Noche más fría: { $lowest }.
found-chance-of-five = Probabilidad de cinco seguidas hasta el final: { CHANCE($chance) }.
found-hot-days = { $hot } de { $days } días pasaron de { $limit }, { $veryHot } de { $higherLimit }; tales máximas en floración reducen el cuaje.

found-warm-days =
    { $warm ->
        [one] { $warm } día tuvo
       *[other] { $warm } días tuvieron
    } media superior a { $limit }.

found-hottest = Máxima: { $highest }.

found-rain =
    Lluvia: { $rain } en { $days ->
        [one] { $days } día
       *[other] { $days } días
    }.

found-rain-unknown =
    No se conoce la lluvia de { $days ->
        [one] { $days } día
       *[other] { $days } días
    }.

found-chance-of-very-hot = Probabilidad de que aún venga un día de más de { $limit }: { CHANCE($chance) }.
found-last-irrigation = Desde grano pastoso, el agua del suelo lleva el grano.
found-silage = El ensilaje se corta hacia grano pastoso.
found-harvest-aid = Ni antes de la capa negra ni antes de que el grano baje de 30 % de humedad: lo que llegue más tarde.
found-freeze-was = Se llegó a { $limit } el { DATE($on) }.
found-freeze-chance = { $limit } antes de la capa negra: { CHANCE($chance) }.
found-freeze-loss = { $limit } durante cuatro horas en { $stage } costaron de { NUMBER($low, maximumFractionDigits: 1) } a { NUMBER($high, maximumFractionDigits: 1) } % del peso del grano.
found-no-freeze-loss = Para la etapa que una helada más probablemente encontraría no se halló pérdida publicada.
found-froze = Heló el { DATE($on) }. La espera publicada más corta termina el { DATE($least) }, la más larga el { DATE($most) }.
found-not-frozen = Ninguna helada hasta ahora que aún importe.
found-rain-three-weeks = Lluvia de las últimas tres semanas: { $rain }.
found-dry-three-weeks = Lluvia de las últimas tres semanas: { $rain }, o sea seco.
next = Lo que viene
event-between = { CAPITAL($event) }: { SPAN($from, $to, $today) }
event-not-before = { CAPITAL($event) }: no antes del { DATE($from, $today) }
middle = fecha media { DATE($iso, $today) }
level-note = Cada rango de fechas tiene 80 % de seguridad.
event-undated = { CAPITAL($event) }
event-passed = { CAPITAL($event) }: pasado
between-places = { $when }: de { $low } a { $high }.
touch-hint = Lleno: hasta hoy. Rayado: lo que viene. Toque el gráfico para leer un día.
strip-key = Cada día de mínima a máxima; debajo, la lluvia.
table-title = En tabla
table-caption = Fechas por suceso: 10 % de probabilidad de llegar antes, fecha media, 10 % de llegar después
table-event = Suceso
table-early = Pronto
table-middle = Medio
table-late = Tarde
windows-title = Fechas clave

standing =
    .ahead = Por venir
    .may_be_open = Posible ahora
    .past = Pasado
    .unknown = Sin fecha todavía

window-between = { SPAN($from, $to, $today) }, como máximo { SPAN($earliest, $latest, $today) }
window-now = { $window }: posible ahora
window-dated = { $window }: { SPAN($earliest, $latest, $today) }
window-until = hasta el { DATE($to, $today) }, a más tardar el { DATE($latest, $today) }
rests-title = En qué se basa

rests-sightings =
    { $sightings ->
        [one] { $sightings } recorrida o fecha de floración anotada
       *[other] { $sightings } recorridas o fechas de floración anotadas
    }

rests-tables = ritmo solo de las tablas publicadas

rests-learned =
    ritmo aprendido también de { $plantings ->
        [one] otra siembra
       *[other] otras { $plantings } siembras
    } del híbrido

rests-weather = clima del { DATE($from) } al { DATE($to) }
rests-weather-filled = clima del { DATE($from) } al { DATE($to) }, { $filled } días completados por regla
rests-no-seasons = sin temporadas pasadas para los días que vienen
rests-seasons = días que vienen como en { $seasons } temporadas pasadas
rests-few-seasons = días que vienen de solo { $seasons } temporadas pasadas, con rangos más anchos
fortnight-title = Próximas 2 semanas
fortnight-text = Fechas clave que pueden llegar en 14 días, primero la más cercana.
fortnight-empty = Ninguna fecha clave en 14 días. Importe datos del clima y recorra las siembras para ver más lejos.

fortnight-silent =
    { $count ->
        [one] { $count } siembra no tiene fechas:
       *[other] { $count } siembras no tienen fechas:
    }
