### Ripe grain: how wet, when dry, what waiting costs, what lies on the ground.

open = Grano y cosecha
title = Grano y cosecha
moisture-title = Humedad
moisture-now = Humedad del grano hoy cerca de { NUMBER($mid, maximumFractionDigits: 1) } % ({ NUMBER($low, maximumFractionDigits: 1) } % a { NUMBER($high, maximumFractionDigits: 1) } %).
drying-rate = Esta siembra se seca { NUMBER($mid, maximumFractionDigits: 2) } puntos al día ({ NUMBER($low, maximumFractionDigits: 2) } a { NUMBER($high, maximumFractionDigits: 2) }) con clima común de otoño.
level-note = Los rangos tienen 80 % de seguridad.
window-reached = ya alcanzado
window-span = { SPAN($from, $to, $today) }, fecha media { DATE($middle, $today) }
window-from = desde el { DATE($from, $today) }; no en los días que vienen en { $never } % de las temporadas simuladas
window-unlikely = no en los días que vienen en { $never } % de las temporadas simuladas

at-target =
    { NUMBER($target, maximumFractionDigits: 1) } { $own ->
        [true] %, su objetivo
       *[other] %
    }

other-same = Las otras constantes publicadas para sorgo dan el mismo día para su objetivo.

other-later =
    Con las otras constantes publicadas para sorgo su objetivo llega { $days ->
        [one] { $days } día
       *[other] { $days } días
    } después.

other-earlier =
    Con las otras constantes publicadas para sorgo su objetivo llega { $days ->
        [one] { $days } día
       *[other] { $days } días
    } antes.

other-never = Con las otras constantes publicadas para sorgo su objetivo puede no llegar en los días que vienen.

rests-on =
    Basado en { $readings ->
        [0] ninguna lectura de humedad
        [one] un día de lecturas
       *[other] { $readings } días de lecturas
    } y en el clima de { $seasons } temporadas pasadas.

no-reading = Aún no hay lectura de humedad. Una lectura estrecha esto más que cualquier otra cosa.
off-by = La lectura del { $on } ({ NUMBER($told, maximumFractionDigits: 1) } %) está lejos de lo esperado ({ NUMBER($expected, maximumFractionDigits: 1) } %). Revise el medidor o la muestra.
no-weather = { $days } días no tenían datos del clima y se tomaron como comunes.
fan-label = Humedad en los días que vienen
fan-hint = Toque el gráfico para leer un día.
moisture-on = { $on }: { NUMBER($mid, maximumFractionDigits: 1) } % ({ NUMBER($low, maximumFractionDigits: 1) } % a { NUMBER($high, maximumFractionDigits: 1) } %)
table-title = Como tabla
table-day = Día
table-low = 10 % de probabilidad por debajo
table-mid = Medio
table-high = 10 % de probabilidad por encima
add-reading = Agregar una lectura de humedad
count-ground = Contar semillas en el suelo
score = Calificar las plantas en pie
mark-cut = Se cosechó hoy
marked = Marcada como cosechada.
cut = Se cosechó el { $on }. Lo de abajo es como estaba ese día.
not-cut-after-all = Todavía sin cosechar
over = La temporada de esta siembra terminó. Lo que ve es del { $on }.
money-title = Qué cuesta esperar
money = { DOLLARS($value) }
best-day = Conviene empezar el { $day }: cerca de { $net }.
as-good = { DATE($day, $today) } (cualquier día de { SPAN($from, $to, $today) } difiere menos de 1 %)
net = { $amount } { $area }
net-between = { $amount } { $area } ({ $low } a { $high })
at-the-end = Es el último día considerado; uno posterior puede ser aún mejor.
waiting-costs = Esperar una semana desde el { DATE($from, $today) } cuesta cerca de { DOLLARS($amount) } { $area }; pierde dinero en { CHANCE($loses) } de las temporadas simuladas.
waiting-gains = Esperar una semana desde el { DATE($from, $today) } gana cerca de { DOLLARS($amount) } { $area }; pierde dinero en { CHANCE($loses) } de las temporadas simuladas.

why =
    .loss_not_known = No se da un día: la pérdida en pie no está indicada ni contada, y esperar parecería gratis. Cuente el suelo en dos días, o indique la pérdida abajo.
    .wet_grain_cost_not_known = No se da un día: el costo del grano húmedo no está indicado, y cortar húmedo parecería gratis. Indique cómo lo cobra su comprador.
    .not_fit_in_time = El grano probablemente no esté apto para cosechar en los días que vienen.

money-label = Retorno neto según el día en que empieza la cosecha
net-on = { $on }: { DOLLARS($mid) } { $area } ({ DOLLARS($low) } a { DOLLARS($high) })
per-acre = por acre
per-hectare = por hectárea
acres-assumed = La siembra no tiene superficie indicada: se supuso { $size }.
what-if-title = Qué pasa si
what-if-note = Deslice: la curva responde al momento. No se guarda nada hasta que toque Guardar.
keep-these = Guardar estos para esta siembra
lay-aside = Volver a lo guardado
kept = Guardado.
sensitivity-title = Lo que más importa
sensitivity-note = Cada dato solo en sus dos extremos, los demás como están; lo que puede costar no saberlo, lo mayor primero.
regret = no saberlo puede costar { $amount }
swing = neto de { $low } a { $high }
guesses-none = Nada aquí está supuesto.
all-terms = Precios y plan
terms-title = Precios y plan
terms-of-all = Valen para todas las siembras que no tienen un número propio.
terms-of-one = Valen para { $name }. Lo que no se indica aquí usa el ajuste de todas las siembras.
terms-for-all = Números para todas las siembras

groups =
    .money = Precio y rendimiento
    .outlet = Destino y secadora
    .standing = Pérdidas en pie
    .weather = Daño por el clima
    .sample = Calidad del grano ahora
    .machines = Máquinas
    .seeds = Semillas en el suelo

wet-title = Grano húmedo
wet-set = Indicar el costo del grano húmedo
wet-not-known = El costo del grano húmedo no está indicado. Hasta entonces no se da un día de cosecha.
wet-by-weight = Un comprador que paga por peso descuenta solo lo que dice la tabla de humedad. Sin sus líneas no se da un día de cosecha.
wet-shrink-note = Los compradores suelen descontar de 1.2 % a 1.5 % por punto (práctica común; vea la hoja de su comprador). El agua sola es { NUMBER($least, maximumFractionDigits: 2) } %.
wet-table-note = Llene abajo las líneas de humedad de la hoja de su comprador.
wet-energy-note = Para un cargo que no conoce: 0.022 galones de propano por bushel y punto, combustible y ventiladores (NDSU Extension), o el mismo calor de otro combustible.
wet-field = { $what }, { $unit }
wet-field-optional = { $what }, { $unit }, si lo hay
wet-need-number = Indique cada número como un número mayor que cero.
wet-pays-for-water = { NUMBER($typed, maximumFractionDigits: 2) } % por punto paga agua. Use { NUMBER($least, maximumFractionDigits: 2) } % o más.
wet-too-much = Una merma de más de { $most } % por punto no puede ser. Revise la hoja del comprador.
wet-pay-title = Lo que le pagan
wet-pay-note = Compare con el comprobante de su comprador antes de guardar.
wet-pay = { NUMBER($moisture, maximumFractionDigits: 1) } %: { $pay } tal como se corta, { NUMBER($off, maximumFractionDigits: 1) } % del peso descontado
wet-pay-refused = { NUMBER($moisture, maximumFractionDigits: 1) } %: lo rechaza la tabla
wet-save = Guardar para grano húmedo

discounts-title = Los descuentos del comprador
discounts-note = De la hoja del propio comprador: más allá de cada límite, tanto menos. Cuenta solo el último límite pasado.
discounts-none = Aún no hay tabla.
discount-beyond = { $factor } sobre, { $unit }
discount-below = { $factor } bajo, { $unit }

discount-off =
    .us = Centavos menos por bushel
    .metric = Dólares menos por tonelada

discount-refused = Se rechaza más allá de
add-line = Agregar una línea
remove-line = Eliminar la línea { $line }
keep-table = Guardar esta tabla
table-number = Un campo no tiene número: indique el límite y el descuento como números.
grain-title = Cuánto vale el grano
moisture-of-grain = Humedad del grano
worth-refused = Vale { $value } antes de descuentos; la tabla del comprador lo rechaza.
worth = Vale { $value }; tras descuentos y secado { $net }.
grade-line = Con los factores dados puede ser { $grade } como mejor; quien califica es un inspector autorizado.
grade-unknown = Ningún factor de grado está indicado. Indique el peso hectolítrico y el daño para ver el grado que permiten.
grade-missing = Sin indicar, cada uno podría bajarlo: { $factors }.
grade-source = Límites: 7 CFR 810.1404. La humedad no es factor de grado.
discount-line = { $factor } { $value }: { $off } menos
discount-refuses = { $factor } { $value }: rechazado
storage-temp = Temperatura del grano guardado

storage-days =
    Se conserva { $answer ->
        [more_than] más de
        [less_than] menos de
       *[about] unos
    } { $days } días a esta temperatura; cada día gasta una parte.

storage-source = Tiempo de almacenamiento permitido para cereales, NDSU Extension.
formulas = Cada fórmula con sus números
reading-title = Lectura de humedad
meter = Medida con
meter-name = Cuál medidor
meter-name-hint = las lecturas de un medidor comparten su error
meter-error = Su error, puntos
meter-error-hint = opcional; si no, cuenta el error común de su tipo
day = Día
sample = Muestra { $at }, %
sample-hint = cada una de su propio lugar
more-sample = Una muestra más
reading-hints-title = Cómo lograr una lectura confiable
reading-hints-cold = Muchos medidores fallan con grano a menos de unos { $cold }. Selle la muestra fría, déjela llegar a temperatura ambiente y luego mida. Sin microondas (NDSU Extension).
reading-hints =
    .tillers = El grano de los macollos está más húmedo. Incluya tanto como cortará la cosechadora (práctica común).
    .mix = Tome grano de varias plantas, mézclelo, mídalo tres veces e indique las tres.
    .buyer = Compare su medidor con el del comprador, que decide el pago. Indique las lecturas del medidor del comprador con su propio nombre: cada medidor tiene su error.
    .wet = Sobre 25 %, tome toda lectura como una estimación (NDSU Extension, en maíz).
note = Nota
keep-reading = Guardar la lectura
need-percent = Indique cada muestra como porcentaje de 3 a 70, o déjela vacía.
mean = Media { NUMBER($mean, maximumFractionDigits: 1) } % de { $count }.
readings-title = Lecturas

reading-line =
    { $on }: { NUMBER($mean, maximumFractionDigits: 1) } % ({ $count ->
        [one] una muestra
       *[other] { $count } muestras
    })

correct = Corregir
remove = Eliminar
removed = Eliminado.
taken = Deshecho.
ground-title = Semillas en el suelo
ground-note = Ponga un marco en lugares por todo el campo, no solo donde se ve mal. Cuente semillas sueltas; las panojas enteras, aparte.
frame = Marco
frame-other = Otro tamaño
frame-number = Marco { $at }
tap-count = { $count } semillas. Toque para una más
tap-hint = toque por cada semilla
fewer = Una menos
plus-ten = +10
next-frame = Siguiente marco
heads-on-ground = Panojas enteras en todos los marcos
heads-hint = una panoja en un marco chico pesa mucho: cuéntelas en uno grande
keep-count = Guardar el conteo
frame-done = Marco { $at }: { $seeds }
so-far = { $perFoot }: cerca de { $loss } en el suelo ({ $low } a { $high }).
seeds-per-foot = { NUMBER($value, maximumFractionDigits: 1) } semillas por pie cuadrado
seeds-per-meter = { $value } semillas por metro cuadrado
of-crop = { NUMBER($share, maximumFractionDigits: 1) } % del cultivo.
loss-a-day = Por el primer y el último conteo se pierde { NUMBER($value, maximumFractionDigits: 2) } % del cultivo al día ({ NUMBER($low, maximumFractionDigits: 2) } % a { NUMBER($high, maximumFractionDigits: 2) } %). La respuesta de cosecha lo usa.
one-count = El conteo de un día dice cuánto hay, no qué tan rápido cae. Cuente otra vez en unos días.
ground-source = Conversión: 16 a 21 semillas por pie cuadrado son un bushel por acre (Texas Coastal Bend, 2010), de 13,000 a 16,000 semillas por libra.
counts-title = Conteos

# For a native reader: plantas en pie for standability; acamadas (also volcadas).
standing-title = Plantas en pie
lodged = Plantas acamadas, por ciento
lodged-hint = caídas, o inclinadas más de 45 grados
weak = Tallos débiles, por ciento
weak-hint = empuje cada uno a la altura del brazo o apriete su base: ¿vuelve?
weak-none = No se probó
weathering = Deterioro del grano por el clima

weathering-words =
    .score0 = Brillante y sano
    .score3 = Opaco, algo de moho
    .score6 = Mucho moho o brotado
    .score9 = Todo perdido

weathering-hint = 0 brillante y sano, 9 todo perdido, a ojo
keep-score = Guardar la calificación
scores-title = En el tiempo
scores-none = Aún no hay calificación. Califíquela en cada visita: lo que cambia decide.
score-of = { $on }: { NUMBER($lodged, maximumFractionDigits: 1) } % acamadas, deterioro { $weathering } de 9
score-with-weak = { $on }: { NUMBER($lodged, maximumFractionDigits: 1) } % acamadas, deterioro { $weathering } de 9, { NUMBER($weak, maximumFractionDigits: 1) } % tallos débiles
marks-of = { $on }, de { $heads } panojas: { CHANCE($lodged) } en plantas acamadas ({ CHANCE($lodgedLow) } a { CHANCE($lodgedHigh) }), { CHANCE($moldy) } con moho ({ CHANCE($moldyLow) } a { CHANCE($moldyHigh) })
legend-lodged = acamadas, %
legend-weathering = deterioro, 0-9
order-title = Orden de cosecha
order-text = Una cosechadora y una secadora para todas: el orden con el mayor retorno total.
order-improved = Con tantas siembras es un buen orden, pero quizá no el mejor.
order-empty = Ninguna siembra está lista para cosechar.
order-sum = Todas juntas cerca de { $net }.
order-line = { $span }: cerca de { $net } en total
given-up = cede { $amount } por esperar a las otras
no-wet-cost = Costo del grano húmedo sin indicar: cortar húmedo parece gratis para esta siembra.
no-loss = Pérdida en pie sin indicar: esperar parece gratis para esta siembra.
left-out = Fuera del orden
was-cut = cosechada el { DATE($on, $today) }

not-in-order =
    .not_fit = probablemente no apta para cosechar en los días que vienen
    .silage = para ensilaje
    .over = su temporada terminó

caution =
    .bin = El grano que fluye hunde a una persona en segundos. Antes de entrar a un silo: descarga apagada y bloqueada con candado, arnés y alguien afuera, nunca a solas. La capacitación y las reglas locales deciden.
    .dryer = Las secadoras se incendian. Manténgalas limpias y a la vista mientras trabajan, y sepa cortar combustible y ventiladores. El manual y las reglas locales deciden.
    .dust = El polvo de grano daña los pulmones y puede explotar: use mascarilla, evite chispas.
    .heat = Con calor: beba, descanse a la sombra y no cuente a solas lejos de ayuda.
