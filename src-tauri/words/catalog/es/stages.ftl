### Stages, bands and shares. Every number that is a guess is said with its two ends.

heads-at = { CAPITAL(CHANCE($mid)) } de las panojas { $reached } ({ CHANCE($low) } a { CHANCE($high) }).

grain-at = { CAPITAL(CHANCE($mid)) } del grano llegó a { $stage } ({ CHANCE($low) } a { CHANCE($high) }).

place-of =
    { $kind ->
        [past] poco después de { $stage }
        [between] a medio camino de { $stage }
        [nearing] poco antes de { $stage }
       *[at] { $stage }
    }

standing-nearing = Cerca de { $next } ({ $stage }, { CHANCE($chance) } de seguridad).
standing-sure = { CAPITAL($stage) }, { CHANCE($chance) } de seguridad.
standing-likely = Probable { $stage } ({ CHANCE($chance) }), si no { $other } ({ CHANCE($otherChance) }).
standing-split = { CAPITAL($stage) } ({ CHANCE($chance) }) o { $other } ({ CHANCE($otherChance) }).
vaguest-at = Lo menos seguro: { CHANCE($low) } a { CHANCE($high) } de las panojas { $reached }.
nothing-vague = Cada parte de abajo se conoce con un margen de 20 puntos porcentuales.
band-at = { CHANCE($level) } de seguridad: en { $place }.
band-one = { CHANCE($level) } de seguridad: { $place }.
band-between = { CHANCE($level) } de seguridad: de { $low } a { $high }.
band-around = { CHANCE($level) } de seguridad: de poco antes a poco después de { $stage }.

line-at = { CAPITAL($stage) }. { $band }

earlier =
    { $count ->
        [one] Debajo, más tenue, una recorrida anterior.
       *[other] Debajo, más tenues, { $count } recorridas anteriores.
    }

line-without = Línea de etapas de embuche a capa negra, todavía sin recorridas.
reached = llegaron a { $stage }

reached-bloom = empezaron a florecer

enough = Basta: se cumplió su meta.
no-heads = Todavía no hay panojas.

more-stops-gain =
    { $stops ->
        [one] { $stops } parada más de { $heads } (unos { $minutes } min) estrecharía el rango a { NUMBER($width, maximumFractionDigits: 1) } etapas.
       *[other] { $stops } paradas más de { $heads } (unos { $minutes } min) estrecharían el rango a { NUMBER($width, maximumFractionDigits: 1) } etapas.
    }

more-stops-some = Más paradas estrecharían el rango.

more-stops-short =
    { $stops ->
        [one] { $stops } parada más de { $heads } (unos { $minutes } min) estrecharía el rango a { NUMBER($width, maximumFractionDigits: 1) } etapas, sin llegar a su meta.
       *[other] { $stops } paradas más de { $heads } (unos { $minutes } min) estrecharían el rango a { NUMBER($width, maximumFractionDigits: 1) } etapas, sin llegar a su meta.
    }

more-stops-none = Más paradas no alcanzarían su meta hoy.
