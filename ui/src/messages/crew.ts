import type { CrewProblemCode, LeftAlone, MovedWhy, Role } from '../contract';
import { moment, number } from './format';
import { inBoth } from './language.svelte';

/** Trouble between this device and its crew, in words. */
export const crewProblemsEn: Record<CrewProblemCode, string> = {
  no_signal: 'The hub was not reached. Try again where there is signal.',
  not_trusted: 'The certificate of the hub is not trusted. Ask the owner whether the hub has one of its own.',
  not_let_in: 'The hub does not take this code: it was used, has ended, or is mistyped. Ask the owner for a new one.',
  removed:
    'This device was removed from the crew and has forgotten it. Your heads are all here; ask an owner for an invitation.',
  not_allowed: 'Your role in the crew does not allow this. An owner can change it.',
  hub_busy: 'The hub has too much to do. Try again in a minute.',
  hub_full:
    'The hub has no more room for this device. Nothing is lost: everything stays here. Ask whoever runs the hub for more room.',
  hub_version: 'App and hub are of versions that do not fit. Bring both up to date.',
  last_owner: 'A crew needs an owner with a device. Make somebody else an owner first.',
  not_in_crew: 'That is not in the crew any more.',
  bad_invitation: 'This is no invitation. Paste the whole link, or type the 20 letters and digits and the address.',
  bad_exchange_file: 'This file cannot be read to its end. What was whole in it is kept; have it sent again.',
  other_crew: 'This file is of another crew. Nothing of it was taken in.',
  no_crew: 'This device is in no crew. Join one first.',
  in_crew: 'This device is in a crew already. Leave that one first.',
  no_token:
    'This notebook came from another device, and its key stayed there. Join with a new invitation; the heads are all here.',
  parted: 'Hub and device hold different things under one number. Nothing was lost; try again.',
  stopped: 'Stopped. What was exchanged is kept.',
  crew_failed: 'The notebook did not answer. Try again.',
};

export const crewProblemsEs: Record<CrewProblemCode, string> = {
  no_signal: 'No se llegó al servidor del equipo. Intente donde haya señal.',
  not_trusted: 'El certificado del servidor no es de confianza. Pregunte al dueño si el servidor tiene uno propio.',
  not_let_in: 'El servidor no acepta este código: ya se usó, venció o está mal escrito. Pida otro al dueño.',
  removed:
    'Este aparato fue quitado del equipo y ya lo olvidó. Sus panojas están todas aquí; pida una invitación a un dueño.',
  not_allowed: 'Su papel en el equipo no lo permite. Un dueño puede cambiarlo.',
  hub_busy: 'El servidor tiene demasiado trabajo. Intente en un minuto.',
  hub_full:
    'El servidor no tiene más espacio para este aparato. No se perdió nada: todo queda aquí. Pida más espacio a quien maneja el servidor.',
  hub_version: 'La aplicación y el servidor son de versiones que no encajan. Actualice los dos.',
  last_owner: 'Un equipo necesita un dueño con un aparato. Nombre primero a otro dueño.',
  not_in_crew: 'Eso ya no está en el equipo.',
  bad_invitation: 'Esto no es una invitación. Pegue el enlace entero, o escriba las 20 letras y cifras y la dirección.',
  bad_exchange_file:
    'Este archivo no se puede leer hasta el final. Lo que estaba entero se guardó; pida que lo envíen de nuevo.',
  other_crew: 'Este archivo es de otro equipo. No se tomó nada.',
  no_crew: 'Este aparato no está en ningún equipo. Únase primero a uno.',
  in_crew: 'Este aparato ya está en un equipo. Salga primero de ese.',
  no_token:
    'Este cuaderno vino de otro aparato y su llave quedó allá. Únase con otra invitación; las panojas están todas aquí.',
  parted: 'El servidor y el aparato tienen cosas distintas con un mismo número. No se perdió nada; intente de nuevo.',
  stopped: 'Detenido. Lo intercambiado queda guardado.',
  crew_failed: 'El cuaderno no respondió. Intente de nuevo.',
};

const rolesEn: Record<Role, string> = { owner: 'Owner', scout: 'Scout', reader: 'Reader' };
const rolesEs: Record<Role, string> = { owner: 'Dueño', scout: 'Explorador', reader: 'Lector' };

const mayEn: Record<Role, string> = {
  owner: 'records, invites and removes',
  scout: 'records and sees everything',
  reader: 'sees everything, records nothing for others',
};
const mayEs: Record<Role, string> = {
  owner: 'registra, invita y quita',
  scout: 'registra y ve todo',
  reader: 've todo, no registra para otros',
};

const fieldsEn: Record<string, string> = {
  name: 'Name',
  farm: 'Farm',
  field: 'Field',
  hybrid: 'Hybrid',
  planted_on: 'Planted on',
  purpose: 'Grown for',
  area: 'Area',
  station: 'Weather station',
  half_bloom_on: 'Half bloom on',
  removed: 'Hidden from the list',
};
const fieldsEs: Record<string, string> = {
  name: 'Nombre',
  farm: 'Finca',
  field: 'Lote',
  hybrid: 'Híbrido',
  planted_on: 'Sembrado el',
  purpose: 'Para',
  area: 'Superficie',
  station: 'Estación del tiempo',
  half_bloom_on: 'Media floración el',
  removed: 'Oculta de la lista',
};

const leftWhyEn: Record<LeftAlone, string> = {
  not_signed: 'Some came without the signature of the device that writes them.',
  other_key: 'They are signed with another key than the one this device knows.',
  not_taken: 'The hub does not take them from this device.',
  incoherent: 'What the hub says about them does not fit together.',
};
const leftWhyEs: Record<LeftAlone, string> = {
  not_signed: 'Algunas llegaron sin la firma del aparato que las escribe.',
  other_key: 'Llevan la firma de otra llave que la que este aparato conoce.',
  not_taken: 'El servidor no las acepta de este aparato.',
  incoherent: 'Lo que el servidor dice de ellas no concuerda.',
};

const leftDoEn: Record<LeftAlone, string> = {
  not_signed: 'Update the app on that device and exchange there; if this stays, tell an owner.',
  other_key: 'Tell an owner: a notebook may have been copied, or somebody else writes as that device.',
  not_taken: 'Let that device exchange with the hub itself.',
  incoherent: 'Tell whoever runs the hub.',
};
const leftDoEs: Record<LeftAlone, string> = {
  not_signed: 'Actualice la aplicación en ese aparato e intercambie allí; si sigue igual, avise a un dueño.',
  other_key: 'Avise a un dueño: quizás se copió un cuaderno, o alguien más escribe como ese aparato.',
  not_taken: 'Haga que ese aparato intercambie él mismo con el servidor.',
  incoherent: 'Avise a quien maneja el servidor.',
};

const movedWhyEn: Record<MovedWhy, string> = {
  written_elsewhere:
    'Another device wrote under the id of this one, as happens after a notebook is copied or an old backup is restored.',
  new_key: 'This device joined again, and the key it had before is gone.',
};
const movedWhyEs: Record<MovedWhy, string> = {
  written_elsewhere:
    'Otro aparato escribió con la identificación de este, como pasa al copiar un cuaderno o restaurar una copia vieja.',
  new_key: 'Este aparato se unió de nuevo, y la llave que tenía antes ya no está.',
};

const headsEn = (count: number) => `${number(count)} ${count === 1 ? 'head' : 'heads'}`;
const headsEs = (count: number) => `${number(count)} ${count === 1 ? 'panoja' : 'panojas'}`;
const photosEn = (count: number) => `${number(count)} ${count === 1 ? 'photo' : 'photos'}`;
const photosEs = (count: number) => `${number(count)} ${count === 1 ? 'foto' : 'fotos'}`;
const changesEn = (count: number) => `${number(count)} ${count === 1 ? 'entry' : 'entries'}`;
const changesEs = (count: number) => `${number(count)} ${count === 1 ? 'anotación' : 'anotaciones'}`;
const walksEn = (count: number) => `${number(count)} ${count === 1 ? 'walk' : 'walks'}`;
const walksEs = (count: number) => `${number(count)} ${count === 1 ? 'recorrida' : 'recorridas'}`;

/** The crew: joining, who is in it, exchanging, and what does not agree. */
export const crew = inBoth(
  {
    title: 'Crew',
    role: rolesEn,
    may: mayEn,
    notIn:
      'Several scouts, one set of notes. A crew meets at a hub of its own; nobody outside sees anything. Without signal everything works as before.',
    joinTitle: 'Join a crew',
    open: 'Crew and exchange',
    youAre: (role: Role) =>
      `You are ${role === 'owner' ? 'an owner' : `a ${rolesEn[role].toLowerCase()}`}: ${mayEn[role]}.`,

    invitation: 'Invitation',
    invitationHint: 'the link, or the 20 letters and digits',
    paste: 'Paste',
    scan: 'Scan the QR code',
    scanPicture: 'Picture of the QR code',
    cameraAsked: 'Allow the camera, so that the code can be read. No picture is kept.',
    cameraShows: 'What the camera shows',
    holdCode: 'Hold the QR code of the invitation before the camera.',
    cameraStop: 'Stop the camera',
    cameraNot: {
      refused:
        'The camera is not allowed here. Allow it in the settings of the device or the browser, or take a picture of the code, or type the invitation.',
      none: 'No camera was found here. Choose a picture of the code, or type the invitation.',
      busy: 'The camera gives no picture; perhaps another app holds it. Close that and try again, choose a picture of the code, or type the invitation.',
    },
    notOurs: 'This QR code is no invitation to a crew. An owner shows the right one under Crew, Invite somebody.',
    noCode: 'No QR code was found in the picture. Come closer and take it again.',
    hub: 'Address of the hub',
    hubHint: 'starts with https://',
    yourName: 'Your name',
    thisDevice: 'Name of this device',
    deviceGuess: (phone: boolean): string => (phone ? 'Phone' : 'Computer'),
    crewName: 'Name of the crew',
    crewNameHint: 'only counts with the first code of a hub',
    crewNameDefault: 'Crew',
    certificate: 'The hub has a certificate of its own',
    certificateChosen: (name: string) => `Certificate: ${name}`,
    chooseCertificate: 'Choose its PEM file',
    join: 'Join',
    joining: 'Asking the hub',
    whatHappens: 'Everything recorded here so far goes to the crew, and everything of the crew comes here.',

    exchangeTitle: 'Exchange',
    never: 'Nothing exchanged yet',
    last: (at: number) => `Last exchange ${moment(at)}`,
    nothingWaits: 'nothing waits',
    waits: (changes: number, heads: number, photos: number) =>
      [heads > 0 ? headsEn(heads) : changesEn(changes), photos > 0 ? photosEn(photos) : '']
        .filter((part) => part !== '')
        .join(', ') + ` ${(heads > 0 ? heads : changes) + photos === 1 ? 'waits' : 'wait'}`,
    photosWait: (photos: number) => `${photosEn(photos)} ${photos === 1 ? 'waits' : 'wait'}`,
    exchangeNow: 'Exchange now',
    stop: 'Stop',
    looking: 'Asking the hub',
    giving: (done: number, all: number) => `${number(done)} of ${headsEn(all)} given`,
    givingChanges: (done: number, all: number) => `${number(done)} of ${changesEn(all)} given`,
    fetching: (done: number, all: number) => `${number(done)} of ${changesEn(all)} fetched`,
    photosLeft: (left: number) => `${photosEn(left)} left`,
    noSignalThen: 'No signal at the last try. It goes by itself once there is; nothing is lost.',
    nextAt: (at: number) => `Next try ${moment(at)}.`,
    itself: 'Goes by itself where there is signal.',
    readerHolds: 'As a reader you keep what you record on this device.',

    people: 'People and devices',
    you: 'you',
    thisOne: 'this device',
    seen: (at: number) => `here last ${moment(at)}`,
    removedAt: (at: number) => `removed ${moment(at)}`,
    peopleNoSignal: 'Who is in the crew is shown where there is signal.',
    changeRole: (name: string) => `What ${name} may do`,
    removeDevice: 'Remove',
    removeTitle: (device: string, person: string) => `Remove ${device} of ${person}?`,
    removeText:
      'It can exchange nothing from now on, and forgets its key when it next asks. What it gave before stays with the crew; what it had not given stays on it.',
    removeYes: 'Remove it now',
    keep: 'Keep it',
    removedDone: (device: string) => `${device} is out of the crew.`,

    invite: 'Invite somebody',
    inviteFirst: 'You are the first here. Invite the scouts of your crew.',
    inviteTitle: 'Invitation',
    inviteRole: 'What they may do',
    inviteFor: 'For whom',
    somebodyNew: 'Somebody new',
    furtherDevice: (name: string) => `A further device of ${name}`,
    holds: 'Holds for',
    minutes: (minutes: number) =>
      minutes < 60
        ? `${number(minutes)} minutes`
        : minutes < 1440
          ? `${number(minutes / 60)} ${minutes === 60 ? 'hour' : 'hours'}`
          : `${number(minutes / 1440)} ${minutes === 1440 ? 'day' : 'days'}`,
    makeInvitation: 'Make the invitation',
    qrCode: 'QR code of the invitation',
    endsAt: (at: number) => `Holds until ${moment(at)}, for one device, once.`,
    code: 'Code',
    copy: 'Copy the link',
    copied: 'The link is copied.',
    share: 'Send the link',
    another: 'Another invitation',
    openInvitations: 'Open invitations',
    openInvitation: (role: Role, ends: number) => `${rolesEn[role]}, until ${moment(ends)}`,
    withdraw: 'Take back',
    withdrawn: 'The invitation is taken back.',

    fileTitle: 'From phone to phone by file',
    fileText:
      'Without a hub in reach, the same exchange goes through a file: write it here, send it any way you like, read it on the other device of the crew.',
    writeFile: 'Write a file',
    fileName: (day: string) => `headwalk ${day}.hwx`,
    fileWritten: (name: string) => `${name} is written. It holds everything in this notebook, for your crew only.`,
    readFile: 'Read a file',
    readingFile: (name: string) => `Reading ${name}`,
    fileRead: (fresh: number, all: number) => `${number(fresh)} of ${changesEn(all)} in it were new here.`,

    leave: 'Leave the crew',
    leaveTitle: (crew: string) => `Leave ${crew}?`,
    leaveText:
      'This device exchanges no more. Everything in the notebook stays here, and what was given stays with the crew.',
    leaveWaits: 'What waits here has not been given yet.',
    leaveYes: 'Leave',
    stay: 'Stay',
    left: 'This device is in no crew now.',
    leaveHere: 'Leave here and now',
    leaveHereTitle: (crew: string) => `Leave ${crew} without its hub?`,
    leaveHereText:
      'Everything in this notebook stays. The hub does not hear that you left and lists this device until an owner removes it. You can join again with a new code.',
    leaveUnknownText: 'Everything in this notebook stays. You can join again with a new code.',
    leaveHereOwner: 'You are an owner: if the hub still runs, somebody else must be an owner to invite and remove.',
    leaveHereWaits: 'What waits here goes to the next crew that you join.',
    unknownTitle: 'The hub does not know this device',
    unknownText:
      'Your notebook is whole. The hub may have been set up again, or a sign-in page of this network answers in its place: try another network, then join with a new code or leave here.',
    toCrew: 'To the crew',

    leftTitle: 'Left out of the exchange',
    leftText: 'Everything else was exchanged, and nothing here was changed.',
    leftOf: (who: string | null, own: boolean) =>
      own ? 'Entries of this device' : who === null ? 'Entries of another device' : `Entries of ${who}`,
    leftWhy: leftWhyEn,
    leftDo: leftDoEn,
    leftDoOwn: 'Exchange again; if this stays, tell an owner.',
    movedTitle: 'This device has a new id',
    movedWhy: movedWhyEn,
    movedText:
      'So it writes under a new id from now on, and its own entries that the hub did not have moved there. Nothing is lost, and there is nothing to do.',
    movedSeen: 'Got it',

    differTitle: 'Two people gave different values',
    differText: 'The later one is shown. Choose, and the others see your choice.',
    shownNow: 'shown now',
    field: fieldsEn,
    given: (at: number) => `given ${moment(at)}`,
    none: 'none',
    yes: 'yes',
    no: 'no',
    use: (value: string) => `Use ${value}`,
    keepValue: (value: string) => `Keep ${value}`,
    settled: (field: string, value: string) => `${field}: ${value}`,
    ofItsOwn: 'a planting of its own',
    itIs: (what: string) => `It is ${what}`,
    sameAs: (name: string) => `the same as ${name}`,

    duplicatesTitle: 'Made twice?',
    duplicatesIntro:
      'These plantings look like one that two people made without signal. Merged, they are one planting with the walks of both; it can be taken back at any time.',
    noDuplicates: 'No two plantings look like one.',
    mayBeTwice: 'This planting may have been made twice.',
    look: 'Look at it',
    walksOf: (walks: number, scouts: readonly string[]) =>
      scouts.length > 0 ? `${walksEn(walks)} by ${scouts.join(', ')}` : walksEn(walks),
    areOne: (name: string) => `They are one: keep ${name}`,
    merged: (other: string, name: string) => `${other} is shown as ${name} now.`,
    mergedTitle: 'Merged into this planting',
    takeApart: (name: string) => `Take ${name} out again`,
    apart: (name: string) => `${name} is a planting of its own again.`,
  },
  {
    title: 'Equipo',
    role: rolesEs,
    may: mayEs,
    notIn:
      'Varios exploradores, un solo cuaderno. El equipo se encuentra en un servidor propio; nadie de afuera ve nada. Sin señal todo funciona igual.',
    joinTitle: 'Unirse a un equipo',
    open: 'Equipo e intercambio',
    youAre: (role: Role) => `Usted es ${rolesEs[role].toLowerCase()}: ${mayEs[role]}.`,

    invitation: 'Invitación',
    invitationHint: 'el enlace, o las 20 letras y cifras',
    paste: 'Pegar',
    scan: 'Escanear el código QR',
    scanPicture: 'Foto del código QR',
    cameraAsked: 'Permita la cámara, para leer el código. No se guarda ninguna imagen.',
    cameraShows: 'Lo que muestra la cámara',
    holdCode: 'Ponga el código QR de la invitación frente a la cámara.',
    cameraStop: 'Apagar la cámara',
    cameraNot: {
      refused:
        'La cámara no está permitida aquí. Permítala en los ajustes del aparato o del navegador, o tome una foto del código, o escriba la invitación.',
      none: 'Aquí no se encontró una cámara. Elija una foto del código, o escriba la invitación.',
      busy: 'La cámara no da imagen; quizás la usa otra aplicación. Ciérrela e intente de nuevo, elija una foto del código, o escriba la invitación.',
    },
    notOurs:
      'Este código QR no es una invitación a un equipo. Quien es dueño muestra el correcto en Equipo, Invitar a alguien.',
    noCode: 'En la foto no hay un código QR. Acérquese y tómela de nuevo.',
    hub: 'Dirección del servidor',
    hubHint: 'empieza con https://',
    yourName: 'Su nombre',
    thisDevice: 'Nombre de este aparato',
    deviceGuess: (phone: boolean): string => (phone ? 'Teléfono' : 'Computadora'),
    crewName: 'Nombre del equipo',
    crewNameHint: 'solo cuenta con el primer código de un servidor',
    crewNameDefault: 'Equipo',
    certificate: 'El servidor tiene un certificado propio',
    certificateChosen: (name: string) => `Certificado: ${name}`,
    chooseCertificate: 'Elegir su archivo PEM',
    join: 'Unirse',
    joining: 'Preguntando al servidor',
    whatHappens: 'Todo lo registrado aquí va al equipo, y todo lo del equipo viene aquí.',

    exchangeTitle: 'Intercambio',
    never: 'Todavía sin intercambio',
    last: (at: number) => `Último intercambio ${moment(at)}`,
    nothingWaits: 'nada espera',
    waits: (changes: number, heads: number, photos: number) =>
      [heads > 0 ? headsEs(heads) : changesEs(changes), photos > 0 ? photosEs(photos) : '']
        .filter((part) => part !== '')
        .join(', ') + ` ${(heads > 0 ? heads : changes) + photos === 1 ? 'espera' : 'esperan'}`,
    photosWait: (photos: number) => `${photosEs(photos)} ${photos === 1 ? 'espera' : 'esperan'}`,
    exchangeNow: 'Intercambiar ahora',
    stop: 'Detener',
    looking: 'Preguntando al servidor',
    giving: (done: number, all: number) => `${number(done)} de ${headsEs(all)} entregadas`,
    givingChanges: (done: number, all: number) => `${number(done)} de ${changesEs(all)} entregadas`,
    fetching: (done: number, all: number) => `${number(done)} de ${changesEs(all)} recibidas`,
    photosLeft: (left: number) => `${left === 1 ? 'queda' : 'quedan'} ${photosEs(left)}`,
    noSignalThen: 'Sin señal en el último intento. Sigue solo cuando haya; no se pierde nada.',
    nextAt: (at: number) => `Próximo intento: ${moment(at)}`,
    itself: 'Sigue solo donde hay señal.',
    readerHolds: 'Como lector, lo que registra queda en este aparato.',

    people: 'Personas y aparatos',
    you: 'usted',
    thisOne: 'este aparato',
    seen: (at: number) => `aquí por última vez ${moment(at)}`,
    removedAt: (at: number) => `quitado ${moment(at)}`,
    peopleNoSignal: 'Quién está en el equipo se muestra donde hay señal.',
    changeRole: (name: string) => `Qué puede hacer ${name}`,
    removeDevice: 'Quitar',
    removeTitle: (device: string, person: string) => `¿Quitar ${device} de ${person}?`,
    removeText:
      'Desde ahora no puede intercambiar nada, y olvida su llave cuando vuelva a preguntar. Lo que ya entregó queda en el equipo; lo que no había entregado queda en él.',
    removeYes: 'Quitarlo ahora',
    keep: 'Dejarlo',
    removedDone: (device: string) => `${device} está fuera del equipo.`,

    invite: 'Invitar a alguien',
    inviteFirst: 'Usted es la primera persona aquí. Invite a los exploradores de su equipo.',
    inviteTitle: 'Invitación',
    inviteRole: 'Qué podrá hacer',
    inviteFor: 'Para quién',
    somebodyNew: 'Alguien nuevo',
    furtherDevice: (name: string) => `Otro aparato de ${name}`,
    holds: 'Vale por',
    minutes: (minutes: number) =>
      minutes < 60
        ? `${number(minutes)} minutos`
        : minutes < 1440
          ? `${number(minutes / 60)} ${minutes === 60 ? 'hora' : 'horas'}`
          : `${number(minutes / 1440)} ${minutes === 1440 ? 'día' : 'días'}`,
    makeInvitation: 'Hacer la invitación',
    qrCode: 'Código QR de la invitación',
    endsAt: (at: number) => `Vale hasta ${moment(at)}, para un aparato, una vez.`,
    code: 'Código',
    copy: 'Copiar el enlace',
    copied: 'El enlace está copiado.',
    share: 'Enviar el enlace',
    another: 'Otra invitación',
    openInvitations: 'Invitaciones abiertas',
    openInvitation: (role: Role, ends: number) => `${rolesEs[role]}, hasta ${moment(ends)}`,
    withdraw: 'Retirar',
    withdrawn: 'La invitación está retirada.',

    fileTitle: 'De teléfono a teléfono por archivo',
    fileText:
      'Sin servidor a mano, el mismo intercambio va por un archivo: escríbalo aquí, envíelo como quiera y léalo en el otro aparato del equipo.',
    writeFile: 'Escribir un archivo',
    fileName: (day: string) => `headwalk ${day}.hwx`,
    fileWritten: (name: string) => `${name} está escrito. Contiene todo este cuaderno, solo para su equipo.`,
    readFile: 'Leer un archivo',
    readingFile: (name: string) => `Leyendo ${name}`,
    fileRead: (fresh: number, all: number) => `${number(fresh)} de ${changesEs(all)} eran nuevas aquí.`,

    leave: 'Salir del equipo',
    leaveTitle: (crew: string) => `¿Salir de ${crew}?`,
    leaveText: 'Este aparato deja de intercambiar. Todo lo del cuaderno queda aquí, y lo entregado queda en el equipo.',
    leaveWaits: 'Lo que espera aquí todavía no se entregó.',
    leaveYes: 'Salir',
    stay: 'Quedarse',
    left: 'Este aparato no está en ningún equipo.',
    leaveHere: 'Salir aquí y ahora',
    leaveHereTitle: (crew: string) => `¿Salir de ${crew} sin su servidor?`,
    leaveHereText:
      'Todo lo del cuaderno queda aquí. El servidor no se entera y muestra este aparato hasta que un dueño lo quite. Puede unirse de nuevo con otro código.',
    leaveUnknownText: 'Todo lo del cuaderno queda aquí. Puede unirse de nuevo con otro código.',
    leaveHereOwner: 'Usted es dueño: si el servidor sigue en marcha, debe quedar otro dueño para invitar y quitar.',
    leaveHereWaits: 'Lo que espera aquí va al próximo equipo al que se una.',
    unknownTitle: 'El servidor no conoce este aparato',
    unknownText:
      'Su cuaderno está completo. Quizás el servidor se instaló de nuevo, o una página de acceso de esta red responde en su lugar: pruebe en otra red, y luego únase con otro código o salga aquí.',
    toCrew: 'Al equipo',

    leftTitle: 'Fuera del intercambio',
    leftText: 'Todo lo demás se intercambió, y aquí no cambió nada.',
    leftOf: (who: string | null, own: boolean) =>
      own ? 'Anotaciones de este aparato' : who === null ? 'Anotaciones de otro aparato' : `Anotaciones de ${who}`,
    leftWhy: leftWhyEs,
    leftDo: leftDoEs,
    leftDoOwn: 'Intercambie de nuevo; si sigue igual, avise a un dueño.',
    movedTitle: 'Este aparato tiene otra identificación',
    movedWhy: movedWhyEs,
    movedText:
      'Por eso escribe desde ahora con otra identificación, y sus anotaciones que el servidor no tenía pasaron a ella. No se perdió nada, y no hay que hacer nada.',
    movedSeen: 'Entendido',

    differTitle: 'Dos personas dieron valores distintos',
    differText: 'Se muestra el último. Elija, y los demás ven su elección.',
    shownNow: 'se muestra',
    field: fieldsEs,
    given: (at: number) => `dado ${moment(at)}`,
    none: 'ninguno',
    yes: 'sí',
    no: 'no',
    use: (value: string) => `Usar ${value}`,
    keepValue: (value: string) => `Dejar ${value}`,
    settled: (field: string, value: string) => `${field}: ${value}`,
    ofItsOwn: 'una siembra aparte',
    itIs: (what: string) => `Es ${what}`,
    sameAs: (name: string) => `la misma que ${name}`,

    duplicatesTitle: '¿Hechas dos veces?',
    duplicatesIntro:
      'Estas siembras parecen una sola que dos personas hicieron sin señal. Unidas son una siembra con las recorridas de las dos; se puede deshacer en cualquier momento.',
    noDuplicates: 'No hay dos siembras que parezcan una.',
    mayBeTwice: 'Esta siembra quizá se hizo dos veces.',
    look: 'Mirar',
    walksOf: (walks: number, scouts: readonly string[]) =>
      scouts.length > 0 ? `${walksEs(walks)} de ${scouts.join(', ')}` : walksEs(walks),
    areOne: (name: string) => `Son una: dejar ${name}`,
    merged: (other: string, name: string) => `${other} se muestra ahora como ${name}.`,
    mergedTitle: 'Unidas a esta siembra',
    takeApart: (name: string) => `Sacar ${name} de nuevo`,
    apart: (name: string) => `${name} es otra vez una siembra aparte.`,
  },
);
