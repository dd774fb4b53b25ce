// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface CrewWords {
  readonly title: string;
  readonly role: {
    readonly owner: string;
    readonly scout: string;
    readonly reader: string;
  };
  readonly may: {
    readonly owner: string;
    readonly scout: string;
    readonly reader: string;
  };
  readonly notIn: string;
  readonly joinTitle: string;
  readonly open: string;
  readonly youAreA: {
    readonly owner: string;
    readonly scout: string;
    readonly reader: string;
  };
  readonly invitation: string;
  readonly invitationHint: string;
  readonly paste: string;
  readonly scan: string;
  readonly scanPicture: string;
  readonly cameraAsked: string;
  readonly cameraShows: string;
  readonly holdCode: string;
  readonly cameraStop: string;
  readonly cameraNot: {
    readonly refused: string;
    readonly none: string;
    readonly busy: string;
  };
  readonly notOurs: string;
  readonly noCode: string;
  readonly hub: string;
  readonly hubHint: string;
  readonly yourName: string;
  readonly thisDevice: string;
  readonly deviceGuess: (phone: boolean) => string;
  readonly crewName: string;
  readonly crewNameHint: string;
  readonly crewNameDefault: string;
  readonly certificate: string;
  readonly certificateChosen: (name: string) => string;
  readonly chooseCertificate: string;
  readonly join: string;
  readonly joining: string;
  readonly whatHappens: string;
  readonly exchangeTitle: string;
  readonly never: string;
  readonly last: (at: string | number) => string;
  readonly nothingWaits: string;
  readonly headsWait: (heads: number) => string;
  readonly changesWait: (changes: number) => string;
  readonly headsAndPhotosWait: (heads: number, photos: number) => string;
  readonly changesAndPhotosWait: (changes: number, photos: number) => string;
  readonly photosWait: (photos: number) => string;
  readonly exchangeNow: string;
  readonly stop: string;
  readonly looking: string;
  readonly giving: (done: number, all: number) => string;
  readonly givingChanges: (done: number, all: number) => string;
  readonly fetching: (done: number, all: number) => string;
  readonly photosLeft: (left: number) => string;
  readonly noSignalThen: string;
  readonly nextAt: (at: string | number) => string;
  readonly itself: string;
  readonly readerHolds: string;
  readonly people: string;
  readonly you: string;
  readonly thisOne: string;
  readonly seen: (at: string | number) => string;
  readonly removedAt: (at: string | number) => string;
  readonly peopleNoSignal: string;
  readonly changeRole: (name: string) => string;
  readonly removeDevice: string;
  readonly removeTitle: (device: string, person: string) => string;
  readonly removeText: string;
  readonly removeYes: string;
  readonly keep: string;
  readonly removedDone: (device: string) => string;
  readonly invite: string;
  readonly inviteFirst: string;
  readonly inviteTitle: string;
  readonly inviteRole: string;
  readonly inviteFor: string;
  readonly somebodyNew: string;
  readonly furtherDevice: (name: string) => string;
  readonly holds: string;
  readonly lastsMinutes: (minutes: number) => string;
  readonly lastsHours: (hours: number) => string;
  readonly lastsDays: (days: number) => string;
  readonly makeInvitation: string;
  readonly qrCode: string;
  readonly endsAt: (at: string | number) => string;
  readonly code: string;
  readonly copy: string;
  readonly copied: string;
  readonly share: string;
  readonly another: string;
  readonly openInvitations: string;
  readonly openInvitationAs: (role: string, ends: string | number) => string;
  readonly withdraw: string;
  readonly withdrawn: string;
  readonly fileTitle: string;
  readonly fileText: string;
  readonly writeFile: string;
  readonly fileName: (day: string) => string;
  readonly fileWritten: (name: string) => string;
  readonly readFile: string;
  readonly readingFile: (name: string) => string;
  readonly fileRead: (fresh: number, all: number) => string;
  readonly leave: string;
  readonly leaveTitle: (crew: string) => string;
  readonly leaveText: string;
  readonly leaveWaits: string;
  readonly leaveYes: string;
  readonly stay: string;
  readonly left: string;
  readonly leaveHere: string;
  readonly leaveHereTitle: (crew: string) => string;
  readonly leaveHereText: string;
  readonly leaveUnknownText: string;
  readonly leaveHereOwner: string;
  readonly leaveHereWaits: string;
  readonly unknownTitle: string;
  readonly unknownText: string;
  readonly toCrew: string;
  readonly leftTitle: string;
  readonly leftText: string;
  readonly leftOfThis: string;
  readonly leftOfOther: string;
  readonly leftOfOne: (who: string) => string;
  readonly leftWhy: {
    readonly not_signed: string;
    readonly other_key: string;
    readonly not_taken: string;
    readonly incoherent: string;
  };
  readonly leftDo: {
    readonly not_signed: string;
    readonly other_key: string;
    readonly not_taken: string;
    readonly incoherent: string;
  };
  readonly leftDoOwn: string;
  readonly movedTitle: string;
  readonly movedWhy: {
    readonly written_elsewhere: string;
    readonly new_key: string;
  };
  readonly movedText: string;
  readonly movedSeen: string;
  readonly differTitle: string;
  readonly differText: string;
  readonly shownNow: string;
  readonly given: (at: string | number) => string;
  readonly none: string;
  readonly yes: string;
  readonly no: string;
  readonly use: (value: string) => string;
  readonly keepValue: (value: string) => string;
  readonly settled: (field: string, value: string) => string;
  readonly ofItsOwn: string;
  readonly itIs: (what: string) => string;
  readonly sameAs: (name: string) => string;
  readonly duplicatesTitle: string;
  readonly duplicatesIntro: string;
  readonly noDuplicates: string;
  readonly mayBeTwice: string;
  readonly look: string;
  readonly walks: (walks: number) => string;
  readonly walksBy: (walks: number, scouts: string) => string;
  readonly areOne: (name: string) => string;
  readonly merged: (other: string, name: string) => string;
  readonly mergedTitle: string;
  readonly takeApart: (name: string) => string;
  readonly apart: (name: string) => string;
}

export const crew = {
  deviceGuess: ['phone'],
  certificateChosen: ['name'],
  last: ['at'],
  headsWait: ['heads'],
  changesWait: ['changes'],
  headsAndPhotosWait: ['heads', 'photos'],
  changesAndPhotosWait: ['changes', 'photos'],
  photosWait: ['photos'],
  giving: ['done', 'all'],
  givingChanges: ['done', 'all'],
  fetching: ['done', 'all'],
  photosLeft: ['left'],
  nextAt: ['at'],
  seen: ['at'],
  removedAt: ['at'],
  changeRole: ['name'],
  removeTitle: ['device', 'person'],
  removedDone: ['device'],
  furtherDevice: ['name'],
  lastsMinutes: ['minutes'],
  lastsHours: ['hours'],
  lastsDays: ['days'],
  endsAt: ['at'],
  openInvitationAs: ['role', 'ends'],
  fileName: ['day'],
  fileWritten: ['name'],
  readingFile: ['name'],
  fileRead: ['fresh', 'all'],
  leaveTitle: ['crew'],
  leaveHereTitle: ['crew'],
  leftOfOne: ['who'],
  given: ['at'],
  use: ['value'],
  keepValue: ['value'],
  settled: ['field', 'value'],
  itIs: ['what'],
  sameAs: ['name'],
  walks: ['walks'],
  walksBy: ['walks', 'scouts'],
  areOne: ['name'],
  merged: ['other', 'name'],
  takeApart: ['name'],
  apart: ['name'],
};
