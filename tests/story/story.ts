// One scout's story, told once and played by two faces: a phone's browser at
// the desk, and the app's own window.
//
// A planting is made, 25 heads are read at 5 stops, one is taken back and read
// again, the screen is opened anew, and every head that was shown as saved must
// be there.

import { expect } from '@playwright/test';

/** What a hand does to a screen, whatever drives it. */
export interface Hand {
  /** Touches of the screen so far: a tap is one, a slide is one. */
  readonly touches: number;
  /** Touches the control of this role and exact name, once it can be. */
  tap(role: 'button' | 'link', name: string): Promise<void>;
  /** Slides a finger down the drawn head to this share, and lets go. */
  slide(percent: number): Promise<void>;
  /** Writes into the field whose label starts so. */
  write(label: string, text: string): Promise<void>;
  /** Names of the heads in the row of the stop that is shown. */
  heads(): Promise<string[]>;
  /** Width of the band on the stage line, pixels; 0 without a band. */
  bandWidth(): Promise<number>;
  /** The screen's main heading. */
  heading(): Promise<string>;
  /** Opens the same address anew. */
  reload(): Promise<void>;
}

interface Read {
  reading: 'Bloom' | 'Liquid' | 'Pliable' | 'Dented';
  share: number;
}

/** A field at soft dough with some early and some late heads, five stops of five. */
const FIELD: readonly (readonly Read[])[] = [
  [pliable(40), pliable(40), pliable(60), liquid(90), pliable(25)],
  [pliable(55), pliable(70), pliable(70), pliable(35), pliable(90)],
  [liquid(80), pliable(20), pliable(45), pliable(45), pliable(45)],
  [pliable(65), pliable(80), { reading: 'Dented', share: 10 }, pliable(75), pliable(50)],
  [pliable(30), pliable(30), pliable(55), liquid(100), pliable(60)],
];

function pliable(share: number): Read {
  return { reading: 'Pliable', share };
}

function liquid(share: number): Read {
  return { reading: 'Liquid', share };
}

function words(read: Read): string {
  return `${read.reading.toLowerCase()}, ${read.share} %`;
}

/** Plays the story. */
export async function walkAPlanting(hand: Hand): Promise<void> {
  await hand.tap('link', 'Add a planting');
  await hand.write('Name', 'Creek bottom');
  await hand.write('Hybrid', 'Early tan 1');
  await hand.tap('button', 'Save the planting');
  await hand.tap('button', 'Start a walk');
  // The key comes first for who has never met it.
  await hand.tap('button', 'Start reading heads');

  const bands: number[] = [];
  let before: Read | undefined;
  for (const [at, stop] of FIELD.entries()) {
    if (at > 0) await hand.tap('button', 'Next stop');
    await expectHeads(hand, []);
    for (const [number, read] of stop.entries()) {
      const touched = hand.touches;
      const like = before?.reading === read.reading && before.share === read.share;
      if (like) await hand.tap('button', `Same again: ${words(read)}`);
      else {
        await hand.slide(read.share);
        await hand.tap('button', read.reading);
      }
      expect(hand.touches - touched, 'touches for a head').toBeLessThanOrEqual(like ? 1 : 2);
      await expectHeads(hand, stop.slice(0, number + 1));
      before = read;
    }
    bands.push(await hand.bandWidth());
  }
  expect(bands.at(-1), `the band narrows over the stops: ${bands.join(', ')}`).toBeLessThan(0.75 * (bands[0] ?? 0));

  // One too many, and taken back.
  const last = FIELD.at(-1) ?? [];
  await hand.tap('button', `Same again: ${words(pliable(60))}`);
  await expectHeads(hand, [...last, pliable(60)]);
  await hand.tap('button', 'Undo the last head');
  await expectHeads(hand, last);

  await hand.reload();
  await expectWalk(hand);

  await hand.tap('button', 'Finish');
  await expect.poll(() => hand.heading()).toBe('Creek bottom');
}

/** Every head of the walk, from the last stop to the first. */
export async function expectWalk(hand: Hand): Promise<void> {
  for (const [at, stop] of [...FIELD.entries()].toReversed()) {
    await expectHeads(hand, stop);
    if (at > 0) await hand.tap('button', 'Earlier stop');
  }
}

/** The row shows these heads and no other, each of them as saved. */
async function expectHeads(hand: Hand, reads: readonly Read[]): Promise<void> {
  const saved = reads.map((read, at) => `Head ${at + 1}: ${words(read)}`);
  await expect.poll(() => hand.heads(), { timeout: 15_000 }).toEqual(saved);
}
