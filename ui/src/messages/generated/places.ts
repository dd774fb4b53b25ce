// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface PlacesWords {
  readonly position: {
    readonly off: string;
    readonly looking: string;
    readonly refused: string;
    readonly unavailable: string;
  };
  readonly meters: (meters: number) => string;
  readonly feet: (feet: number) => string;
  readonly known: (good: string) => string;
  readonly old: (good: string, minutes: number) => string;
  readonly northLetter: string;
  readonly whereAmI: string;
  readonly at: (name: string) => string;
  readonly near: (name: string, length: string) => string;
  readonly mayBeAt: (name: string, good: string) => string;
  readonly nothingNear: string;
  readonly mapTitle: string;
  readonly drawn: (walks: number, stops: number) => string;
  readonly noOutline: string;
  readonly whereToStop: string;
  readonly nextIs: (stop: number, stops: number) => string;
  readonly toward: {
    readonly n: string;
    readonly ne: string;
    readonly e: string;
    readonly se: string;
    readonly s: string;
    readonly sw: string;
    readonly w: string;
    readonly nw: string;
  };
  readonly wayToStop: (stop: number, length: string, paces: number, toward: string) => string;
  readonly youAreThere: (stop: number) => string;
  readonly allDone: string;
  readonly planDrawn: (stops: number, spare: number) => string;
  readonly legend: string;
  readonly walkLength: (length: string, edge: string) => string;
  readonly noPlan: string;
  readonly pacedIntro: (rows: number, paces: number) => string;
  readonly stop: (at: number) => string;
  readonly rowsOn: (rows: number) => string;
  readonly rowsBack: (rows: number) => string;
  readonly pacesUp: (paces: number) => string;
  readonly pacesDown: (paces: number) => string;
  readonly rows: string;
  readonly paces: string;
  readonly planStops: string;
  readonly planEdge: string;
  readonly whyBalanced: string;
  readonly toWalk: string;
  readonly bringIn: string;
  readonly bringOther: string;
  readonly removeOutline: string;
  readonly removeSure: string;
  readonly removeYes: string;
  readonly keep: string;
  readonly outlineRemoved: string;
  readonly fileTitle: string;
  readonly fileIntro: string;
  readonly fileShape: string;
  readonly holds: (name: string, outlines: number) => string;
  readonly noTargets: string;
  readonly nameless: (at: number) => string;
  readonly corners: (corners: string) => string;
  readonly already: string;
  readonly replaces: string;
  readonly refused: string;
  readonly whose: string;
  readonly nobodys: string;
  readonly field: (name: string) => string;
  readonly store: (count: number) => string;
  readonly nothingToStore: string;
  readonly stored: (count: number) => string;
  readonly stopPlaced: (good: string) => string;
  readonly stopUnplaced: string;
}

export const places = {
  meters: ['meters'],
  feet: ['feet'],
  known: ['good'],
  old: ['good', 'minutes'],
  at: ['name'],
  near: ['name', 'length'],
  mayBeAt: ['name', 'good'],
  drawn: ['walks', 'stops'],
  nextIs: ['stop', 'stops'],
  wayToStop: ['stop', 'length', 'paces', 'toward'],
  youAreThere: ['stop'],
  planDrawn: ['stops', 'spare'],
  walkLength: ['length', 'edge'],
  pacedIntro: ['rows', 'paces'],
  stop: ['at'],
  rowsOn: ['rows'],
  rowsBack: ['rows'],
  pacesUp: ['paces'],
  pacesDown: ['paces'],
  holds: ['name', 'outlines'],
  nameless: ['at'],
  corners: ['corners'],
  field: ['name'],
  store: ['count'],
  stored: ['count'],
  stopPlaced: ['good'],
};
