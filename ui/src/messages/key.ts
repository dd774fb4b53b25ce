import type { Reading } from '../contract';
import { inBoth } from './language.svelte';

/** What the key says of one reading. */
export interface KeyEntry {
  /** What is seen or felt. */
  feel: string;
  /** What it is taken for by mistake. */
  mistaken: string;
  /** What to look at next. */
  next: string;
}

const en: Record<Reading, KeyEntry> = {
  boot: {
    feel: 'The head is still inside the sheath of the flag leaf: a swelling that gives under the fingers, no part of it to be seen.',
    mistaken: 'A thick stalk without a head. Feel along the sheath: the head is softer and wider than the stalk.',
    next: 'Look for the first tip at the collar of the flag leaf. One tap is enough; boot has no share.',
  },
  emerging: {
    feel: 'Part of the head stands out of the sheath; its florets are closed, with no anthers.',
    mistaken:
      'A head that stays partly sheathed for good. If it is in bloom or has grain, read that, and mark it as partly sheathed.',
    next: 'Slide down to where the sheath begins: the part that is out.',
  },
  bloom: {
    feel: 'Anthers hang out of the florets, from the tip of the head downward: yellow when fresh, dry and rusty after some days.',
    mistaken: 'Emerging, when only the tip has bloomed. One floret with an anther is bloom.',
    next: 'Slide down to the lowest floret that has shown an anther, fresh or dry.',
  },
  liquid: {
    feel: 'A kernel pinched between thumb and nail bursts and gives liquid, clear at first and white later.',
    mistaken: 'Pliable, when the kernel is half thick. If white liquid still runs, it is liquid.',
    next: 'Pinch a kernel every finger width, from the top down. Slide to the last one that gives liquid.',
  },
  pliable: {
    feel: 'A kernel squeezes flat like soft dough; little or no liquid comes.',
    mistaken:
      'Liquid, in a plump kernel, or dented, when squeezed with little force. Press until it is flat or will not go.',
    next: 'From the top down, squeeze until a kernel gives liquid. Slide to the last that went flat without.',
  },
  dented: {
    feel: 'A thumbnail leaves a dent, but the kernel will not squeeze flat.',
    mistaken:
      'Dark spot, when the kernel has its full color. Color is only a hint: pull the kernel and look at its base.',
    next: 'From the top down, squeeze until a kernel goes flat. Slide to the last that only dents.',
  },
  dark_spot: {
    feel: 'Pulled from the head, the kernel shows a dark spot at its base, opposite the germ, where it was attached.',
    mistaken: 'A stain, mold or the shadow of the glume. Rub it; look at kernels side by side.',
    next: 'Pull kernels from the top down. Slide to the last with the spot: the base of the head comes last.',
  },
};

const es: Record<Reading, KeyEntry> = {
  boot: {
    feel: 'La panoja sigue dentro de la vaina de la hoja bandera: un bulto que cede entre los dedos, sin nada a la vista.',
    mistaken: 'Un tallo grueso sin panoja. Palpe la vaina: la panoja es más blanda y ancha que el tallo.',
    next: 'Busque la primera punta en el cuello de la hoja bandera. Basta un toque; el embuche no lleva parte.',
  },
  emerging: {
    feel: 'Una parte de la panoja sale de la vaina; sus flores están cerradas, sin anteras.',
    mistaken:
      'Una panoja que queda envainada para siempre. Si está en flor o tiene grano, lea eso y márquela como en parte envainada.',
    next: 'Deslice hasta donde empieza la vaina: la parte que ya salió.',
  },
  bloom: {
    feel: 'Las anteras cuelgan de las flores, de la punta hacia abajo: amarillas si son frescas, secas y rojizas días después.',
    mistaken: 'Saliendo, cuando solo floreció la punta. Una flor con antera ya es en flor.',
    next: 'Deslice hasta la flor más baja que mostró antera, fresca o seca.',
  },
  liquid: {
    feel: 'Un grano apretado entre pulgar y uña revienta y da líquido, claro al principio y blanco después.',
    mistaken: 'Moldeable, cuando el grano está a medio espesar. Si todavía corre líquido blanco, es líquido.',
    next: 'Apriete un grano a cada ancho de dedo, de la punta hacia abajo. Deslice hasta el último que da líquido.',
  },
  pliable: {
    feel: 'El grano se aplasta como masa blanda; sale poco líquido o nada.',
    mistaken:
      'Líquido, en un grano lleno, o se marca, si se aprieta con poca fuerza. Apriete hasta que se aplaste o no ceda más.',
    next: 'De la punta hacia abajo, apriete hasta que un grano dé líquido. Deslice hasta el último que se aplastó sin darlo.',
  },
  dented: {
    feel: 'La uña deja una marca, pero el grano no se aplasta.',
    mistaken:
      'Punto oscuro, cuando el grano ya tiene todo su color. El color solo es un indicio: saque el grano y mire su base.',
    next: 'De la punta hacia abajo, apriete hasta que un grano se aplaste. Deslice hasta el último que solo se marca.',
  },
  dark_spot: {
    feel: 'Sacado de la panoja, el grano muestra un punto oscuro en su base, al otro lado del germen, donde estaba unido.',
    mistaken: 'Una mancha, moho o la sombra de la gluma. Frótelo; compare granos lado a lado.',
    next: 'Saque granos de la punta hacia abajo. Deslice hasta el último con el punto: la base de la panoja llega al final.',
  },
};

/** The squeeze key. */
export const key = inBoth(
  {
    title: 'Squeeze key',
    first: 'Before the first head',
    intro:
      'A head ripens from the top down. Read its top: what does a kernel show when you pinch it? Then find how far down the head that goes, and slide to there.',
    feel: 'How it feels',
    mistaken: 'Mistaken for',
    next: 'Look at next',
    whichTitle: 'Which head to pull',
    which:
      'Not the prettiest, nor the ripest. Walk the paces given, count the plants given, and take the head your hand meets first, with your eyes off it. A planting judged on picked heads always looks riper than it is.',
    start: 'Start reading heads',
    entries: en,
    drawing: (reading: string) => `Drawing: ${reading}`,
  },
  {
    title: 'Clave del apretón',
    first: 'Antes de la primera panoja',
    intro:
      'La panoja madura de la punta hacia abajo. Lea la punta: ¿qué muestra un grano al apretarlo? Después busque hasta dónde llega eso en la panoja, y deslice hasta ahí.',
    feel: 'Cómo se siente',
    mistaken: 'Se confunde con',
    next: 'Qué mirar después',
    whichTitle: 'Qué panoja tomar',
    which:
      'Ni la más bonita ni la más madura. Camine los pasos indicados, cuente las plantas indicadas y tome la panoja que su mano toque primero, sin mirarla. Una siembra juzgada por panojas escogidas siempre parece más madura de lo que es.',
    start: 'Empezar a leer panojas',
    entries: es,
    drawing: (reading: string) => `Dibujo: ${reading}`,
  },
);
