### List of plantings, the page of one, and the form for one.

title = Siembras
add = Agregar una siembra
search = Buscar una siembra
search-hint = nombre, híbrido, lote

found =
    { $count ->
        [one] 1 siembra
       *[other] { $count } siembras
    }

none-found = Ninguna siembra lleva eso en su nombre, híbrido, lote o finca.
empty-title = Todavía no hay siembras
empty-text = Agregue la primera siembra que cuida; basta con su nombre. Si ya tiene panojas en un archivo, impórtelas.
import-instead = Importar panojas o siembras
walked = recorrida { AGO($days) }

due-because =
    .walk_open = Hay una recorrida abierta: termínela
    .overdue = Sin recorrer desde hace más de diez días
    .never_walked = Nunca recorrida
    .fresh = Recorrida hace poco
    .ripe = En capa negra: no hacen falta más recorridas para la etapa

due-for-stage = Ya debería estar en { $stage }
being-worked-out = Se está calculando la etapa

working-out =
    Calculando la etapa de { $left ->
        [one] { $left } siembra
       *[other] { $left } siembras
    }

# For a native reader: ensilaje (also silaje, silo).
purpose =
    .grain = Grano
    .silage = Ensilaje
    .seed = Semilla

planted = sembrada el { $when }
acres = { NUMBER($size, maximumFractionDigits: 1) } acres
hectares = { NUMBER($size, maximumFractionDigits: 1) } ha
edit = Editar
remove = Eliminar esta siembra
removed = Se eliminó { $name } con sus recorridas.
restored = { $name } está de vuelta.
start-walk = Empezar una recorrida
carry-on = Continuar la recorrida abierta
not-walked = Todavía sin recorrer; no se conoce su etapa. Suelen bastar unas cinco panojas en cada una de cinco paradas.
season-over = La temporada terminó para esta siembra: llegó a capa negra y no hacen falta más recorridas para la etapa.
one-head = Todo esto se apoya en una sola panoja. Otra, a cierta distancia, dice mucho más.
which-answer = Qué respuesta
with-history = Con recorridas anteriores
alone = Solo esta recorrida
contradicts = Esta recorrida no concuerda con las anteriores (probabilidad de que sigan valiendo: { $odds }), que quedan fuera. ¿Siembra correcta? ¿Granizo? ¿Mezcla de híbridos?
odds-least = menos de 1 en 1,000
odds = cerca de 1 en { $fields }
shares-title = Cuánto avanzaron las panojas
heads-tab = Panojas
grain-tab = Grano
heads-note = Una panoja llegó a una etapa cuando al menos la mitad de su largo la muestra, o una posterior; florece desde su primera antera.
grain-note = El grano se cuenta por largo de panoja: si una panoja es moldeable hasta la mitad, la mitad de su grano llegó a pastoso.
at-level = Cada rango tiene { PERCENT($level) } % de seguridad.

from =
    De { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    } en { $stops ->
        [one] { $stops } parada
       *[other] { $stops } paradas
    }

table-title = En una tabla
table-caption = Porcentaje de panojas que llegó a cada etapa: medio, y de menor a mayor; y la probabilidad, en por ciento, de que la siembra esté en ella
table-stage = Etapa
table-chance = Probable
how-title = ¿Cómo lo sabemos?

how-parts =
    .heads = La panoja madura de la punta hacia abajo, en seis o siete días. Una lectura con su parte fija la edad de la panoja en un intervalo, no en un punto.
    .stops = Las panojas de una parada se parecen, así que el modelo tiene una variación entre paradas y otra entre panojas. Pesa toda siembra que pudo mostrar estas panojas; los rangos son el centro de lo que queda.
    .earlier = Las recorridas anteriores se adelantan según el calor recibido, con margen de error, y entran como lo que se esperaba.
    .sources = La escala 0-9 es la de Vanderlip y Reeves, Agronomy Journal 64:13-16 (1972). Calor de media floración a grano pastoso, pastoso duro y capa negra: Kansas State University, Agronomy eUpdate 661 (2025), base 50 °F, límite superior 100 °F. El panojamiento y el grano lechoso se ubican por cálculo propio.

go-on-title = ¿Mirar más panojas?
walks-title = Recorridas

walk-on-by = { $date }, { $scout }

no-answer = Sin respuesta: ábrala para ver por qué.
open = abierta
open-walk = Abrir esta recorrida
remove-walk = Eliminar esta recorrida

remove-walk-sure =
    { $heads ->
        [one] Su { $heads } panoja deja de contar en toda respuesta. Se puede deshacer.
       *[other] Sus { $heads } panojas dejan de contar en toda respuesta. Se puede deshacer.
    }

remove-walk-yes = Eliminar la recorrida
keep-walk = Cancelar
walk-removed = Se eliminó la recorrida.
new-title = Siembra nueva
edit-title = Editar siembra
name = Nombre
name-hint = como la llama su equipo
name-needed = Póngale un nombre; es lo único necesario.
name-taken = Ya hay una siembra con ese nombre.
date-used = Fechas ya usadas
clear-date = Sin indicar
area = Superficie, { $unit }
unit-acres = acres
unit-hectares = hectáreas
area-bad = Indique la superficie como un número mayor que 0, o déjela vacía.
optional = opcional
save = Guardar
save-new = Guardar la siembra
known = Ya usados: { $what }
