// The contract with the notebook's service, generated from its Rust types into
// `wire/`. Screens import from here, so that the generated files can move.

export type { Advice } from './wire/Advice';
export type { Answer } from './wire/Answer';
export type { Answers } from './wire/Answers';
export type { Area } from './wire/Area';
export type { Band } from './wire/Band';
export type { Changed } from './wire/Changed';
export type { DueReason } from './wire/DueReason';
export type { Flag } from './wire/Flag';
export type { Head } from './wire/Head';
export type { HeadFileReview } from './wire/HeadFileReview';
export type { HeadSaved } from './wire/HeadSaved';
export type { HeadView } from './wire/HeadView';
export type { MoreStops } from './wire/MoreStops';
export type { Names } from './wire/Names';
export type { NewHead } from './wire/NewHead';
export type { NewPlanting } from './wire/NewPlanting';
export type { PerStage } from './wire/PerStage';
export type { PlantingPage } from './wire/PlantingPage';
export type { PlantingRow } from './wire/PlantingRow';
export type { Problem } from './wire/Problem';
export type { ProblemCode } from './wire/ProblemCode';
export type { Purpose } from './wire/Purpose';
export type { Reading } from './wire/Reading';
export type { Reply } from './wire/Reply';
export type { Request } from './wire/Request';
export type { Settings } from './wire/Settings';
export type { Stage } from './wire/Stage';
export type { StopView } from './wire/StopView';
export type { Theme } from './wire/Theme';
export type { UndoWhat } from './wire/UndoWhat';
export type { Units } from './wire/Units';
export type { WalkBrief } from './wire/WalkBrief';
export type { WalkPage } from './wire/WalkPage';
export type { WholeField } from './wire/WholeField';
