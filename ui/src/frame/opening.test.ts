import { beforeEach, describe, expect, it, vi } from 'vitest';

import { Opening } from './opening.svelte';
import { route, type Found } from './router.svelte';

/** A route whose code comes when the test says so. */
function slowRoute(): { found: Found; arrive: () => void; fail: () => void; loads: () => number } {
  let settle: { resolve: (code: { default: () => object }) => void; reject: (error: Error) => void };
  const load = vi.fn(() => new Promise<{ default: () => object }>((resolve, reject) => (settle = { resolve, reject })));
  return {
    found: route('/key', load).match('/key')!,
    arrive: () => settle.resolve({ default: () => ({}) }),
    fail: () => settle.reject(new Error('gone')),
    loads: () => load.mock.calls.length,
  };
}

describe('opening a screen', () => {
  beforeEach(() => void vi.useFakeTimers());

  it('shows it once its code is there, and at once the next time', async () => {
    const opening = new Opening();
    const { found, arrive, loads } = slowRoute();
    const opened = opening.open('/key', found);
    expect([opening.shown, opening.busy]).toEqual([null, true]);
    arrive();
    await opened;
    expect([opening.shown?.path, opening.busy]).toEqual(['/key', false]);
    await opening.open('/nowhere', null);
    expect(opening.shown).toBeNull();
    void opening.open('/key', found);
    expect(opening.shown?.path).toBe('/key');
    expect(loads()).toBe(1);
  });

  it('keeps the screen before for 300 ms, then says that it is loading', async () => {
    const opening = new Opening();
    const before = slowRoute();
    const opened = opening.open('/before', before.found);
    before.arrive();
    await opened;
    const next = slowRoute();
    const opening2 = opening.open('/next', next.found);
    vi.advanceTimersByTime(299);
    expect([opening.shown?.path, opening.slow]).toEqual(['/before', false]);
    vi.advanceTimersByTime(1);
    expect([opening.shown, opening.slow]).toEqual([null, true]);
    next.arrive();
    await opening2;
    expect([opening.shown?.path, opening.slow]).toEqual(['/next', false]);
  });

  it('shows the screen that was asked for last, whichever comes first', async () => {
    const opening = new Opening();
    const [first, last] = [slowRoute(), slowRoute()];
    const both = [opening.open('/first', first.found), opening.open('/last', last.found)];
    last.arrive();
    first.arrive();
    await Promise.all(both);
    expect(opening.shown?.path).toBe('/last');
    vi.advanceTimersByTime(1000);
    expect(opening.shown?.path).toBe('/last');
  });

  it('says that a screen cannot be loaded, and loads it when asked again', async () => {
    const opening = new Opening();
    const { found, fail, arrive } = slowRoute();
    const failed = opening.open('/key', found);
    fail();
    await failed;
    expect([opening.shown, opening.problem?.code]).toEqual([null, 'unavailable']);
    const again = opening.open('/key', found);
    expect(opening.problem).toBeNull();
    arrive();
    await again;
    expect(opening.shown?.path).toBe('/key');
  });

  it('goes on to the other screens where one cannot be loaded ahead', async () => {
    const opening = new Opening();
    const [broken, fine] = [slowRoute(), slowRoute()];
    const all = opening.loadRest([broken.found.route, fine.found.route]);
    broken.fail();
    await vi.waitFor(() => expect(fine.loads()).toBe(1));
    fine.arrive();
    await all;
    void opening.open('/fine', fine.found);
    expect(opening.shown?.path).toBe('/fine');
  });
});
