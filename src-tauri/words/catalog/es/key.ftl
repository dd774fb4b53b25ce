### The squeeze key.

# For a native reader: guía para leer el grano for the squeeze key.
title = Guía para leer el grano
first = Antes de la primera panoja
intro = La panoja madura de la punta hacia abajo. Lea la punta: ¿qué muestra un grano al apretarlo? Después busque hasta dónde llega eso en la panoja, y deslice hasta ahí.
feel = Cómo se siente
mistaken = Se confunde con
next = Qué mirar después
which-title = Qué panoja tomar
which = Ni la más bonita ni la más madura. Camine los pasos indicados, cuente las plantas indicadas y tome la panoja que su mano toque primero, sin mirarla. Una siembra juzgada por panojas escogidas siempre parece más madura de lo que es.
start = Empezar a leer panojas

entries-feel =
    .boot = La panoja sigue dentro de la vaina de la hoja bandera: un bulto que cede entre los dedos, sin nada a la vista.
    .emerging = Una parte de la panoja sale de la vaina; sus flores están cerradas, sin anteras.
    .bloom = Las anteras cuelgan de las flores, de la punta hacia abajo: amarillas si son frescas, secas y rojizas días después.
    .liquid = Un grano apretado entre pulgar y uña revienta y da líquido, claro al principio y blanco después.
    .pliable = El grano se aplasta como masa; sale poco líquido o nada.
    .dented = La uña deja una marca, pero el grano no se aplasta.
    .dark_spot = Sacado de la panoja, el grano muestra un punto oscuro en su base, al otro lado del germen, donde estaba unido.

entries-mistaken =
    .boot = Un tallo grueso sin panoja. Palpe la vaina: la panoja es más blanda y ancha que el tallo.
    .emerging = Una panoja que queda envainada para siempre. Si está en flor o tiene grano, lea eso y márquela como en parte envainada.
    .bloom = Saliendo, cuando solo floreció la punta. Una flor con antera ya es en flor.
    .liquid = Moldeable, cuando el grano está a medio espesar. Si todavía corre líquido blanco, es líquido.
    .pliable = Líquido, en un grano lleno, o se marca, si se aprieta con poca fuerza. Apriete hasta que se aplaste o no ceda más.
    .dented = Punto oscuro, cuando el grano ya tiene todo su color. El color solo es un indicio: saque el grano y mire su base.
    .dark_spot = Una mancha, moho o la sombra de la gluma. Frótelo; compare granos lado a lado.

entries-next =
    .boot = Busque la primera punta en el cuello de la hoja bandera. Basta un toque; el embuche no lleva parte.
    .emerging = Deslice hasta donde empieza la vaina: la parte que ya salió.
    .bloom = Deslice hasta la flor más baja que mostró antera, fresca o seca.
    .liquid = Apriete un grano a cada ancho de dedo, de la punta hacia abajo. Deslice hasta el último que da líquido.
    .pliable = De la punta hacia abajo, apriete hasta que un grano dé líquido. Deslice hasta el último que se aplastó sin darlo.
    .dented = De la punta hacia abajo, apriete hasta que un grano se aplaste. Deslice hasta el último que solo se marca.
    .dark_spot = Saque granos de la punta hacia abajo. Deslice hasta el último con el punto: la base de la panoja llega al final.

drawing = Dibujo: { $reading }
