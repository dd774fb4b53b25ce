// Saying that two plantings are one, and taking it back.

import { call } from '../call';
import type { MergeConflict, MergeSaid, PlantingBrief } from '../contract';
import { notices } from '../frame/notices.svelte';
import { say } from '../messages';
import { date } from '../messages/format';

/** Shows `other` as `kept` from now on, with the way back in reach. */
export async function mergeInto(kept: PlantingBrief, other: PlantingBrief): Promise<void> {
  await call({ op: 'merge_plantings', duplicate: other.id, into: kept.id });
  notices.show({
    text: say.crew.merged(other.name, kept.name),
    undo: () => takeApart(other),
  });
}

/** Makes a merged planting one of its own again. */
export async function takeApart(duplicate: PlantingBrief): Promise<void> {
  await call({ op: 'unmerge_planting', duplicate: duplicate.id });
  notices.show({ text: say.crew.apart(duplicate.name) });
}

/** Chooses among what people said a planting is. */
export async function settleMerge({ planting, name }: MergeConflict, said: MergeSaid): Promise<void> {
  await call({ op: 'settle_merge', planting, into: said.into });
  notices.show({ text: say.crew.settled(name, shownMerge(said)) });
}

/** What somebody said a planting is, in words. */
export const shownMerge = (said: MergeSaid): string =>
  said.into === null ? say.crew.ofItsOwn : say.crew.sameAs(said.name);

/** What tells a planting from another. */
export function marks({ field, hybrid, planted_on, walks, scouts }: PlantingBrief): string {
  const parts = [field, hybrid, planted_on && say.plantings.planted(date(planted_on)), say.crew.walksOf(walks, scouts)];
  return parts.filter((part) => part).join(' · ');
}
