import { describe, expect, it } from 'vitest';

import { CallProblem } from '../call';
import { Action } from './action.svelte';

describe('an action', () => {
  it('is busy until all of it is done', async () => {
    const action = new Action();
    const ends: (() => void)[] = [];
    const both = [1, 2].map(() => action.run(() => new Promise<void>((end) => ends.push(end))));
    ends[0]!();
    await both[0];
    expect(action.busy).toBe(true);
    ends[1]!();
    expect(await both[1]).toBe(true);
    expect(action.busy).toBe(false);
  });

  it('keeps what went wrong until it is tried again', async () => {
    const action = new Action();
    const full = new CallProblem({ code: 'disk_full', message: 'm' });
    expect(await action.run(() => Promise.reject(full))).toBe(false);
    expect([action.problem, action.busy]).toEqual([full, false]);
    const again = action.run(() => Promise.resolve());
    expect(action.problem).toBeNull();
    expect(await again).toBe(true);
  });
});
