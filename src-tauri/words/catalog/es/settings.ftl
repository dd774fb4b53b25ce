### Settings, and the list of further screens.

title = Ajustes
scout = Su nombre
scout-hint = se guarda con cada recorrida que empieza
language = Idioma

languages =
    .en = English
    .es = Español

units = Unidades

unit =
    .us = Acres, °F, bushels
    .metric = Hectáreas, °C, toneladas

hand = Mano que sostiene el teléfono
right = Derecha
left = Izquierda
theme = Colores

themes =
    .system = Como el teléfono
    .light = Claro
    .dark = Oscuro

answers-title = Cuánta seguridad basta
level = Nivel de los rangos, por ciento
target-chance = La etapa es segura desde, por ciento
target-width = o rango no más ancho que, etapas
per-stop = Minutos para llegar a una parada más
per-head = Minutos para leer una panoja
heads-per-stop = Panojas que suele leer por parada
assumption-note = es un supuesto suyo. Las respuestas se apoyan en él; cámbielo donde lo vea.
more-title = Más
about = Acerca de
about-text = Todo queda en este aparato y funciona sin señal. Tipografía: Source Sans 3, con la licencia SIL Open Font License 1.1.
font-licence = Su licencia
