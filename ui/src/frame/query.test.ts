import { beforeEach, describe, expect, it, vi } from 'vitest';

import { CallProblem } from '../call';
import { Query } from './query.svelte';

/** A question that is answered when the test says so. */
function slow() {
  const asked: { answer: (answer: string) => void; fail: (error: Error) => void }[] = [];
  const query = new Query(() => new Promise<string>((answer, fail) => asked.push({ answer, fail })));
  return { query, asked };
}

const tick = () => vi.advanceTimersByTimeAsync(0);

describe('a query', () => {
  beforeEach(() => void vi.useFakeTimers());

  it('keeps its answer until the next one is there, and says so when that takes long', async () => {
    const { query, asked } = slow();
    void query.ask();
    asked[0]!.answer('first');
    await tick();
    expect([query.answer, query.busy]).toEqual(['first', false]);
    void query.ask();
    vi.advanceTimersByTime(299);
    expect([query.answer, query.busy, query.slow]).toEqual(['first', true, false]);
    vi.advanceTimersByTime(1);
    expect([query.answer, query.slow]).toEqual(['first', true]);
    asked[1]!.answer('second');
    await tick();
    expect([query.answer, query.busy, query.slow]).toEqual(['second', false, false]);
  });

  it('shows the answer to what was asked last, whichever comes first', async () => {
    const { query, asked } = slow();
    void query.ask();
    void query.ask();
    asked[1]!.answer('newest');
    asked[0]!.answer('older');
    await tick();
    expect(query.answer).toBe('newest');
    vi.advanceTimersByTime(1000);
    expect(query.slow).toBe(false);
  });

  it('tells trouble until it is answered again, beside the answer before', async () => {
    const { query, asked } = slow();
    void query.ask();
    asked[0]!.answer('there');
    await tick();
    void query.ask();
    asked[1]!.fail(new CallProblem({ code: 'disk_full', message: 'm' }));
    await tick();
    expect([query.answer, query.problem?.code, query.busy]).toEqual(['there', 'disk_full', false]);
    void query.ask();
    asked[2]!.fail(new Error('not of the notebook'));
    await tick();
    expect(query.problem).toMatchObject({ code: 'internal', message: 'not of the notebook' });
    void query.ask();
    asked[3]!.answer('again');
    await tick();
    expect([query.answer, query.problem]).toEqual(['again', null]);
  });

  it('forgets what is on its way with what is there', async () => {
    const { query, asked } = slow();
    void query.ask();
    query.drop();
    asked[0]!.answer('late');
    await tick();
    expect([query.answer, query.busy]).toEqual([null, false]);
  });
});
