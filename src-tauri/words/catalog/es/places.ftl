### Outlines, stops on the ground, and where to stop next.

position =
    .off = No se busca la posición.
    .looking = Buscando su posición
    .refused = La aplicación no puede ver su posición. Permítalo en los ajustes del aparato; se puede recorrer sin ella.
    .unavailable = Aquí no hay posición. Se puede recorrer sin ella.

meters = { $meters } m
feet = { $feet } pies
known = Su posición es buena hasta { $good }.

old =
    Su posición es de hace { $minutes ->
        [one] { $minutes } minuto
       *[other] { $minutes } minutos
    } (buena hasta { $good }).

north-letter = N
where-am-i = ¿En qué siembra estoy?
at = Está en { $name }
near = { $name } está a { $length } de aquí
may-be-at = Puede que esté en { $name } (posición buena solo hasta { $good })
nothing-near = No hay cerca ninguna siembra con lugar conocido.
map-title = Dónde pararon las recorridas

drawn =
    { $stops ->
        [0] El contorno de la siembra. Ninguna parada tiene lugar todavía.
       *[other] { $stops ->
            [one] { $stops } parada
           *[other] { $stops } paradas
        } de { $walks ->
            [one] { $walks } recorrida
           *[other] { $walks } recorridas
        }, la última más oscura.
    }

no-outline = Todavía sin contorno ni paradas con lugar.
where-to-stop = Dónde parar
next-is = Sigue: parada { $stop } de { $stops }

toward =
    .n = norte
    .ne = noreste
    .e = este
    .se = sureste
    .s = sur
    .sw = suroeste
    .w = oeste
    .nw = noroeste

way-to-stop = Parada { $stop }: { $length } ({ $paces } pasos) al { $toward }
you-are-there = Está en la parada { $stop }.
all-done = Todas las paradas del plan están hechas. Las punteadas quedan de reserva.
plan-drawn = La siembra desde arriba con { $stops } paradas planeadas en orden y { $spare } lugares de reserva.
legend = Números: paradas planeadas. Marca: hecha. Puntos: dónde paró. Punteado: de reserva. Cruz: usted.
walk-length = Unos { $length } de la primera a la última, a { $edge } de todo borde.
no-plan = No hay plan dentro del contorno:
paced-intro = Aquí no hay contorno: cuente desde la esquina por donde entra, { $rows } surcos a lo ancho y { $paces } pasos a lo largo.
stop = Parada { $at }:
rows-on = { $rows } surcos más
rows-back = { $rows } surcos atrás
paces-up = { $paces } pasos surco arriba
paces-down = { $paces } pasos surco abajo
rows = Surcos a lo ancho
paces = Pasos a lo largo del surco
plan-stops = Paradas de un plan
plan-edge = Lejos de los bordes
why-balanced = Los lugares salen al azar y bien repartidos, para que nadie elija la esquina buena. La misma recorrida conserva su plan.
to-walk = Volver a la recorrida
bring-in = Traer el contorno de un archivo de mapa
bring-other = Traer otro contorno
remove-outline = Quitar este contorno
remove-sure = ¿Quitar el contorno? Las paradas y recorridas quedan.
remove-yes = Quitar
keep = Dejarlo
outline-removed = Se quitó el contorno.
file-title = Traer contornos de lotes
file-intro = Un archivo de mapa con los lotes como polígonos: GeoJSON, KML o KMZ, o un shapefile. Verá de quién es cada contorno antes de guardar nada.
file-shape = De un shapefile elija el zip, o el .shp junto con su .dbf y su .prj, que dice qué significan sus números.

holds =
    { $name } contiene { $outlines ->
        [one] { $outlines } contorno
       *[other] { $outlines } contornos
    }

no-targets = Todavía no hay siembras a las que dar un contorno. Agregue antes las siembras.
nameless = Contorno { $at }
corners = { $corners } puntos
already = Ya está así en el cuaderno.
replaces = Toma el lugar del contorno que hay.
refused = No se puede usar:
whose = Contorno de
nobodys = dejar fuera
field = Lote { $name }

store =
    Guardar { $count ->
        [one] { $count } contorno
       *[other] { $count } contornos
    }

nothing-to-store = Nada nuevo que guardar: dé un contorno a una siembra o elija otro archivo.

stored =
    { $count ->
        [one] Se guardó 1 contorno.
       *[other] Se guardaron { $count } contornos.
    }

stop-placed = lugar ±{ $good }
stop-unplaced = sin lugar
