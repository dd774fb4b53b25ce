import type { Advice } from '../contract';
import { say } from '../messages';
import { bestMore } from '../stage-line/standing';

/** The short of an advice, as one sentence. */
export function adviceSentence(advice: Advice): string {
  switch (advice.verdict) {
    case 'no_heads':
      return say.stages.noHeads;
    case 'enough':
      return say.stages.enough;
    case 'more_stops':
      return say.stages.moreStops(bestMore(advice));
    case 'out_of_reach':
      return say.stages.outOfReach(bestMore(advice));
  }
}

/** Whether the sentence says minutes, which rest on the scout's own walking costs. */
export function restsOnCosts(advice: Advice): boolean {
  return (advice.verdict === 'more_stops' || advice.verdict === 'out_of_reach') && advice.more.length > 0;
}
