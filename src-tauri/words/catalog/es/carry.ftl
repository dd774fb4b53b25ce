### Files out of the notebook and in again, and the field sheet.

title = Exportar
which = ¿Qué quiere exportar?

kinds-title =
    .notebook = El cuaderno entero
    .heads = Panojas
    .plantings = Siembras
    .weather = Clima
    .stops = Paradas en un mapa

kinds-text =
    .notebook = Un archivo zip con todo: para guardar o para pasar a otro teléfono.
    .heads = Una tabla CSV, una panoja por fila.
    .plantings = Una tabla CSV, una siembra por fila.
    .weather = Una tabla CSV, un día por fila.
    .stops = GeoJSON, para un programa de mapas.

make = Exportar
making = Haciendo el archivo
made-file = { $name } está listo: { $size }.
bytes = { $bytes } bytes
kilobytes = { $kilobytes } KB
megabytes = { NUMBER($megabytes, maximumFractionDigits: 1) } MB
save = Guardar
share = Compartir
share-refused = La otra aplicación no aceptó el archivo. Guárdelo.
saved-at = Guardado en
private = El archivo lleva nombres, posiciones y notas. Déselo solo a quien pueda tenerlos.
in-title = Importar un cuaderno
in-intro = Elija el archivo zip que exportó el otro teléfono. Verá qué contiene antes de que se guarde nada; lo que este cuaderno ya tiene se queda.
made-at = { $name }, hecho el { MOMENT($at) }

holds =
    { $changes ->
        [one] { $changes } cambio
       *[other] { $changes } cambios
    } de { $devices ->
        [one] { $devices } aparato
       *[other] { $devices } aparatos
    }

fresh =
    Nuevo aquí: { $plantings ->
        [one] { $plantings } siembra
       *[other] { $plantings } siembras
    }, { $walks ->
        [one] { $walks } recorrida
       *[other] { $walks } recorridas
    }, { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }

photos =
    { $count ->
        [one] { $count } foto
       *[other] { $count } fotos
    }

parted = Este aparato y su copia siguieron por separado; se conservan ambas partes.
settings = Se importan también los ajustes del otro teléfono, porque este cuaderno está vacío.
bring-in = Importar
brought-in = El cuaderno está importado.
nothing-new = Todo lo de este archivo ya está aquí; no hay nada que importar.
sheet-open = Hoja de campo para el agricultor
sheet = Hoja de campo
sheet-intro = Una página para imprimir o enviar: la etapa y su seguridad, qué viene después y qué no se sabe.
sheet-no-walk = Todavía sin recorrer: la hoja lo dirá y mostrará fechas solo del clima.
sheet-language = Idioma de la hoja
paper = Papel

papers =
    .letter = Carta
    .a4 = A4

sheet-make = Hacer la hoja de campo
