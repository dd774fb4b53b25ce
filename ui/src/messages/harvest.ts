// Sentences about ripe grain: how wet, when dry, what waiting costs, what lies
// on the ground. Every number that is a guess is said with its two ends.

import type { Band, BestDay, MoistureWindow, NotCutWhy, StorageDays, WaitingAWeek } from '../contract';
import { date, hundredths, money } from './format';
import { outlook } from './outlook';
import { words } from './words';

type Per = (value: number) => number;

/** Dollars in whole hundreds: more digits would promise too much. */
const hundreds = (value: number) => money(Math.round(value / 100) * 100);

/** Money for an area, with both ends where they differ in whole dollars. */
function net(mean: number, band: Band, area: string, per: Per): string {
  const amount = money(per(mean));
  const [low, high] = [money(per(band.low)), money(per(band.high))];
  return low === high ? words.harvest.net(amount, area) : words.harvest.netBetween(amount, area, low, high);
}

export const harvest = {
  now: ({ mid, low, high }: Band): string => words.harvest.moistureNow(mid, low, high),
  rate: ({ mid, low, high }: Band): string => words.harvest.dryingRate(mid, low, high),
  window({ window, ...told }: MoistureWindow, today: string): string {
    const { p10, p50, p90 } = window;
    if (told.today >= 0.9) return words.harvest.windowReached;
    if (p10 && p50 && p90) return words.harvest.windowSpan(p10, p90, p50, today);
    const never = 100 - hundredths(told.ahead);
    return p50 ? words.harvest.windowFrom(p10 ?? p50, today, never) : words.harvest.windowUnlikely(never);
  },
  otherConstants(days: number): string {
    if (days === 0) return words.harvest.otherSame;
    return days > 0 ? words.harvest.otherLater(days) : words.harvest.otherEarlier(-days);
  },
  fanOn: (on: string, { mid, low, high }: Band): string => words.harvest.moistureOn(on, mid, low, high),
  money: (value: number): string => money(value),
  best({ day, as_good_from, as_good_to }: BestDay, today: string, area: string, per: Per): string {
    const when =
      as_good_from === as_good_to
        ? date(day.date, today)
        : words.harvest.asGood(day.date, as_good_from, as_good_to, today);
    return words.harvest.bestDay(when, net(day.mean, day.net, area, per));
  },
  waiting({ from, mean, loses }: WaitingAWeek, today: string, area: string, per: Per): string {
    const { waitingCosts, waitingGains } = words.harvest;
    return (mean >= 0 ? waitingCosts : waitingGains)(from, today, Math.abs(per(mean)), area, loses);
  },
  moneyOn: (on: string, { mid, low, high }: Band, area: string, per: Per): string =>
    words.harvest.netOn(on, per(mid), area, per(low), per(high)),
  worthLine: (value: string, after: string | null): string =>
    after === null ? words.harvest.worthRefused(value) : words.harvest.worth(value, after),
  storage: ({ answer, days }: StorageDays): string => words.harvest.storageDays(answer, days),
  scoreLine: (on: string, lodged: number, weathering: number, weak: number | null): string =>
    weak === null
      ? words.harvest.scoreOf(on, lodged, weathering)
      : words.harvest.scoreWithWeak(on, lodged, weathering, weak),
  marksLine: (on: string, heads: number, lodged: Band, moldy: Band): string =>
    words.harvest.marksOf(on, heads, lodged.mid, lodged.low, lodged.high, moldy.mid, moldy.low, moldy.high),
  /** What a score of weathering looks like; most scores lie between two that have words. */
  get weatheringWord(): Partial<Record<number, string>> {
    const { score0, score3, score6, score9 } = words.harvest.weatheringWords;
    return { 0: score0, 3: score3, 6: score6, 9: score9 };
  },
  /** Cautions of the harvest; that of a harvest aid is the outlook's too. */
  get caution() {
    return { ...words.harvest.caution, aid: words.outlook.caution.label_and_local_rules_first };
  },
  orderNet: (amount: number): string => words.harvest.orderSum(hundreds(amount)),
  orderRow: (span: string, amount: number): string => words.harvest.orderLine(span, hundreds(amount)),
  notCut(why: NotCutWhy, today: string): string {
    if (why.reason === 'cut') return words.harvest.wasCut(why.on, today);
    return why.reason === 'unknown' ? outlook.why(why.why) : words.harvest.notInOrder[why.reason];
  },
};
