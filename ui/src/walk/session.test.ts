import { beforeEach, describe, expect, it, vi } from 'vitest';

import { call, CallProblem } from '../call';
import type { HeadView, NewHead, Request, WalkPage } from '../contract';
import { WalkSession } from './session.svelte';
import { unsavedOf } from './unsaved';

vi.mock('../call', async (original) => ({ ...(await original<typeof import('../call')>()), call: vi.fn() }));

// A notebook of one walk that keeps what it is sent, and can be made to fail.
class Fake {
  heads: (HeadView & { stop: string })[] = [];
  stops = ['s'];
  asked: Request[] = [];
  down = false;
  /** Stores, but its reply is lost. */
  deaf = false;

  page(): WalkPage {
    return {
      id: 'w',
      planting: { id: 'p', name: 'North 40', last_walk: null, earlier: [] },
      walked_on: '2026-08-20',
      scout: '',
      finished: false,
      stops: this.stops.map((id, at) => ({
        id,
        number: at + 1,
        place: null,
        heads: this.heads.filter((head) => head.stop === id),
      })),
      now: { alone: null, with_history: null, contradiction: null, advice: { verdict: 'no_heads' } },
      undo: this.heads.length > 0 ? 'head' : null,
    } as unknown as WalkPage;
  }

  answer = (request: Request): Promise<unknown> => {
    this.asked.push(request);
    const lost = new CallProblem({ code: 'unavailable', message: 'down' });
    if (this.down) return Promise.reject(lost);
    if (request.op === 'add_head' && !this.heads.some((head) => head.id === request.id)) {
      this.heads = [...this.heads, this.#view(request.stop, request.id ?? '', this.heads.length + 1, request.head)];
    }
    if (request.op === 'correct_head') {
      const corrected = (head: Fake['heads'][number]) => this.#view(head.stop, head.id, head.number, request.to);
      this.heads = this.heads.map((head) => (head.id === request.head ? corrected(head) : head));
    }
    if (request.op === 'add_stop') this.stops = [...new Set([...this.stops, request.id ?? ''])];
    if (request.op === 'remove_head') {
      if (!this.heads.some((head) => head.id === request.head)) {
        return Promise.reject(new CallProblem({ code: 'not_found', message: 'no such head' }));
      }
      this.heads = this.heads.filter((head) => head.id !== request.head);
    }
    if (request.op === 'undo') this.heads = this.heads.slice(0, -1);
    if (this.deaf) return Promise.reject(lost);
    if (request.op === 'add_head' || request.op === 'correct_head') {
      const id = request.op === 'add_head' ? request.id : request.head;
      const head = this.heads.find((each) => each.id === id);
      return Promise.resolve({ op: request.op, walk: 'w', stop: head?.stop, head, now: this.page().now, undo: 'head' });
    }
    return Promise.resolve({ op: request.op, ...this.page() });
  };

  #view(stop: string, id: string, number: number, said: NewHead): Fake['heads'][number] {
    const recorded_at = '2026-08-20T10:00:00-05:00';
    return {
      stop,
      id,
      number,
      head: said.head,
      flags: said.flags,
      note: said.note ?? null,
      recorded_at,
      corrected: false,
    };
  }
}

function memory(): Storage {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  } as unknown as Storage;
}

let fake: Fake;
let store: Storage;
let session: WalkSession;

const settle = () => new Promise((done) => setTimeout(done, 5));
const stored = () => fake.heads.map((head) => [head.head.reading, head.head.share]);

beforeEach(() => {
  vi.stubGlobal('navigator', {});
  fake = new Fake();
  vi.mocked(call).mockImplementation(fake.answer as never);
  store = memory();
  session = new WalkSession(fake.page(), store);
});

describe('the grammar of taps', () => {
  it('saves on the reading where the share came first', async () => {
    session.setShare(35, false);
    session.setShare(40, true);
    expect(session.heads).toHaveLength(0);
    session.tapReading('pliable');
    await settle();
    expect(stored()).toEqual([['pliable', 40]]);
    expect(session.share).toBeNull();
  });

  it('saves when the thumb leaves the head where the reading came first', async () => {
    session.tapReading('liquid');
    session.setShare(60, false);
    await settle();
    expect(stored()).toEqual([]);
    session.setShare(65, true);
    await settle();
    expect(stored()).toEqual([['liquid', 65]]);
  });

  it('saves boot by its tap alone, without a share', async () => {
    session.setShare(40, true);
    session.tapReading('boot');
    await settle();
    expect(stored()).toEqual([['boot', null]]);
  });

  it('takes a reading back when it is tapped twice', () => {
    session.tapReading('liquid');
    session.tapReading('liquid');
    expect(session.reading).toBeNull();
  });

  it('does not save by stepping the number', async () => {
    session.tapReading('liquid');
    session.stepTo(50);
    await settle();
    expect(stored()).toEqual([]);
    session.tapReading('liquid');
    await settle();
    expect(stored()).toEqual([['liquid', 50]]);
  });

  it('repeats the last head in one tap, as fast as they come, without its marks', async () => {
    session.setShare(40, true);
    session.tapReading('pliable');
    await settle();
    session.setMarks(session.heads[0]!.id, ['moldy'], null);
    session.setMarks(session.heads[0]!.id, [...session.heads[0]!.flags, 'lodged_plant'], null);
    for (let tap = 0; tap < 4; tap += 1) session.sameAgain();
    await settle();
    expect(stored()).toEqual(Array.from({ length: 5 }, () => ['pliable', 40]));
    expect(fake.heads.map((head) => head.flags.length)).toEqual([2, 0, 0, 0, 0]);
  });

  it('takes back as many steps as undo is tapped, however fast', async () => {
    for (let tap = 0; tap < 4; tap += 1) session.tapReading('boot');
    await settle();
    void session.undo();
    void session.undo();
    void session.undo();
    await settle();
    expect(fake.heads).toHaveLength(1);
    expect(new Set(fake.asked.flatMap((request) => (request.op === 'undo' ? [request.id] : []))).size).toBe(3);
  });

  it('changes a head in its place', async () => {
    session.setShare(40, true);
    session.tapReading('pliable');
    session.sameAgain();
    await settle();
    session.edit(session.heads[0]!.id);
    expect(session.share).toBe(40);
    session.setShare(70, true);
    session.tapReading('dented');
    await settle();
    session.stopEditing();
    expect(stored()).toEqual([
      ['dented', 70],
      ['pliable', 40],
    ]);
  });
});

describe('the next stop', () => {
  it('is there at once, and takes the heads read right after', async () => {
    session.tapReading('boot');
    session.nextStop();
    expect(session.stops.map((stop) => stop.number)).toEqual([1, 2]);
    expect(session.stop?.number).toBe(2);
    session.sameAgain();
    expect(session.heads).toHaveLength(1);
    await settle();
    expect(fake.asked.map((request) => request.op)).toEqual(['add_head', 'add_stop', 'add_head']);
    expect(session.page.stops.map((stop) => stop.heads.length)).toEqual([1, 1]);
    expect(session.outbox.unsaved).toHaveLength(0);
  });

  it('waits with its heads where the notebook does not answer', async () => {
    fake.down = true;
    session.nextStop();
    session.tapReading('boot');
    await settle();
    expect(session.stop?.number).toBe(2);
    expect(session.heads.map((head) => head.state)).toEqual(['unsaved']);
    session.close();
    fake.down = false;
    const again = new WalkSession(fake.page(), store);
    await settle();
    expect(again.page.stops.map((stop) => stop.heads.length)).toEqual([0, 1]);
    expect(again.stop?.number).toBe(2);
  });
});

describe('changes that are not stored yet', () => {
  it('show as unsaved, outlive a reload and are sent when the notebook answers', async () => {
    session.setShare(40, true);
    session.tapReading('pliable');
    await settle();
    fake.down = true;
    session.edit(session.heads[0]!.id);
    session.tapReading('dented');
    session.setShare(80, true);
    await settle();
    expect(session.heads.map((head) => [head.head.reading, head.head.share, head.state])).toEqual([
      ['dented', 80, 'unsaved'],
    ]);
    expect(stored()).toEqual([['pliable', 40]]);
    session.close();
    fake.down = false;
    const again = new WalkSession(fake.page(), store);
    await settle();
    expect(stored()).toEqual([['dented', 80]]);
    expect(again.heads.map((head) => head.state)).toEqual(['saved']);
  });
});

describe('heads that are not stored yet', () => {
  async function failOne() {
    fake.down = true;
    session.setShare(40, true);
    session.tapReading('pliable');
    await settle();
  }

  it('stay in the row as unsaved and are sent in order when tried again', async () => {
    await failOne();
    session.tapReading('boot');
    await settle();
    expect(session.heads.map((head) => head.state)).toEqual(['unsaved', 'unsaved']);
    expect(session.outbox.trouble?.code).toBe('unavailable');
    fake.down = false;
    session.outbox.retry();
    await settle();
    expect(stored()).toEqual([
      ['pliable', 40],
      ['boot', null],
    ]);
    expect(session.heads.map((head) => head.state)).toEqual(['saved', 'saved']);
    session.close();
  });

  it('outlive a reload', async () => {
    await failOne();
    session.close();
    fake.down = false;
    const again = new WalkSession(fake.page(), store);
    await settle();
    expect(stored()).toEqual([['pliable', 40]]);
    expect(again.heads.map((head) => head.state)).toEqual(['saved']);
    expect(unsavedOf(store, 'w')).toEqual([]);
  });

  it('are stored once though the first reply was lost', async () => {
    fake.deaf = true;
    session.tapReading('boot');
    await settle();
    expect(session.heads.map((head) => head.state)).toEqual(['unsaved']);
    fake.deaf = false;
    session.outbox.retry();
    await settle();
    expect(fake.heads).toHaveLength(1);
    expect(session.heads.map((head) => head.state)).toEqual(['saved']);
    session.close();
  });

  it('are what undo takes back first', async () => {
    session.tapReading('boot');
    await settle();
    await failOne();
    await session.undo();
    expect(session.heads).toHaveLength(1);
    expect(fake.asked.some((request) => request.op === 'undo')).toBe(false);
    fake.down = false;
    await session.undo();
    expect(session.heads).toHaveLength(0);
    session.close();
  });

  it('are withdrawn from the notebook where a lost reply hid that they were stored', async () => {
    fake.deaf = true;
    session.tapReading('boot');
    await settle();
    fake.down = true;
    await session.undo();
    await settle();
    expect(session.heads).toHaveLength(0);
    expect(fake.heads).toHaveLength(1);
    session.close();
    fake.deaf = false;
    fake.down = false;
    const again = new WalkSession(fake.page(), store);
    await settle();
    expect(fake.heads).toHaveLength(0);
    expect(again.heads).toHaveLength(0);
    expect(unsavedOf(store, 'w')).toEqual([]);
  });

  it('hold the walk open', async () => {
    await failOne();
    expect(await session.finish()).toBe(false);
    expect(fake.asked.some((request) => request.op === 'finish_walk')).toBe(false);
    session.close();
  });
});
