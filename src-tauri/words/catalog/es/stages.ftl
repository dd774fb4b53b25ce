### Stages, bands and shares. Every number that is a guess is said with its two ends.

tenths =
    .t2 = dos
    .t3 = tres
    .t4 = cuatro
    .t6 = seis
    .t7 = siete
    .t8 = ocho
    .t9 = nueve

at = en { $stage }
in-bloom = en flor
ends = entre { CHANCE($low) } y { CHANCE($high) } de cada cien
one-end = { CHANCE($value) } de cada cien

heads-at =
    { $many ->
        [hardly] Casi ninguna panoja está
        [one] Cerca de una de cada diez panojas está
        [half] Cerca de la mitad de las panojas están
        [all] Casi todas las panojas están
       *[other] Cerca de { $tenths } de cada diez panojas están
    } { $at } ({ $ends }).

grain-at =
    { $many ->
        [hardly] Casi nada del grano está
        [one] Cerca de una décima parte del grano está
        [half] Cerca de la mitad del grano está
        [all] Casi todo el grano está
       *[other] Cerca de { $tenths } décimas partes del grano están
    } { $at } ({ $ends }).

place-of =
    { $kind ->
        [past] poco después de { $stage }
        [between] a medio camino de { $stage }
        [nearing] cerca de { $stage }
       *[at] { $stage }
    }

standing-sure = En { $stage } ({ CHANCE($chance) } de cada cien).
standing-likely = Probable { $stage } ({ CHANCE($chance) } de cada cien), si no { $other } ({ CHANCE($otherChance) }).
standing-split = { CAPITAL($stage) } o { $other } ({ CHANCE($chance) } y { CHANCE($otherChance) } de cada cien).
vaguest-at = No se sabe bien cuántas panojas están { $at }: de { CHANCE($low) } a { CHANCE($high) } de cada cien.
nothing-vague = Cada parte de abajo se conoce con un margen de menos de un quinto.
band-at = Con { CHANCE($level) } probabilidades de cada cien la siembra está en { $place }.
band-one = Con { CHANCE($level) } probabilidades de cada cien la siembra está { $place }.
band-between = Con { CHANCE($level) } probabilidades de cada cien la siembra está entre { $low } y { $high }.
line-at = { CAPITAL($stage) }. { $band }

earlier =
    { $count ->
        [one] Debajo, más tenue, una recorrida anterior.
       *[other] Debajo, más tenues, { $count } recorridas anteriores.
    }

line-without = Línea de etapas de embuche a capa negra, todavía sin recorridas.
enough = Basta: se cumplió la meta.
no-heads = Todavía no hay panojas.

more-stops-gain =
    { $stops ->
        [one] { $stops } parada más de { $heads } (unos { $minutes } min) estrecharía la banda a { NUMBER($width, maximumFractionDigits: 1) } etapas.
       *[other] { $stops } paradas más de { $heads } (unos { $minutes } min) estrecharían la banda a { NUMBER($width, maximumFractionDigits: 1) } etapas.
    }

more-stops-some = Más paradas estrecharían la banda.

more-stops-short =
    { $stops ->
        [one] { $stops } parada más de { $heads } (unos { $minutes } min) estrecharía la banda a { NUMBER($width, maximumFractionDigits: 1) } etapas, sin llegar a la meta.
       *[other] { $stops } paradas más de { $heads } (unos { $minutes } min) estrecharían la banda a { NUMBER($width, maximumFractionDigits: 1) } etapas, sin llegar a la meta.
    }

more-stops-none = Más paradas no alcanzarían la meta hoy.
