// What dates rest on: stations and their places, heat sets, hybrids and their pace.

import type { ChosenBy, HeatSetRow, Mark, MaturityClass, Method, SetChosenBy, JobStep } from '../contract';
import { date, number } from './format';
import { inBoth } from './language.svelte';

const classesEn: Record<MaturityClass, string> = {
  early: 'Early',
  medium_early: 'Medium-early',
  medium: 'Medium',
  medium_late: 'Medium-late',
  late: 'Late',
};

const classesEs: Record<MaturityClass, string> = {
  early: 'Precoz',
  medium_early: 'Intermedio-precoz',
  medium: 'Intermedio',
  medium_late: 'Intermedio-tardío',
  late: 'Tardío',
};

const marksEn: Record<Mark, string> = {
  emergence: 'Emergence',
  three_leaf: 'Three leaves',
  five_leaf: 'Five leaves',
  growing_point: 'Growing point',
  flag_leaf: 'Flag leaf',
  boot: 'Boot',
  half_bloom: 'Half bloom',
  soft_dough: 'Soft dough',
  hard_dough: 'Hard dough',
  black_layer: 'Black layer',
};

const marksEs: Record<Mark, string> = {
  emergence: 'Emergencia',
  three_leaf: 'Tres hojas',
  five_leaf: 'Cinco hojas',
  growing_point: 'Punto de crecimiento',
  flag_leaf: 'Hoja bandera',
  boot: 'Embuche',
  half_bloom: 'Media floración',
  soft_dough: 'Masa blanda',
  hard_dough: 'Masa dura',
  black_layer: 'Capa negra',
};

const methodsEn: Record<Method, string> = {
  both_limits: 'High lowered to the upper limit, low raised to the base',
  upper_limit_only: 'High lowered to the upper limit, low as it is',
  plain_mean: 'Plain mean of high and low',
};

const methodsEs: Record<Method, string> = {
  both_limits: 'Máxima bajada al límite, mínima subida a la base',
  upper_limit_only: 'Máxima bajada al límite, mínima como es',
  plain_mean: 'Media simple de máxima y mínima',
};

const degrees = (set: HeatSetRow['set']) => (set.unit === 'celsius' ? '°C' : '°F');
const percent = (share: number) => number(100 * share);

/** Screens about what an outlook rests on. */
export const basis = inBoth(
  {
    change: 'Change what it rests on',
    title: (planting: string) => `What ${planting} rests on`,
    titleOpen: 'What the dates rest on',
    station: 'Weather station',
    stationText: 'The nearest station with weather is taken, where places are known; or choose one.',
    notPlaced:
      'Where this planting lies is not known: no stop of a walk has a position. So distances cannot be given; choose a station.',
    noStation: 'No station holds weather yet.',
    leaveToApp: 'Leave it to the app',
    stationLine: (name: string, km: number | null, last: string | null) =>
      [name, km === null ? null : `${number(km)} km`, last === null ? null : `to ${date(last)}`]
        .filter((part) => part !== null)
        .join(', '),
    nearestMark: 'nearest',
    forField: (field: string) => `For all plantings of ${field}`,
    forFieldHint: 'Those that name a station themselves keep it.',
    kept: 'Kept. The outlook uses it now.',
    usesNow: (name: string, by: string) => `In use: ${name}, ${by}`,
    chosenBy: {
      planting: 'named by the planting',
      field: 'chosen for the field',
      nearest: 'the nearest',
      only: 'the only one held',
    } satisfies Record<ChosenBy['how'], string>,
    place: 'Place of the station',
    placeOf: (name: string) => `Place of ${name}`,
    placeText: 'In degrees, as maps give them. With it the app finds the nearest station of a planting.',
    latitude: 'Latitude (north above 0)',
    longitude: 'Longitude (east above 0)',
    placeKnown: (latitude: number, longitude: number) => `At ${number(latitude, 3)}, ${number(longitude, 3)}`,
    placeUnknown: 'No place yet',
    here: 'Take this device’s position',
    looking: 'Looking for the position',
    noPosition: 'This device gives no position here. Type it in, or allow it in the device’s settings.',
    placeBad: 'Give the latitude as -90 to 90 and the longitude as -180 to 180.',
    keepPlace: 'Keep this place',

    setsTitle: 'Heat sets',
    setsText:
      'Base, upper limit, way of counting and table belong together and are only ever chosen together. The one chosen here counts where no hybrid or planting has its own.',
    heatSet: 'Heat set',
    asWider: 'As chosen for the hybrid or the notebook',
    asNotebook: 'As chosen for the notebook',
    setLine: ({ set }: HeatSetRow) =>
      set.method === 'plain_mean'
        ? `Base ${number(set.base, 1)} ${degrees(set)}`
        : `Base ${number(set.base, 1)} ${degrees(set)}, upper limit ${number(set.upper, 1)} ${degrees(set)}`,
    setUnused: 'Source',
    countsIn: (name: string) => `Heat counted by “${name}”`,
    setBy: {
      planting: 'chosen for this planting',
      hybrid: 'chosen for the hybrid',
      notebook: 'chosen for the notebook',
      default: 'as nobody chose another',
    } satisfies Record<SetChosenBy, string>,
    inUse: 'Counts for the notebook',
    useSet: 'Let it count for the notebook',
    editSet: 'Edit',
    newSet: 'Add a heat set',
    newSetTitle: 'New heat set',
    editSetTitle: 'Edit heat set',
    removeSet: 'Remove this set',
    setRemoved: (name: string) => `“${name}” was removed; what went by it goes by the next choice.`,
    setRestored: (name: string) => `“${name}” is back.`,
    setName: 'Name',
    setSource: 'Where its table comes from',
    setSourceHint: 'bulletin and year, or your own counts',
    unit: 'Unit',
    units: { fahrenheit: '°F', celsius: '°C' },
    base: 'Base',
    upper: 'Upper limit',
    method: 'Way of counting a day',
    methods: methodsEn,
    tables: 'Table',
    column: (at: number) => `Maturity class ${at}`,
    columnName: 'Class',
    addColumn: 'Add a class',
    dropColumn: 'Take this class out',
    mark: marksEn,
    unitsFromPlanting: 'Heat units from planting. Half bloom and black layer are needed, the rest helps.',
    needNumbers: 'Give base, upper limit and every mark as a number.',
    startFrom: 'Begin with the figures of',
    saveSet: 'Save the set',

    hybridsTitle: 'Hybrids',
    hybridsEmpty: 'No hybrid yet. A planting’s form names one.',
    hybridPlantings: (count: number) => (count === 1 ? '1 planting' : `${number(count)} plantings`),
    hybridOpen: (name: string) => `Pace of ${name}`,
    maturity: 'Maturity class',
    maturityText: 'From the seed guide. It says how much heat half bloom takes before anything was seen in the field.',
    className: classesEn,
    classUnknown: 'Not known',
    classUnits: (units: number) => `half bloom after about ${number(units)} units`,
    daysInGuide: 'Days to half bloom in the seed guide',
    daysHint: 'picks the class; guides differ by a few days (common practice)',
    paceTitle: 'Pace after half bloom',
    paceText: 'Against the published table: 100 needs as much heat as the table says, 105 needs 5 % less.',
    pacePublished: (low: number, high: number) =>
      `By the table alone: between ${percent(low)} and ${percent(high)}, eight times in ten.`,
    paceLearned: (plantings: number, mid: number, low: number, high: number) =>
      `With what ${plantings === 1 ? '1 planting' : `${number(plantings)} plantings`} here showed: about ${percent(mid)}, between ${percent(low)} and ${percent(high)}.`,
    paceNothing: 'No planting of it has shown anything yet; the table stands alone.',
    paceNext: (low: number, high: number) =>
      `Its next planting: between ${percent(low)} and ${percent(high)}; plantings of one hybrid differ too.`,
    bloomTitle: 'Heat to half bloom',
    bloomLine: (mid: number, low: number, high: number) =>
      `About ${number(mid)} units from planting, between ${number(low)} and ${number(high)}.`,
    bloomPublished: (low: number, high: number) => `By the table alone: between ${number(low)} and ${number(high)}.`,
    plantingPace: (mid: number, low: number, high: number, sightings: number) =>
      `about ${percent(mid)} (${percent(low)} to ${percent(high)}), from ${sightings === 1 ? '1 walk or bloom date' : `${number(sightings)} walks or bloom dates`}`,
    plantingUnseen: 'not walked yet',
    otherSet: 'counted in another heat set, so it teaches nothing here',
    chartLabel: 'Pace: the table, what was learned, and each planting',
    rowPublished: 'Table',
    rowLearned: 'Learned',
    rowNext: 'Next planting',
    tableTitle: 'As a table',
    tableWhat: 'What',
    tableLow: 'Low',
    tableMid: 'Middle',
    tableHigh: 'High',

    halfBloomOn: 'Half bloom seen on',
    halfBloomHint: 'half of the plants in bloom; sharpens every date',
    emptied: 'Not known',

    step: { reading: 'Reading the file', storing: 'Storing it' } satisfies Record<JobStep, string>,
    progress: (step: string, share: number) => `${step}: ${percent(share)} %`,
    stopping: 'Stopping: nothing of it is stored',
    stoppedFile: 'Stopped. Nothing of the file was stored.',
    maturityKnown: (name: MaturityClass) => `${classesEn[name]} hybrid`,
    maturityNotKnown: 'maturity class of the hybrid not known',
  },
  {
    change: 'Cambiar en qué se apoya',
    title: (planting: string) => `En qué se apoya ${planting}`,
    titleOpen: 'En qué se apoyan las fechas',
    station: 'Estación del tiempo',
    stationText: 'Se toma la estación con tiempo más cercana, si se conocen los lugares; o elija una.',
    notPlaced:
      'No se sabe dónde está esta siembra: ninguna parada tiene posición. No hay distancias; elija una estación.',
    noStation: 'Ninguna estación tiene tiempo todavía.',
    leaveToApp: 'Que elija la aplicación',
    stationLine: (name: string, km: number | null, last: string | null) =>
      [name, km === null ? null : `${number(km)} km`, last === null ? null : `hasta el ${date(last)}`]
        .filter((part) => part !== null)
        .join(', '),
    nearestMark: 'la más cercana',
    forField: (field: string) => `Para todas las siembras de ${field}`,
    forFieldHint: 'Las que nombran su propia estación la conservan.',
    kept: 'Guardado. El pronóstico ya lo usa.',
    usesNow: (name: string, by: string) => `En uso: ${name}, ${by}`,
    chosenBy: {
      planting: 'nombrada por la siembra',
      field: 'elegida para el lote',
      nearest: 'la más cercana',
      only: 'la única que hay',
    },
    place: 'Lugar de la estación',
    placeOf: (name: string) => `Lugar de ${name}`,
    placeText: 'En grados, como en los mapas. Con él la aplicación halla la estación más cercana a una siembra.',
    latitude: 'Latitud (norte sobre 0)',
    longitude: 'Longitud (este sobre 0)',
    placeKnown: (latitude: number, longitude: number) => `En ${number(latitude, 3)}, ${number(longitude, 3)}`,
    placeUnknown: 'Todavía sin lugar',
    here: 'Tomar la posición de este aparato',
    looking: 'Buscando la posición',
    noPosition: 'Este aparato no da su posición aquí. Escríbala, o permítala en los ajustes del aparato.',
    placeBad: 'Dé la latitud de -90 a 90 y la longitud de -180 a 180.',
    keepPlace: 'Guardar este lugar',

    setsTitle: 'Tablas de calor',
    setsText:
      'Base, límite superior, modo de contar y tabla van juntos y solo se eligen juntos. La elegida aquí vale donde ni híbrido ni siembra tienen otra.',
    heatSet: 'Tabla de calor',
    asWider: 'Como se eligió para el híbrido o el cuaderno',
    asNotebook: 'Como se eligió para el cuaderno',
    setLine: ({ set }: HeatSetRow) =>
      set.method === 'plain_mean'
        ? `Base ${number(set.base, 1)} ${degrees(set)}`
        : `Base ${number(set.base, 1)} ${degrees(set)}, límite superior ${number(set.upper, 1)} ${degrees(set)}`,
    setUnused: 'Fuente',
    countsIn: (name: string) => `Calor contado por «${name}»`,
    setBy: {
      planting: 'elegida para esta siembra',
      hybrid: 'elegida para el híbrido',
      notebook: 'elegida para el cuaderno',
      default: 'pues nadie eligió otra',
    },
    inUse: 'Vale para el cuaderno',
    useSet: 'Que valga para el cuaderno',
    editSet: 'Editar',
    newSet: 'Agregar una tabla de calor',
    newSetTitle: 'Tabla de calor nueva',
    editSetTitle: 'Editar tabla de calor',
    removeSet: 'Quitar esta tabla',
    setRemoved: (name: string) => `Se quitó «${name}»; lo que iba por ella va por la elección siguiente.`,
    setRestored: (name: string) => `«${name}» está de vuelta.`,
    setName: 'Nombre',
    setSource: 'De dónde viene la tabla',
    setSourceHint: 'boletín y año, o sus propias cuentas',
    unit: 'Unidad',
    units: { fahrenheit: '°F', celsius: '°C' },
    base: 'Base',
    upper: 'Límite superior',
    method: 'Modo de contar un día',
    methods: methodsEs,
    tables: 'Tabla',
    column: (at: number) => `Clase de madurez ${at}`,
    columnName: 'Clase',
    addColumn: 'Agregar una clase',
    dropColumn: 'Quitar esta clase',
    mark: marksEs,
    unitsFromPlanting: 'Unidades de calor desde la siembra. Hacen falta media floración y capa negra; lo demás ayuda.',
    needNumbers: 'Dé la base, el límite y cada marca como número.',
    startFrom: 'Empezar con las cifras de',
    saveSet: 'Guardar la tabla',

    hybridsTitle: 'Híbridos',
    hybridsEmpty: 'Todavía no hay híbridos. Se nombran en la siembra.',
    hybridPlantings: (count: number) => (count === 1 ? '1 siembra' : `${number(count)} siembras`),
    hybridOpen: (name: string) => `Ritmo de ${name}`,
    maturity: 'Clase de madurez',
    maturityText: 'De la guía de semilla. Dice cuánto calor toma la media floración antes de ver nada en el campo.',
    className: classesEs,
    classUnknown: 'No se sabe',
    classUnits: (units: number) => `media floración tras unas ${number(units)} unidades`,
    daysInGuide: 'Días a media floración en la guía',
    daysHint: 'elige la clase; las guías difieren unos días (práctica común)',
    paceTitle: 'Ritmo tras la media floración',
    paceText: 'Contra la tabla publicada: 100 pide el calor de la tabla, 105 pide 5 % menos.',
    pacePublished: (low: number, high: number) =>
      `Solo por la tabla: entre ${percent(low)} y ${percent(high)}, ocho de cada diez veces.`,
    paceLearned: (plantings: number, mid: number, low: number, high: number) =>
      `Con lo que mostraron aquí ${plantings === 1 ? '1 siembra' : `${number(plantings)} siembras`}: cerca de ${percent(mid)}, entre ${percent(low)} y ${percent(high)}.`,
    paceNothing: 'Ninguna siembra suya ha mostrado nada aún; vale solo la tabla.',
    paceNext: (low: number, high: number) =>
      `Su próxima siembra: entre ${percent(low)} y ${percent(high)}; las siembras de un híbrido también difieren.`,
    bloomTitle: 'Calor a media floración',
    bloomLine: (mid: number, low: number, high: number) =>
      `Unas ${number(mid)} unidades desde la siembra, entre ${number(low)} y ${number(high)}.`,
    bloomPublished: (low: number, high: number) => `Solo por la tabla: entre ${number(low)} y ${number(high)}.`,
    plantingPace: (mid: number, low: number, high: number, sightings: number) =>
      `cerca de ${percent(mid)} (${percent(low)} a ${percent(high)}), de ${sightings === 1 ? '1 recorrida o fecha de floración' : `${number(sightings)} recorridas o fechas de floración`}`,
    plantingUnseen: 'todavía sin recorrer',
    otherSet: 'contada con otra tabla de calor; aquí no enseña nada',
    chartLabel: 'Ritmo: la tabla, lo aprendido y cada siembra',
    rowPublished: 'Tabla',
    rowLearned: 'Aprendido',
    rowNext: 'Próxima siembra',
    tableTitle: 'En tabla',
    tableWhat: 'Qué',
    tableLow: 'Bajo',
    tableMid: 'Medio',
    tableHigh: 'Alto',

    halfBloomOn: 'Media floración vista el',
    halfBloomHint: 'la mitad de las plantas en flor; afina cada fecha',
    emptied: 'No se sabe',

    step: { reading: 'Leyendo el archivo', storing: 'Guardándolo' },
    progress: (step: string, share: number) => `${step}: ${percent(share)} %`,
    stopping: 'Deteniendo: no se guarda nada',
    stoppedFile: 'Detenido. No se guardó nada del archivo.',
    maturityKnown: (name: MaturityClass) => `Híbrido ${classesEs[name].toLowerCase()}`,
    maturityNotKnown: 'clase de madurez del híbrido sin saber',
  },
);
