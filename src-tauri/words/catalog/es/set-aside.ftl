### Entries that do not count, and why.

title = Apartado
intro = Estas anotaciones no cuentan. Se guardan como llegaron, y todo lo demás cuenta igual que antes.
nothing = No hay nada apartado: todas las anotaciones cuentan.

link =
    Apartado: { $count ->
        [one] { $count } anotación
       *[other] { $count } anotaciones
    }

link-ahead =
    No cuentan en otros aparatos: { $count ->
        [one] { $count } anotación
       *[other] { $count } anotaciones
    }

own-title = El reloj de este aparato estaba adelantado

own-text =
    { $count ->
        [one] { $count } anotación de este aparato cuenta aquí, pero espera en todos los demás. Revise el reloj y luego anótela de nuevo.
       *[other] { $count } anotaciones de este aparato cuentan aquí, pero esperan en todos los demás. Revise el reloj y luego anótelas de nuevo.
    }

waiting-title = En espera: { $who }
waiting-text = Se hicieron con el reloj de ese aparato adelantado. Cada una cuenta sola cuando llega su hora.
due = Cuenta desde { MOMENT($at) }
again = Anotar de nuevo ahora

done =
    { $count ->
        [one] Se anotó de nuevo 1 anotación y ya cuenta.
       *[other] Se anotaron de nuevo { $count } anotaciones y ya cuentan.
    }

this-device = este aparato
other-device = otro aparato
rest-title = Por qué las demás no cuentan
made = Anotado { MOMENT($at) }
part = parte { $place }
unreadable = Esta versión de la aplicación no la puede leer. Actualice la aplicación; lo que una nueva pueda leer contará.
out-of-bounds = Un valor no puede ser correcto. Pida que se anote de nuevo.
out-of-bounds-in = Un valor no puede ser correcto ({ $what }). Pida que se anote de nuevo.
waiting = Espera hasta que llegue su hora.
told-again = Su hora estaba demasiado adelantada. Se anotó de nuevo y cuenta allí; no falta nada.
shown = Se muestran las últimas { $rows } de { $total }.
