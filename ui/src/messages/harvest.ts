// Sentences about ripe grain: how wet, when dry, what waiting costs, what lies
// on the ground. Every number that is a guess is said with its two ends.

import type { Band, BestDay, MoistureWindow, NotCutWhy, StorageDays, WaitingAWeek, Window } from '../contract';
import { date, dateSpan, hundredths, money as dollars, number } from './format';
import { inBoth } from './language.svelte';
import { outlook } from './outlook';

/** Dollars in whole hundreds: more digits would promise too much. */
const hundreds = (value: number) => dollars(Math.round(value / 100) * 100);

/** The two ends, where they differ in whole dollars. */
function ends(net: Band, per: (value: number) => number): [string, string] | null {
  const pair: [string, string] = [dollars(per(net.low)), dollars(per(net.high))];
  return pair[0] === pair[1] ? null : pair;
}

function betweenEn(net: Band, per: (value: number) => number): string {
  const pair = ends(net, per);
  return pair ? `, between ${pair[0]} and ${pair[1]}` : '';
}

function betweenEs(net: Band, per: (value: number) => number): string {
  const pair = ends(net, per);
  return pair ? `, entre ${pair[0]} y ${pair[1]}` : '';
}

const percent = (value: number) => `${number(value, 1)} %`;

function spanOf(window: Window, today: string): string | null {
  return window.p10 && window.p90 ? dateSpan(window.p10, window.p90, today) : null;
}

function windowEn(told: MoistureWindow, today: string): string {
  const { window } = told;
  if (told.today >= 0.9) return 'is reached';
  const span = spanOf(window, today);
  if (span && window.p50) return `${span}, around ${date(window.p50, today)}`;
  if (window.p50)
    return `from ${date(window.p10 ?? window.p50, today)}; in ${100 - hundredths(told.ahead)} of 100 courses not within the days ahead`;
  return `not within the days ahead in ${100 - hundredths(told.ahead)} of 100 courses`;
}

function windowEs(told: MoistureWindow, today: string): string {
  const { window } = told;
  if (told.today >= 0.9) return 'ya alcanzado';
  const span = spanOf(window, today);
  if (span && window.p50) return `${span}, hacia el ${date(window.p50, today)}`;
  if (window.p50)
    return `desde el ${date(window.p10 ?? window.p50, today)}; en ${100 - hundredths(told.ahead)} de 100 cursos no en los días por venir`;
  return `no en los días por venir en ${100 - hundredths(told.ahead)} de 100 cursos`;
}

function notCutEn(why: NotCutWhy, today: string): string {
  switch (why.reason) {
    case 'cut':
      return `cut on ${date(why.on, today)}`;
    case 'not_fit':
      return 'not likely fit to cut within the days ahead';
    case 'silage':
      return 'grown for silage';
    case 'over':
      return 'its season is over';
    case 'unknown':
      return outlook.en.why(why.why);
  }
}

function notCutEs(why: NotCutWhy, today: string): string {
  switch (why.reason) {
    case 'cut':
      return `cortada el ${date(why.on, today)}`;
    case 'not_fit':
      return 'probablemente no apta para cortar en los días por venir';
    case 'silage':
      return 'para ensilaje';
    case 'over':
      return 'su temporada terminó';
    case 'unknown':
      return outlook.es.why(why.why);
  }
}

const good = (best: BestDay) => best.as_good_from !== best.as_good_to;

/** Ripe grain and its harvest. */
export const harvest = inBoth(
  {
    open: 'Grain and harvest',
    title: 'Grain and harvest',
    moistureTitle: 'Moisture',
    now: (band: Band) =>
      `The grain holds about ${percent(band.mid)} today (${percent(band.low)} to ${percent(band.high)}).`,
    rate: (band: Band) =>
      `It dries at its own rate of ${number(band.mid, 2)} points a day (${number(band.low, 2)} to ${number(band.high, 2)}) in ordinary fall weather.`,
    levelNote: 'The ends hold the truth eight times in ten.',
    window: windowEn,
    atTarget: (target: number, own: boolean) => `${number(target, 1)} %${own ? ', your target' : ''}`,
    ownTarget: 'Your target',
    otherConstants: (days: number) =>
      days === 0
        ? 'The other published constants of equilibrium for sorghum give the same day for your target.'
        : `By the other published constants of equilibrium for sorghum your target comes ${Math.abs(days)} days ${days > 0 ? 'later' : 'earlier'}.`,
    otherNever:
      'By the other published constants of equilibrium for sorghum your target may not come within the days ahead.',
    restsOn: (seasons: number, readings: number) =>
      `Rests on ${readings === 0 ? 'no moisture reading' : readings === 1 ? 'one day of readings' : `${readings} days of readings`} and the weather of ${seasons} past seasons.`,
    noReading: 'No moisture reading yet. One reading narrows this more than anything else.',
    offBy: (on: string, told: number, expected: number) =>
      `The reading of ${on} (${percent(told)}) does not fit what was expected (${percent(expected)}): check the meter, or the sample.`,
    noWeather: (days: number) => `${days} days had no weather and were taken as ordinary ones.`,
    fanLabel: 'Moisture over the days ahead',
    fanHint: 'Touch the chart to read a day.',
    fanOn: (on: string, band: Band) =>
      `${on}: ${percent(band.mid)}, between ${percent(band.low)} and ${percent(band.high)}`,
    tableTitle: 'As a table',
    tableDay: 'Day',
    tableLow: 'One in ten below',
    tableMid: 'Middle',
    tableHigh: 'One in ten above',
    addReading: 'Add a moisture reading',
    countGround: 'Count seeds on the ground',
    score: 'Score how it stands',
    markCut: 'It was cut today',
    marked: 'Marked as cut.',
    cut: (on: string) => `It was cut on ${on}. Nothing is forecast any more; what stands below is as it was that day.`,
    notCutAfterAll: 'It still stands',
    over: (on: string) => `The season of this planting is over. What you see is as of ${on}.`,
    moneyTitle: 'What waiting costs',
    money: (value: number) => dollars(value),
    best: (best: BestDay, today: string, area: string, per: (value: number) => number) =>
      `Best to begin ${date(best.day.date, today)}${
        good(best) ? ` (any day ${dateSpan(best.as_good_from, best.as_good_to, today)} is as good to one percent)` : ''
      }: about ${dollars(per(best.day.mean))} ${area}${betweenEn(best.day.net, per)}.`,
    atTheEnd: 'That is the last day looked at; a later one may be better still.',
    waiting: (waiting: WaitingAWeek, today: string, area: string, per: (value: number) => number) =>
      `Waiting a week from ${date(waiting.from, today)} on ${waiting.mean >= 0 ? 'costs' : 'gains'} about ${dollars(Math.abs(per(waiting.mean)))} ${area}; it loses in ${hundredths(waiting.loses)} of 100 courses.`,
    why: {
      loss_not_known:
        'No day is named: nobody has said or counted what standing loses, and waiting would look free. Count the ground on two days, or give the loss below.',
      not_fit_in_time: 'The grain is not likely fit to cut within the days ahead.',
    },
    moneyLabel: 'Net return by the day that cutting begins',
    moneyOn: (on: string, band: Band, area: string, per: (value: number) => number) =>
      `${on}: ${dollars(per(band.mid))} ${area}, between ${dollars(per(band.low))} and ${dollars(per(band.high))}`,
    perAcre: 'an acre',
    perHectare: 'a hectare',
    acresAssumed: (size: string) => `The planting has no area: ${size} were reckoned with.`,
    whatIfTitle: 'What if',
    whatIfNote: 'Slide: the curve answers at once. Nothing is kept until you say so.',
    keepThese: 'Keep these for this planting',
    layAside: 'Back to what is kept',
    kept: 'Kept.',
    sensitivityTitle: 'What it hangs on',
    sensitivityNote:
      'Each input alone at its two ends, the others as they are. What not knowing it could cost, most first.',
    regret: (amount: string) => `not knowing could cost ${amount}`,
    swing: (low: string, high: string) => `net from ${low} to ${high}`,
    guessesNone: 'Nothing here is a guess.',
    allTerms: 'Prices and plan',
    termsTitle: 'Prices and plan',
    termsOfAll: 'These count for all plantings that have no number of their own.',
    termsOfOne: (name: string) => `These count for ${name}. What it has not of its own is that of all plantings.`,
    termsForAll: 'Numbers for all plantings',
    groups: {
      money: 'Price and yield',
      outlet: 'Outlet and dryer',
      standing: 'What standing loses',
      weather: 'What weather does to it',
      sample: 'The grain now',
      machines: 'Machines',
      seeds: 'Seeds on the ground',
    },
    discountsTitle: 'The buyer’s discounts',
    discountsNote: 'From the buyer’s own sheet: beyond each limit so much off. The last limit passed counts, alone.',
    discountsNone: 'No table yet.',
    discountBeyond: (factor: string, unit: string) => `${factor} beyond, ${unit}`,
    discountBelow: (factor: string, unit: string) => `${factor} below, ${unit}`,
    discountOff: { us: 'Cents off a bushel', metric: 'Dollars off a tonne' },
    discountRefused: 'Refused beyond',
    addLine: 'Add a line',
    removeLine: (line: number) => `Take out line ${line}`,
    keepTable: 'Keep this table',
    tableNumber: 'A field holds no number: give the limit and the discount as numbers.',
    grainTitle: 'What grain is worth',
    moistureOfGrain: 'Moisture of the grain',
    worthLine: (value: string, net: string | null) =>
      net === null
        ? `Worth ${value} before discounts; the buyer’s table refuses it.`
        : `Worth ${value}; after discounts and fuel ${net}.`,
    gradeLine: (grade: string) => `By the factors given it can be ${grade} at best; a licensed inspector grades grain.`,
    gradeUnknown:
      'No grade factor was given. Give the test weight and the kernels’ damage to see the grade they allow.',
    gradeMissing: (factors: string) => `Not given, each could lower it: ${factors}.`,
    gradeSource: 'Limits: 7 CFR 810.1404. Moisture is no grade factor.',
    discountLine: (factor: string, value: string, off: string) => `${factor} ${value}: ${off} off`,
    discountRefuses: (factor: string, value: string) => `${factor} ${value}: refused`,
    storageTemp: 'Temperature of the stored grain',
    storage: (kept: StorageDays) =>
      `It keeps ${kept.answer === 'about' ? 'about' : kept.answer === 'more_than' ? 'more than' : 'less than'} ${number(kept.days)} days; every day uses some of it up.`,
    storageSource: 'Allowable storage time for cereals, NDSU Extension.',
    formulas: 'Every formula with its numbers',
    readingTitle: 'Moisture reading',
    meter: 'Read with',
    meterName: 'Which meter',
    meterNameHint: 'readings of one meter share its error',
    meterError: 'Its error, points',
    meterErrorHint: 'if you know it; else that of its kind counts',
    day: 'Day',
    sample: (at: number) => `Sample ${at}, %`,
    sampleHint: 'each from its own spot',
    moreSample: 'One more sample',
    note: 'Note',
    keepReading: 'Keep the reading',
    needPercent: 'Give each sample as a percentage from 3 to 70, or leave it empty.',
    mean: (mean: number, count: number) => `Mean ${percent(mean)} of ${count}.`,
    readingsTitle: 'Readings',
    readingLine: (on: string, mean: number, count: number) =>
      `${on}: ${percent(mean)} (${count === 1 ? 'one sample' : `${count} samples`})`,
    correct: 'Correct',
    remove: 'Take out',
    removed: 'Taken out.',
    taken: 'Taken back.',
    groundTitle: 'Seeds on the ground',
    groundNote:
      'Lay a frame down at places across the field, not only where it looks bad. Count loose seeds; count whole heads apart.',
    frame: 'Frame',
    frameOther: 'Other size',
    frameNumber: (at: number) => `Frame ${at}`,
    tapCount: (count: number) => `${count} seeds. Tap for one more`,
    seeds: 'seeds',
    tapHint: 'tap for each seed',
    fewer: 'One less',
    plusTen: '+10',
    nextFrame: 'Next frame',
    headsOnGround: 'Whole heads in all frames',
    headsHint: 'one head in a small frame weighs a lot: count heads in a large one',
    keepCount: 'Keep the count',
    frameDone: (at: number, seeds: number) => `Frame ${at}: ${seeds}`,
    soFar: (perFoot: string, loss: string, low: string, high: string) =>
      `${perFoot}: about ${loss} on the ground (${low} to ${high}).`,
    seedsPerFoot: (value: number) => `${number(value, 1)} seeds a square foot`,
    seedsPerMeter: (value: number) => `${number(value)} seeds a square meter`,
    ofCrop: (share: number) => `${number(share, 1)} % of the crop.`,
    lossADay: (low: number, value: number, high: number) =>
      `By the first and the last count ${number(value, 2)} % of the crop is lost a day (${number(low, 2)} to ${number(high, 2)}). The harvest answer uses it.`,
    oneCount: 'One day’s count says how much lies there, not how fast it falls. Count again in a few days.',
    groundSource:
      'Conversion: 16 to 21 seeds a square foot are one bushel an acre (Texas Coastal Bend, 2010), from 13,000 to 16,000 seeds a pound.',
    countsTitle: 'Counts',
    standingTitle: 'How it stands',
    lodged: 'Plants lodged, percent',
    lodgedHint: 'lying, or leaning by more than half way',
    weak: 'Stalks that give way, percent',
    weakHint: 'push each at arm’s height or pinch its base: does it spring back?',
    weakNone: 'Not tried',
    weathering: 'Weathering of the grain',
    weatheringWord: [
      'Bright and sound',
      '',
      '',
      'Dull, some mold',
      '',
      '',
      'Much mold or sprout',
      '',
      '',
      'All spoiled',
    ],
    weatheringHint: '0 bright and sound, 9 all spoiled, by eye',
    keepScore: 'Keep the score',
    scoresTitle: 'Over time',
    scoresNone: 'No score yet. Score it on each visit: what changes decides.',
    scoreLine: (on: string, lodged: number, weathering: number, weak: number | null) =>
      `${on}: ${lodged} % lodged, weathering ${weathering} of 9${weak === null ? '' : `, ${weak} % weak stalks`}`,
    marksLine: (on: string, heads: number, lodged: Band, moldy: Band) =>
      `${on}, from ${heads} heads: ${hundredths(lodged.mid)} % on lodged plants (${hundredths(lodged.low)} to ${hundredths(lodged.high)}), ${hundredths(moldy.mid)} % moldy (${hundredths(moldy.low)} to ${hundredths(moldy.high)})`,
    legendLodged: 'lodged, %',
    legendWeathering: 'weathering, 0-9',
    orderTitle: 'Harvest order',
    orderText: 'One combine and one dryer for all: the order with the highest sum of mean returns.',
    orderImproved: 'With so many plantings it is a good order, not surely the best.',
    orderEmpty: 'No planting is ready to be put in order.',
    orderNet: (net: number) => `All together about ${hundreds(net)}.`,
    orderRow: (span: string, net: number) => `${span}: about ${hundreds(net)} in all`,
    givenUp: (amount: string) => `gives up ${amount} by waiting for the others`,
    noLoss: 'Loss by standing not known: waiting looks free for it.',
    leftOut: 'Not in the order',
    notCut: notCutEn,
    caution: {
      bin: 'Flowing grain pulls a person under in seconds. Before anyone enters a bin: unloading off and locked out, a harness and a watcher outside, never alone. Training and local rules decide.',
      dryer:
        'Dryers catch fire. Keep them clean and in sight while they run, and know how to cut fuel and fans. The maker’s manual and local rules decide.',
      aid: 'A harvest aid dries leaves and stalks, not the grain. Whether, when and what: the label and local law decide; check for stalk rot and lodging first.',
      dust: 'Grain dust harms lungs and can explode: wear a mask, keep sparks away.',
      heat: 'Out in the heat: drink, rest in shade, and do not count alone far from help.',
    },
  },
  {
    open: 'Grano y cosecha',
    title: 'Grano y cosecha',
    moistureTitle: 'Humedad',
    now: (band: Band) =>
      `El grano tiene hoy cerca de ${percent(band.mid)} (${percent(band.low)} a ${percent(band.high)}).`,
    rate: (band: Band) =>
      `Se seca a su propio ritmo de ${number(band.mid, 2)} puntos al día (${number(band.low, 2)} a ${number(band.high, 2)}) con tiempo común de otoño.`,
    levelNote: 'Los extremos contienen la verdad ocho veces de diez.',
    window: windowEs,
    atTarget: (target: number, own: boolean) => `${number(target, 1)} %${own ? ', su objetivo' : ''}`,
    ownTarget: 'Su objetivo',
    otherConstants: (days: number) =>
      days === 0
        ? 'Las otras constantes de equilibrio publicadas para sorgo dan el mismo día para su objetivo.'
        : `Con las otras constantes de equilibrio publicadas para sorgo su objetivo llega ${Math.abs(days)} días ${days > 0 ? 'después' : 'antes'}.`,
    otherNever:
      'Con las otras constantes de equilibrio publicadas para sorgo su objetivo puede no llegar en los días por venir.',
    restsOn: (seasons: number, readings: number) =>
      `Se apoya en ${readings === 0 ? 'ninguna lectura de humedad' : readings === 1 ? 'un día de lecturas' : `${readings} días de lecturas`} y en el tiempo de ${seasons} temporadas pasadas.`,
    noReading: 'Aún no hay lectura de humedad. Una lectura estrecha esto más que cualquier otra cosa.',
    offBy: (on: string, told: number, expected: number) =>
      `La lectura del ${on} (${percent(told)}) no encaja con lo esperado (${percent(expected)}): revise el medidor o la muestra.`,
    noWeather: (days: number) => `${days} días no tenían tiempo y se tomaron como comunes.`,
    fanLabel: 'Humedad en los días por venir',
    fanHint: 'Toque la gráfica para leer un día.',
    fanOn: (on: string, band: Band) =>
      `${on}: ${percent(band.mid)}, entre ${percent(band.low)} y ${percent(band.high)}`,
    tableTitle: 'Como tabla',
    tableDay: 'Día',
    tableLow: 'Uno de diez por debajo',
    tableMid: 'Medio',
    tableHigh: 'Uno de diez por encima',
    addReading: 'Agregar una lectura de humedad',
    countGround: 'Contar semillas en el suelo',
    score: 'Calificar cómo está en pie',
    markCut: 'Se cortó hoy',
    marked: 'Marcada como cortada.',
    cut: (on: string) => `Se cortó el ${on}. Ya no se pronostica nada; lo de abajo es como estaba ese día.`,
    notCutAfterAll: 'Sigue en pie',
    over: (on: string) => `La temporada de esta siembra terminó. Lo que ve es del ${on}.`,
    moneyTitle: 'Qué cuesta esperar',
    money: (value: number) => dollars(value),
    best: (best: BestDay, today: string, area: string, per: (value: number) => number) =>
      `Conviene empezar el ${date(best.day.date, today)}${
        good(best)
          ? ` (cualquier día de ${dateSpan(best.as_good_from, best.as_good_to, today)} es igual de bueno al uno por ciento)`
          : ''
      }: cerca de ${dollars(per(best.day.mean))} ${area}${betweenEs(best.day.net, per)}.`,
    atTheEnd: 'Es el último día considerado; uno posterior puede ser aún mejor.',
    waiting: (waiting: WaitingAWeek, today: string, area: string, per: (value: number) => number) =>
      `Esperar una semana desde el ${date(waiting.from, today)} ${waiting.mean >= 0 ? 'cuesta' : 'gana'} cerca de ${dollars(Math.abs(per(waiting.mean)))} ${area}; pierde en ${hundredths(waiting.loses)} de 100 cursos.`,
    why: {
      loss_not_known:
        'No se nombra un día: nadie ha dicho ni contado lo que se pierde en pie, y esperar parecería gratis. Cuente el suelo en dos días, o indique la pérdida abajo.',
      not_fit_in_time: 'El grano probablemente no esté apto para cortar en los días por venir.',
    },
    moneyLabel: 'Retorno neto según el día en que empieza el corte',
    moneyOn: (on: string, band: Band, area: string, per: (value: number) => number) =>
      `${on}: ${dollars(per(band.mid))} ${area}, entre ${dollars(per(band.low))} y ${dollars(per(band.high))}`,
    perAcre: 'por acre',
    perHectare: 'por hectárea',
    acresAssumed: (size: string) => `La siembra no tiene superficie: se contó con ${size}.`,
    whatIfTitle: 'Qué pasa si',
    whatIfNote: 'Deslice: la curva responde al momento. No se guarda nada hasta que usted lo diga.',
    keepThese: 'Guardar estos para esta siembra',
    layAside: 'Volver a lo guardado',
    kept: 'Guardado.',
    sensitivityTitle: 'De qué depende',
    sensitivityNote:
      'Cada dato solo en sus dos extremos, los demás como están. Lo que puede costar no saberlo, lo mayor primero.',
    regret: (amount: string) => `no saberlo puede costar ${amount}`,
    swing: (low: string, high: string) => `neto de ${low} a ${high}`,
    guessesNone: 'Nada aquí es una suposición.',
    allTerms: 'Precios y plan',
    termsTitle: 'Precios y plan',
    termsOfAll: 'Valen para todas las siembras que no tienen un número propio.',
    termsOfOne: (name: string) => `Valen para ${name}. Lo que no tiene propio es lo de todas las siembras.`,
    termsForAll: 'Números para todas las siembras',
    groups: {
      money: 'Precio y rendimiento',
      outlet: 'Destino y secadora',
      standing: 'Lo que se pierde en pie',
      weather: 'Lo que le hace el tiempo',
      sample: 'El grano ahora',
      machines: 'Máquinas',
      seeds: 'Semillas en el suelo',
    },
    discountsTitle: 'Los descuentos del comprador',
    discountsNote:
      'De la hoja del propio comprador: más allá de cada límite, tanto menos. Cuenta solo el último límite pasado.',
    discountsNone: 'Aún no hay tabla.',
    discountBeyond: (factor: string, unit: string) => `${factor} sobre, ${unit}`,
    discountBelow: (factor: string, unit: string) => `${factor} bajo, ${unit}`,
    discountOff: { us: 'Centavos menos por bushel', metric: 'Dólares menos por tonelada' },
    discountRefused: 'Se rechaza más allá de',
    addLine: 'Agregar una línea',
    removeLine: (line: number) => `Quitar la línea ${line}`,
    keepTable: 'Guardar esta tabla',
    tableNumber: 'Un campo no tiene número: indique el límite y el descuento como números.',
    grainTitle: 'Cuánto vale el grano',
    moistureOfGrain: 'Humedad del grano',
    worthLine: (value: string, net: string | null) =>
      net === null
        ? `Vale ${value} antes de descuentos; la tabla del comprador lo rechaza.`
        : `Vale ${value}; tras descuentos y combustible ${net}.`,
    gradeLine: (grade: string) =>
      `Con los factores dados puede ser ${grade} como mejor; quien califica es un inspector autorizado.`,
    gradeUnknown:
      'No se dio ningún factor de grado. Indique el peso hectolítrico y el daño para ver el grado que permiten.',
    gradeMissing: (factors: string) => `Sin indicar, cada uno podría bajarlo: ${factors}.`,
    gradeSource: 'Límites: 7 CFR 810.1404. La humedad no es factor de grado.',
    discountLine: (factor: string, value: string, off: string) => `${factor} ${value}: ${off} menos`,
    discountRefuses: (factor: string, value: string) => `${factor} ${value}: rechazado`,
    storageTemp: 'Temperatura del grano guardado',
    storage: (kept: StorageDays) =>
      `Se conserva ${kept.answer === 'about' ? 'unos' : kept.answer === 'more_than' ? 'más de' : 'menos de'} ${number(kept.days)} días; cada día gasta una parte.`,
    storageSource: 'Tiempo de almacenamiento permitido para cereales, NDSU Extension.',
    formulas: 'Cada fórmula con sus números',
    readingTitle: 'Lectura de humedad',
    meter: 'Leída con',
    meterName: 'Cuál medidor',
    meterNameHint: 'las lecturas de un medidor comparten su error',
    meterError: 'Su error, puntos',
    meterErrorHint: 'si lo conoce; si no, cuenta el de su tipo',
    day: 'Día',
    sample: (at: number) => `Muestra ${at}, %`,
    sampleHint: 'cada una de su propio lugar',
    moreSample: 'Una muestra más',
    note: 'Nota',
    keepReading: 'Guardar la lectura',
    needPercent: 'Indique cada muestra como porcentaje de 3 a 70, o déjela vacía.',
    mean: (mean: number, count: number) => `Media ${percent(mean)} de ${count}.`,
    readingsTitle: 'Lecturas',
    readingLine: (on: string, mean: number, count: number) =>
      `${on}: ${percent(mean)} (${count === 1 ? 'una muestra' : `${count} muestras`})`,
    correct: 'Corregir',
    remove: 'Quitar',
    removed: 'Quitado.',
    taken: 'Deshecho.',
    groundTitle: 'Semillas en el suelo',
    groundNote:
      'Ponga un marco en lugares por todo el campo, no solo donde se ve mal. Cuente semillas sueltas; las panojas enteras, aparte.',
    frame: 'Marco',
    frameOther: 'Otro tamaño',
    frameNumber: (at: number) => `Marco ${at}`,
    tapCount: (count: number) => `${count} semillas. Toque para una más`,
    seeds: 'semillas',
    tapHint: 'toque por cada semilla',
    fewer: 'Una menos',
    plusTen: '+10',
    nextFrame: 'Siguiente marco',
    headsOnGround: 'Panojas enteras en todos los marcos',
    headsHint: 'una panoja en un marco chico pesa mucho: cuéntelas en uno grande',
    keepCount: 'Guardar el conteo',
    frameDone: (at: number, seeds: number) => `Marco ${at}: ${seeds}`,
    soFar: (perFoot: string, loss: string, low: string, high: string) =>
      `${perFoot}: cerca de ${loss} en el suelo (${low} a ${high}).`,
    seedsPerFoot: (value: number) => `${number(value, 1)} semillas por pie cuadrado`,
    seedsPerMeter: (value: number) => `${number(value)} semillas por metro cuadrado`,
    ofCrop: (share: number) => `${number(share, 1)} % del cultivo.`,
    lossADay: (low: number, value: number, high: number) =>
      `Por el primer y el último conteo se pierde ${number(value, 2)} % del cultivo al día (${number(low, 2)} a ${number(high, 2)}). La respuesta de cosecha lo usa.`,
    oneCount: 'El conteo de un día dice cuánto hay, no qué tan rápido cae. Cuente otra vez en unos días.',
    groundSource:
      'Conversión: 16 a 21 semillas por pie cuadrado son un bushel por acre (Texas Coastal Bend, 2010), de 13,000 a 16,000 semillas por libra.',
    countsTitle: 'Conteos',
    standingTitle: 'Cómo está en pie',
    lodged: 'Plantas acamadas, por ciento',
    lodgedHint: 'caídas, o inclinadas más de la mitad',
    weak: 'Tallos que ceden, por ciento',
    weakHint: 'empuje cada uno a la altura del brazo o apriete su base: ¿vuelve?',
    weakNone: 'No se probó',
    weathering: 'Deterioro del grano por el tiempo',
    weatheringWord: [
      'Brillante y sano',
      '',
      '',
      'Opaco, algo de moho',
      '',
      '',
      'Mucho moho o brotado',
      '',
      '',
      'Todo perdido',
    ],
    weatheringHint: '0 brillante y sano, 9 todo perdido, a ojo',
    keepScore: 'Guardar la calificación',
    scoresTitle: 'En el tiempo',
    scoresNone: 'Aún no hay calificación. Califíquela en cada visita: lo que cambia decide.',
    scoreLine: (on: string, lodged: number, weathering: number, weak: number | null) =>
      `${on}: ${lodged} % acamadas, deterioro ${weathering} de 9${weak === null ? '' : `, ${weak} % tallos débiles`}`,
    marksLine: (on: string, heads: number, lodged: Band, moldy: Band) =>
      `${on}, de ${heads} panojas: ${hundredths(lodged.mid)} % en plantas acamadas (${hundredths(lodged.low)} a ${hundredths(lodged.high)}), ${hundredths(moldy.mid)} % con moho (${hundredths(moldy.low)} a ${hundredths(moldy.high)})`,
    legendLodged: 'acamadas, %',
    legendWeathering: 'deterioro, 0-9',
    orderTitle: 'Orden de cosecha',
    orderText: 'Una cosechadora y una secadora para todas: el orden con la mayor suma de retornos medios.',
    orderImproved: 'Con tantas siembras es un buen orden, no seguro el mejor.',
    orderEmpty: 'Ninguna siembra está lista para ponerla en orden.',
    orderNet: (net: number) => `Todas juntas cerca de ${hundreds(net)}.`,
    orderRow: (span: string, net: number) => `${span}: cerca de ${hundreds(net)} en total`,
    givenUp: (amount: string) => `cede ${amount} por esperar a las otras`,
    noLoss: 'Pérdida en pie desconocida: esperar parece gratis para ella.',
    leftOut: 'Fuera del orden',
    notCut: notCutEs,
    caution: {
      bin: 'El grano que fluye hunde a una persona en segundos. Antes de entrar a un silo: descarga apagada y bloqueada con candado, arnés y alguien afuera, nunca a solas. La capacitación y las reglas locales deciden.',
      dryer:
        'Las secadoras se incendian. Manténgalas limpias y a la vista mientras trabajan, y sepa cortar combustible y ventiladores. El manual y las reglas locales deciden.',
      aid: 'Un desecante seca hojas y tallos, no el grano. Si se usa, cuándo y cuál: deciden la etiqueta y la ley local; revise antes pudrición de tallo y acame.',
      dust: 'El polvo de grano daña los pulmones y puede explotar: use mascarilla, evite chispas.',
      heat: 'Con calor: beba, descanse a la sombra y no cuente a solas lejos de ayuda.',
    },
  },
);
