### Outlines, stops on the ground, and where to stop next.

position =
    .off = La posición está apagada.
    .looking = Buscando su posición
    .refused = La aplicación no puede ver su posición. Permítala en los ajustes del aparato; se puede recorrer sin ella.
    .unavailable = Aquí no hay posición. Se puede recorrer sin ella.

meters = { $meters } m
feet = { $feet } pies
known = Su posición tiene precisión de { $good }.

old =
    { $minutes ->
        [one] Su posición es de hace { $minutes } minuto (precisión de { $good }).
       *[other] Su posición es de hace { $minutes } minutos (precisión de { $good }).
    }

north-letter = N
where-am-i = Buscar mi lote
at = Está en { $name }
near = { $name } está a { $length } de aquí
may-be-at = Puede que esté en { $name } (precisión de solo { $good })
nothing-near = No hay cerca ninguna siembra con posición conocida.
map-title = Dónde pararon las recorridas

drawn =
    { $stops ->
        [0] El contorno de la siembra. Ninguna parada tiene posición todavía.
       *[other] { $stops ->
            [one] { $stops } parada
           *[other] { $stops } paradas
        } de { $walks ->
            [one] { $walks } recorrida
           *[other] { $walks } recorridas
        }, la última más oscura.
    }

no-outline = Todavía sin contorno ni paradas con posición.
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
plan-edge = Distancia a los bordes
why-balanced = Los lugares salen al azar y bien repartidos, para que nadie elija la esquina buena. La misma recorrida conserva su plan.
to-walk = Volver a la recorrida
bring-in = Importar el contorno de un archivo de mapa
bring-other = Importar otro contorno
remove-outline = Eliminar este contorno
remove-sure = ¿Eliminar el contorno? Las paradas y recorridas quedan.
remove-yes = Eliminar
keep = Cancelar
outline-removed = Se eliminó el contorno.
file-title = Importar contornos de lotes
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
already = Ya importado, sin cambios.
replaces = Reemplaza el contorno que hay.
refused = No se puede usar:
whose = Contorno de
nobodys = omitir
field = Lote { $name }

store =
    Importar { $count ->
        [one] { $count } contorno
       *[other] { $count } contornos
    }

nothing-to-store = Nada nuevo que importar. Elija una siembra para un contorno, u otro archivo.

stored =
    { $count ->
        [one] Se importó { $count } contorno.
       *[other] Se importaron { $count } contornos.
    }

stop-placed = posición ±{ $good }
stop-unplaced = sin posición
