// Where an exchange stands, in one line.

import type { CrewState } from '../contract';
import { say } from '../messages';

/** How far the exchange that runs has come; what waits and since when otherwise. */
export function standing(state: CrewState): string {
  return state.running ? progress(state.running) : resting(state);
}

/** "143 of 210 heads sent, 3 photos left". */
export function progress(running: NonNullable<CrewState['running']>): string {
  const { sent, heads_sent, received, photos } = running;
  const parts: string[] = [];
  if (heads_sent.all > 0) parts.push(say.crew.giving(heads_sent.done, heads_sent.all));
  else if (sent.all > 0) parts.push(say.crew.givingChanges(sent.done, sent.all));
  if (received.all > 0) parts.push(say.crew.fetching(received.done, received.all));
  if (photos.all > photos.done) parts.push(say.crew.photosLeft(photos.all - photos.done));
  return parts.length > 0 ? parts.join(', ') : say.crew.looking;
}

function resting({ last, waiting }: CrewState): string {
  const since = last ? say.crew.last(last.at) : say.crew.never;
  return `${since} · ${waits(waiting)}`;
}

/** What waits to be given. */
export function waits({ changes, heads, photos }: CrewState['waiting']): string {
  if (changes === 0 && photos === 0) return say.crew.nothingWaits;
  if (changes === 0) return say.crew.photosWait(photos);
  return say.crew.waits(changes, heads, photos);
}
