### Words that many screens share.

# For a native reader: panojamiento (also espigado); grano pastoso, pastoso duro (also masa blanda, masa dura); embuche.
stage =
    .boot = embuche
    .heading = panojamiento
    .half_bloom = media floración
    .milk = grano lechoso
    .soft_dough = grano pastoso
    .hard_dough = grano pastoso duro
    .black_layer = capa negra

mark =
    .boot = embuche
    .heading = panojamiento
    .half_bloom = floración
    .milk = lechoso
    .soft_dough = pastoso
    .hard_dough = pastoso duro
    .black_layer = capa negra

reading =
    .boot = Embuche
    .emerging = Saliendo
    .bloom = En flor
    .liquid = Líquido
    .pliable = Moldeable
    .dented = Se marca
    .dark_spot = Punto oscuro

# For a native reader: acamada (also volcada).
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
    .bad_input = Esto no se puede usar así; no se guardó nada. Revise lo que dio e intente de nuevo.
    .not_found = Esto ya no está en el cuaderno. Vuelva atrás y ábralo de nuevo.
    .conflict = El cuaderno cambió y esto ya no encaja; no se guardó nada. Vuelva atrás y mire otra vez.
    .disk_full = El aparato está lleno; lo guardado antes está a salvo. Libere espacio e intente de nuevo.
    .read_only = El cuaderno se puede leer pero no escribir; no se guardó nada. Revise los permisos de su archivo y su carpeta.
    .unavailable = No se llega al cuaderno en este momento; lo guardado antes está a salvo. Intente de nuevo.
    .from_newer_app = Una versión más nueva de Headwalk escribió este cuaderno; no se cambió nada. Actualice la aplicación.
    .damaged = El archivo del cuaderno está dañado; el archivo se conserva. Headwalk puede rescatar lo que todavía se lee.
    .incomplete = A esta copia del cuaderno le faltan cambios que se mostraron como guardados; no se cambió nada. Siga con lo que tiene o restaure una copia de seguridad.
    .stranger = Esta página es de un arranque anterior; no se cambió nada. Abra la dirección que mostró el programa.
    .internal = Headwalk cometió un error; lo guardado antes está a salvo. Intente de nuevo.

technical = Detalles técnicos
back = Atrás
done = Listo
undo = Deshacer
cancel = Cancelar
try-again = Intentar de nuevo
close = Cerrar
loading = Leyendo el cuaderno
nowhere = No existe esa pantalla.
to-plantings = Ir a las siembras
main-tabs = Pantallas principales

tabs =
    .plantings = Siembras
    .fortnight = Próximas 2 semanas
    .more = Más

assumption = su supuesto
change-assumption = { $what }: { $value }, su supuesto. Cambiarlo
less = Menos: { $what }
more = Más: { $what }
percent = { $value } %
under-one = menos de 1 %

over-ninety-nine = más de 99 %
