### What exactly is wrong with what was given. Names of columns, and words that belong in a file, are written as in the file.

row-too-long = la fila pasa de 16 KB: ¿falta una comilla de cierre?
field-count = la fila tiene { $fields } campos y el encabezado { $columns }: revise si falta una coma o hay una sin comillas
row-too-short = la línea es demasiado corta: complete cada columna del encabezado
not-of-layout = la línea no tiene el formato de este archivo
value-missing = { $column } está vacío: toda fila lo necesita
name-too-long = { $column } pasa de { $most } caracteres
control-character = { $column } contiene un carácter de control o un salto de línea
date-missing = { $column } está vacío: use una fecha como AAAA-MM-DD
not-a-date = { $column } '{ $text }' no es una fecha: use AAAA-MM-DD
far-date = { $column } { $date } está fuera de { $first } a { $last }: revise el año
reading-missing = reading está vacío: use boot, emerging, bloom, liquid, pliable, dented o dark_spot
unknown-reading = lectura desconocida '{ $text }': use boot, emerging, bloom, liquid, pliable, dented o dark_spot
share-not-whole = share '{ $text }' no es un número entero: use un porcentaje entero de 1 a 100
share-out-of-range = share { $share } está fuera de rango: use un porcentaje entero de 1 a 100
share-missing = { $reading } necesita share: un porcentaje entero de 1 a 100
share-on-boot = boot no lleva share: déjelo vacío
not-degrees = { $column } '{ $text }' no es una posición: use grados de -{ $limit } a { $limit }
swapped = latitude '{ $latitude }' no es una latitud, pero podría ser una longitud: si las dos columnas están cambiadas, cambie sus nombres en el encabezado
position-half = { $given } sin { $missing }: dé los dos o ninguno
planting-unnamed = la siembra no tiene nombre
planting-again = la siembra '{ $name }' ya está en la línea { $first }: esta línea se deja de lado
unknown-purpose = purpose '{ $text }' no se conoce: use grain, silage o seed
not-an-area = { $column } '{ $text }' no es una superficie: use un número mayor que 0
bloom-before-planting = half_bloom_on { $bloom } es anterior a planted_on { $planted }: revise las dos fechas
not-a-number = { $column } '{ $text }' no es un número
failed-quality = { $element } no pasó el control de calidad de la fuente '{ $flag }': se dejó fuera
