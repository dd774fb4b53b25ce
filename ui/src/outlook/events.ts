// The events of an outlook in the order of the season.

import type { EventDates, EventName, PerEvent } from '../contract';

export const EVENTS: readonly EventName[] = [
  'half_bloom',
  'milk',
  'soft_dough',
  'hard_dough',
  'black_layer',
  'moisture_20',
  'moisture_18',
  'moisture_16',
  'moisture_14',
];

/** Surer than this that it has come, and it is no longer "next". */
const COME = 0.9;

/** Events still to come that have a date, in order. */
export function nextEvents(events: PerEvent<EventDates>): EventName[] {
  return EVENTS.filter((event) => events[event].come < COME && events[event].p10 !== null);
}
