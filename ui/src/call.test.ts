import { beforeEach, describe, expect, it, vi } from 'vitest';

import { call, CallProblem, subscribe, takeDeskSecret, type Topics } from './call';
import type { Reply } from './contract';

// The browser as far as the call needs it: an address, a tab's memory, a network.
let address: URL;
let memory: Map<string, string>;
let respond: (body: unknown) => Response | Promise<Response>;
let sent: { secret: string | null; body: unknown }[];

const json = (body: unknown, status = 200) => new Response(JSON.stringify(body), { status });

beforeEach(() => {
  address = new URL('http://127.0.0.1:4178/');
  memory = new Map();
  sent = [];
  respond = () => json({ answer: { op: 'remove_walk' }, changed: [] });
  vi.stubGlobal('window', {});
  vi.stubGlobal('location', address);
  vi.stubGlobal('sessionStorage', {
    getItem: (key: string) => memory.get(key) ?? null,
    setItem: (key: string, value: string) => void memory.set(key, value),
  });
  vi.stubGlobal('history', {
    replaceState: (_: unknown, __: string, url: string) => {
      address.href = new URL(url, address).href;
    },
  });
  vi.stubGlobal('fetch', async (_: string, request: RequestInit) => {
    const body: unknown = JSON.parse(request.body as string);
    sent.push({ secret: new Headers(request.headers).get('X-Headwalk-Secret'), body });
    return respond(body);
  });
});

const failure = (op: 'remove_walk' = 'remove_walk') =>
  call({ op, walk: 'w' }).then(
    () => null,
    (error: unknown) => error,
  );

describe('the secret of the desk', () => {
  it.each(['#secret=abc', '?secret=abc', '?secret=abc#/settings'])('is taken out of the address %s', async (end) => {
    address.href = `http://127.0.0.1:4178/${end}`;
    expect(takeDeskSecret()).toBe(true);
    expect(address.href).not.toContain('abc');
    expect(address.hash).toBe(end.includes('#/') ? '#/settings' : '');
    await call({ op: 'remove_walk', walk: 'w' });
    expect(sent[0]?.secret).toBe('abc');
  });

  it('leaves an address without one alone', () => {
    address.href = 'http://127.0.0.1:4178/?other=1#/planting/7';
    expect(takeDeskSecret()).toBe(false);
    expect(address.href).toBe('http://127.0.0.1:4178/?other=1#/planting/7');
  });
});

describe('call', () => {
  it('sends the request as it is and gives the answer', async () => {
    respond = () =>
      json({ answer: { op: 'names', farms: ['Home'], fields: [], hybrids: [], scouts: [] }, changed: [] });
    const names = await call({ op: 'names' });
    expect(names.farms).toEqual(['Home']);
    expect(sent[0]?.body).toEqual({ op: 'names' });
  });

  it('tells what changed, and only then', async () => {
    const topics: Record<string, Topics> = {
      anything: 'anything',
      plantings: ['settings', 'planting'],
      p: [{ kind: 'planting', id: 'p' }],
      q: [{ kind: 'planting', id: 'q' }],
      walks: ['walk'],
    };
    const heard: string[] = [];
    const stops = Object.entries(topics).map(([name, topics]) => subscribe(topics, () => heard.push(name)));
    const change = async (changed: Reply['changed']) => {
      respond = () => json({ answer: { op: 'remove_walk' }, changed });
      await call({ op: 'remove_walk', walk: 'w' });
      return heard.splice(0);
    };
    expect(await change([{ kind: 'planting', id: 'p' }, { kind: 'settings' }])).toEqual(['anything', 'plantings', 'p']);
    expect(await change([])).toEqual([]);
    for (const stop of stops) stop();
    expect(await change([{ kind: 'walk', id: 'p' }])).toEqual([]);
  });

  it.each([
    ['a problem of the notebook', () => json({ code: 'conflict', message: 'm' }, 409), 'conflict'],
    ['a page that does not know the secret', () => json({ code: 'unavailable', message: 'm' }, 401), 'stranger'],
    ['a reply that is no JSON', () => new Response('<html>', { status: 502 }), 'unavailable'],
    ['no reply at all', () => Promise.reject(new TypeError('failed to fetch')), 'unavailable'],
    ['the answer to something else', () => json({ answer: { op: 'names' }, changed: [] }), 'internal'],
  ])('throws one kind of trouble for %s', async (_, response, code) => {
    respond = response;
    const error = await failure();
    expect(error).toBeInstanceOf(CallProblem);
    expect(error).toMatchObject({ code });
  });
});
