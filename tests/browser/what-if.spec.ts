// The sliders of the harvest screen on a slow phone: answers come while the finger
// is still down, moves that outrun them are passed over, and the last move has the
// last word. How long an answer takes is measured by `what-if.bench.ts`.

import { expect, test } from './season';
import { Slider } from './slider';

const MOVES = 12;
const FAST_MOVES = 120;

test('a slider answers while it is dragged, and ends on the answer of the last move', async ({ page, season }) => {
  const slider = await Slider.open(page, season.url);

  // The finger stays where it is until each answer is drawn.
  let drawn = 0;
  await slider.drag(MOVES, async () => {
    await expect.poll(async () => (await slider.noted()).answers.length).toBeGreaterThan(drawn);
    drawn = (await slider.noted()).answers.length;
  });
  expect(drawn).toBeGreaterThanOrEqual(MOVES);
  await slider.lift();
  await slider.atRest();

  // Moves faster than any answer.
  const before = (await slider.noted()).asked;
  await slider.control.evaluate(async (element, moves) => {
    const input = element as HTMLInputElement;
    for (let at = 0; at < moves; at += 1) {
      input.value = String(0.5 + (at % 30) * 0.05);
      input.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise((done) => setTimeout(done, 3));
    }
    input.dispatchEvent(new Event('change', { bubbles: true }));
  }, FAST_MOVES);
  await slider.atRest();
  const told = await slider.control.inputValue();
  expect((await slider.noted()).asked - before).toBeLessThan(FAST_MOVES);

  // Asked once more from rest, the same number gives the same curve.
  await slider.fullSpeed();
  const shown = await slider.curve.getAttribute('d');
  await slider.control.fill(String(Number(told) + 0.05));
  await expect(slider.curve).not.toHaveAttribute('d', shown ?? '');
  await slider.control.fill(told);
  await expect(slider.curve).toHaveAttribute('d', shown ?? '');
});
