import { beforeEach, describe, expect, it, vi } from 'vitest';

const asked: {
  request: { edit: { numbers: { value: number }[] }; settled: boolean };
  answer: (page: unknown) => void;
}[] = [];
vi.mock('../call', () => ({
  CallProblem: class extends Error {},
  call: (request: never) => new Promise((answer) => asked.push({ request, answer })),
}));

const { WhatIf } = await import('./what-if.svelte');
const tick = () => new Promise((done) => setTimeout(done));

describe('what-if', () => {
  beforeEach(() => void (asked.length = 0));

  it('asks one thing at a time, and then the newest', async () => {
    const whatIf = new WhatIf('p');
    for (const value of [1, 2, 3, 4]) whatIf.put('price', value, false);
    expect(asked).toHaveLength(1);
    asked[0]!.answer({ op: 'what_if', sensitivity: [1] });
    await tick();
    expect(asked).toHaveLength(2);
    expect(asked[1]!.request.edit.numbers[0]!.value).toBe(4);
    asked[1]!.answer({ op: 'what_if', sensitivity: [4] });
    await tick();
    expect(asked).toHaveLength(2);
    expect(whatIf.answer?.sensitivity).toEqual([4]);
  });

  it('forgets an answer that comes after all was laid aside', async () => {
    const whatIf = new WhatIf('p');
    whatIf.put('price', 1, true);
    whatIf.clear();
    asked[0]!.answer({ op: 'what_if', sensitivity: [1] });
    await tick();
    expect(whatIf.answer).toBeNull();
    expect(whatIf.on).toBe(false);
  });
});
