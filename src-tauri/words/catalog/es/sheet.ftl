### What the field sheet alone says; the rest of it are the messages of the screens.

title = Hoja de campo
not-walked = Todavía sin recorrer; no se conoce su etapa.

walked =
    Recorrida el { DATE($on) }: { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    } en { $stops ->
        [one] { $stops } parada
       *[other] { $stops } paradas
    }.

walked-by =
    Recorrida el { DATE($on) } por { $scout }: { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    } en { $stops ->
        [one] { $stops } parada
       *[other] { $stops } paradas
    }.

earlier =
    { $count ->
        [one] Bajo la línea, más tenue, una recorrida anterior.
       *[other] Bajo la línea, más tenues, { $count } recorridas anteriores.
    }

heads-reached = Panojas que llegaron a
about = cerca de
between = entre
no-dates = Sin fechas. { $why }
window-possible-now = { $window }: { SPAN($from, $to, $today) }, posible ahora
widest = Como máximo { SPAN($earliest, $latest, $today) }.

more-windows =
    { $count ->
        [one] Otra fecha clave está en la aplicación.
       *[other] Otras { $count } fechas clave están en la aplicación.
    }

map-title = Dónde se leyeron panojas
unknown-title = Lo que no se sabe

few-stops =
    { $stops ->
        [one] Solo se miró una parada; el resto de la siembra puede ser distinto.
       *[other] Solo se miraron { $stops } paradas; el resto de la siembra puede ser distinto.
    }

contradicts = Esta recorrida no concuerda con las anteriores, que quedan fuera.
old-walk = La recorrida tiene { $days } días; la siembra avanzó desde entonces.
no-positions = Dónde estaban las paradas: ninguna tiene posición.
weather-until = El clima después del { DATE($on) }; en su lugar valen temporadas pasadas.
no-moisture = La humedad del grano: no se midió aquí. Mídala antes de cosechar.
one-planting = Otras siembras: esta hoja trata solo de esta.
# For a native reader: aplicador autorizado; técnico.
who-decides = Una estimación de panojas leídas a mano, no un consejo. Deciden la etiqueta, las normas locales y su aplicador autorizado o técnico. Haga analizar el forraje antes de darlo.
made = Hecha el { DATE($on) }, { $time }
made-by = Hecha el { DATE($on) }, { $time }, por { $by }
