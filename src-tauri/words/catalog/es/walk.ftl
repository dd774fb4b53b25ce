### The walk screen.

where =
    Parada { $stop }/{ $stops } · { $heads ->
        [one] { $heads } panoja
       *[other] { $heads } panojas
    }

finish = Terminar
reopen = Reabrir
finished = Esta recorrida está terminada. Reábrala para agregar o cambiar panojas.
date-cannot-be = La fecha de esta recorrida no puede ser correcta, así que no da respuesta. Sus panojas están a salvo; elija una fecha del { $first } al { $last }.
right-date = Fecha de esta recorrida
correct-date = Corregir la fecha
too-large = Esta recorrida tiene más de { $stops } paradas o { $heads } panojas, así que no da respuesta. Sus panojas están todas aquí.
key = Guía para leer el grano
advice = ¿Vale la pena recorrer más?
heads-here = Panojas de la parada { $stop }
earlier-stop = Parada anterior
later-stop = Parada siguiente
head-share = { $reading }, { $share } %
head-number = Panoja { $number }: { $head }
marked = con marca
corrected = corregida
saving = aún sin guardar
unsaved = sin guardar
share = Hasta dónde de la panoja
share-value = { $percent } por ciento desde la punta
share-none = sin indicar
percent = { $percent } %
readings = Qué muestra la punta de la panoja
explain = ¿Qué es { $reading }?
hint-both = Deslice por la panoja y toque lo que muestra la punta.
hint-share = Ahora deslice por la panoja hasta donde termina.
hint-reading = Ahora toque lo que muestra la punta: así se guarda.
same-again-as = Otra igual: { $head }
same-again-none = Otra igual
done-editing = Lista la panoja { $number }
editing = Panoja { $number }: deslice o toque; se guarda al momento.

undo =
    .head = Deshacer la última panoja
    .correction = Deshacer la última corrección
    .removal = Deshacer lo último eliminado
    .stop = Deshacer la última parada
    .photo = Deshacer la última foto

undone =
    .head = Se deshizo la última panoja.
    .correction = Se deshizo la última corrección.
    .removal = La panoja eliminada está de vuelta.
    .stop = Se deshizo la última parada.
    .photo = Se deshizo la última foto.

mark = Marcar
mark-title = Marcar la panoja { $number }
note = Nota sobre esta panoja
next-stop = Otra parada
remove-head = Eliminar panoja
removed = Se eliminó la panoja.

not-saved =
    { $heads ->
        [0] Aún sin guardar. { $why }
       *[other] { $heads ->
            [one] 1 panoja no está guardada
           *[other] { $heads } panojas no están guardadas
        }. { $why }
    }

unlike = No concuerda con las anteriores, que quedan fuera. ¿Siembra correcta? ¿Granizo? ¿Mezcla?
expected = Por recorridas anteriores:

which-head =
    { $paces } pasos más. Luego una de cada { $every } plantas a su { $side ->
        [left] izquierda
       *[right] derecha
    }: la panoja que su mano toque primero, sin mirarla.

still-unsaved = Guarde o elimine cada panoja antes de terminar la recorrida.
nothing-kept = No se leyó ninguna panoja, así que no se guardó la recorrida.
saved-head = Guardada: { $head }
options = Qué se ganaría con más recorrido

option =
    { $stops ->
        [one] 1 parada más de { $heads }
       *[other] { $stops } paradas más de { $heads }
    }

option-gains = rango de { $width } etapas, etapa { $chance } % segura, { $minutes } min
now = Ahora: rango de { $width } etapas, etapa { $chance } % segura.
meets = cumple su meta
no-options = Lea primero al menos una panoja.
rests-on = Suponiendo
