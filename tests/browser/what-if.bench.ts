// How long a slider of the harvest screen takes from a move of the finger to the
// painted answer, on a browser held to a quarter of its speed. The limit is 50 ms.
//
// In turn with the answers stands a peer that asks for the settings and redraws
// nothing: what the browser, the way to the program and a frame cost at that moment.

import { expect, test } from './season';
import { Slider } from './slider';

const LIMIT_MS = 50;
const MOVES = 50;

// What records a test for the one who looks for a fault slows the browser down.
test.use({ trace: 'off', screenshot: 'off' });

test('what-if: a move to its painted answer', async ({ page, season }) => {
  const slider = await Slider.open(page, season.url);
  // Far enough apart for each to have its own answer, an empty redraw after each.
  await slider.drag(MOVES, async () => {
    await page.waitForTimeout(120);
    await slider.redrawEmpty();
    await page.waitForTimeout(60);
  });
  await slider.lift();
  const { answers, empty } = await slider.noted();
  const answer = median(answers);
  console.log(
    `what-if at a quarter of the speed, ${answers.length} moves: median ${answer.toFixed(1)} ms (limit ${LIMIT_MS}), ` +
      `empty question and redraw ${median(empty).toFixed(1)} ms`,
  );
  expect(answers.length).toBeGreaterThan(MOVES * 0.6);
  expect(answer).toBeLessThanOrEqual(LIMIT_MS);
});

function median(of: readonly number[]): number {
  const sorted = of.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}
