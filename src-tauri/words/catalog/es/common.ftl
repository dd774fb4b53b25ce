### Words that many screens share.

stage =
    .boot = embuche
    .heading = espigado
    .half_bloom = media floración
    .milk = grano lechoso
    .soft_dough = masa blanda
    .hard_dough = masa dura
    .black_layer = capa negra

mark =
    .boot = embuche
    .heading = espigado
    .half_bloom = floración
    .milk = lechoso
    .soft_dough = masa blanda
    .hard_dough = masa dura
    .black_layer = capa negra

reading =
    .boot = Embuche
    .emerging = Saliendo
    .bloom = En flor
    .liquid = Líquido
    .pliable = Moldeable
    .dented = Se marca
    .dark_spot = Punto oscuro

flag =
    .moldy = Con moho
    .sheathed = En parte envainada
    .bird_fed = Comida por aves
    .sterile_florets = Flores estériles
    .lodged_plant = Planta acamada

problem =
    .no_signal = No se llegó al servidor del equipo. Intente donde haya señal.
    .not_trusted = El certificado del servidor no es de confianza. Pregunte al dueño si el servidor tiene uno propio.
    .not_let_in = El servidor no acepta este código: ya se usó, venció o está mal escrito. Pida otro al dueño.
    .removed = Este aparato fue quitado del equipo y ya lo olvidó. Sus panojas están todas aquí; pida una invitación a un dueño.
    .not_allowed = Su papel en el equipo no lo permite. Un dueño puede cambiarlo.
    .hub_busy = El servidor tiene demasiado trabajo. Intente en un minuto.
    .hub_full = El servidor no tiene más espacio para este aparato. No se perdió nada: todo queda aquí. Pida más espacio a quien maneja el servidor.
    .hub_version = La aplicación y el servidor son de versiones que no encajan. Actualice los dos.
    .last_owner = Un equipo necesita un dueño con un aparato. Nombre primero a otro dueño.
    .not_in_crew = Eso ya no está en el equipo.
    .bad_invitation = Esto no es una invitación. Pegue el enlace entero, o escriba las 20 letras y cifras y la dirección.
    .bad_exchange_file = Este archivo no se puede leer hasta el final. Lo que estaba entero se guardó; pida que lo envíen de nuevo.
    .other_crew = Este archivo es de otro equipo. No se tomó nada.
    .no_crew = Este aparato no está en ningún equipo. Únase primero a uno.
    .in_crew = Este aparato ya está en un equipo. Salga primero de ese.
    .no_token = Este cuaderno vino de otro aparato y su llave quedó allá. Únase con otra invitación; las panojas están todas aquí.
    .parted = El servidor y el aparato tienen cosas distintas con un mismo número. No se perdió nada; intente de nuevo.
    .stopped = Detenido; no se guardó nada.
    .crew_failed = El cuaderno no respondió. Intente de nuevo.
    .bad_input = Así no se puede usar; no se guardó nada.
    .not_found = Esto ya no está en el cuaderno. Vuelva atrás y ábralo de nuevo.
    .conflict = El cuaderno cambió entretanto y esto ya no encaja. Vuelva atrás y mire otra vez; no se guardó nada.
    .disk_full = No queda espacio en el aparato. Libere un poco; lo guardado antes está completo.
    .read_only = El cuaderno se puede leer pero no escribir. Mire los permisos de su archivo y su carpeta; no se guardó nada.
    .unavailable = El cuaderno no responde en este momento. Intente de nuevo.
    .from_newer_app = Este cuaderno lo escribió un Headwalk más nuevo. Actualice la aplicación; no se tocó nada.
    .damaged = El archivo del cuaderno está dañado. Headwalk puede rescatar lo que todavía se lee; el archivo se conserva.
    .incomplete = A esta copia del cuaderno le faltan cambios que se mostraron como guardados. Siga con lo que tiene o restaure una copia de seguridad; no se tocó nada.
    .stranger = Esta página es de un arranque anterior. Abra la dirección que mostró el programa.
    .internal = Headwalk cometió un error. Lo guardado antes está completo; intente de nuevo.

back = Atrás
done = Listo
undo = Deshacer
cancel = Cancelar
try-again = Intentar de nuevo
close = Cerrar
loading = Leyendo el cuaderno
not-said = sin indicar
nowhere = No existe esa pantalla.
to-plantings = A las siembras
main-tabs = Pantallas principales

tabs =
    .plantings = Siembras
    .fortnight = Quincena
    .more = Más

assumption = su supuesto
change-assumption = { $what }: { $value }, su supuesto. Cambiarlo
less = Menos: { $what }
more = Más: { $what }
