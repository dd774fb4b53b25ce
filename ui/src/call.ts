// The one way from the screens to the notebook. Inside the app it speaks over
// the shell's own channel, at the desk over HTTP to the program that served
// the page. Both carry the same request and the same reply.

import { invoke, isTauri } from '@tauri-apps/api/core';

import type { Answer, Changed, Problem, ProblemCode, Reply, Request } from './contract';

/** The answer that belongs to a request. */
export type AnswerTo<R extends Request> = Extract<Answer, { op: R['op'] }>;

/**
 * Kinds of trouble that the screens have words for: the notebook's own, and a
 * page that does not know the desk's secret (of an earlier start, say).
 */
export type Trouble = ProblemCode | 'stranger';

/** What a failed call throws: one of a few kinds of trouble, with words for the log. */
export class CallProblem extends Error {
  readonly code: Trouble;

  constructor(problem: { code: Trouble; message: string }) {
    super(problem.message);
    this.name = 'CallProblem';
    this.code = problem.code;
  }
}

type Listener = (changed: Changed[]) => void;
const listeners = new Set<Listener>();

/** Hears of everything a request of this face changed; returns how to stop. */
export function onChanged(listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Asks the notebook. Throws [`CallProblem`] and nothing else. */
export async function call<R extends Request>(request: R): Promise<AnswerTo<R>> {
  const reply = isTauri() ? await overShell(request) : await overHttp(request);
  if (reply.answer.op !== request.op) {
    throw new CallProblem({ code: 'internal', message: `asked ${request.op}, was answered ${reply.answer.op}` });
  }
  if (reply.changed.length > 0) {
    for (const listener of listeners) listener(reply.changed);
  }
  return reply.answer as AnswerTo<R>;
}

async function overShell(request: Request): Promise<Reply> {
  try {
    return await invoke<Reply>('call', { request });
  } catch (error) {
    throw new CallProblem(asProblem(error));
  }
}

async function overHttp(request: Request): Promise<Reply> {
  let response: Response;
  try {
    response = await fetch('/call', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-Headwalk-Secret': deskSecret() },
      body: JSON.stringify(request),
    });
  } catch {
    throw new CallProblem({ code: 'unavailable', message: 'the desk does not answer: is it still running?' });
  }
  const body: unknown = await response.json().catch(() => null);
  if (response.ok && body !== null) return body as Reply;
  const problem = asProblem(body);
  throw new CallProblem(response.status === 401 ? { ...problem, code: 'stranger' } : problem);
}

function asProblem(error: unknown): Problem {
  if (typeof error === 'object' && error !== null && 'code' in error && 'message' in error) {
    return error as Problem;
  }
  const message = typeof error === 'string' ? error : 'no reason was given';
  return { code: 'unavailable', message };
}

const SECRET = 'headwalk.secret';

/**
 * The secret that the desk put into the page's address for this start. It is
 * taken out of the address bar at once, so that it is in no bookmark and no
 * shared link, and kept for as long as the tab lives. True where there was one.
 */
export function takeDeskSecret(): boolean {
  const query = new URLSearchParams(location.search);
  const fragment = new URLSearchParams(location.hash.replace(/^#/, ''));
  const secret = fragment.get('secret') ?? query.get('secret');
  if (secret === null) return false;
  sessionStorage.setItem(SECRET, secret);
  query.delete('secret');
  const rest = query.toString();
  const screen = location.hash.startsWith('#/') ? location.hash : '';
  history.replaceState(null, '', location.pathname + (rest ? `?${rest}` : '') + screen);
  return true;
}

function deskSecret(): string {
  return sessionStorage.getItem(SECRET) ?? '';
}
