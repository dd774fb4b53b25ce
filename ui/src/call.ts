// The one way from the screens to the notebook. Inside the app it speaks over
// the shell's own channel, at the desk over HTTP to the program that served
// the page. Both carry the same request and the same reply.

import { invoke, isTauri } from '@tauri-apps/api/core';

import type {
  AnswerOf,
  ArchiveIn,
  ArchiveReview,
  Changed,
  ChosenFile,
  FileOut,
  CrewAnswer,
  CrewProblemCode,
  CrewReply,
  CrewRequest,
  FileRequest,
  PhotoSize,
  Problem,
  ProblemCode,
  Reply,
  Request,
} from './contract';

/** Anything that can be asked: of the notebook, or of the crew. */
export type Asked = Request | CrewRequest;

/** What starts, stops or watches an exchange is answered with where it stands. */
type CrewTag<T> = T extends 'signal' | 'exchange' | 'stop' ? 'state' : T;

/** The answer that belongs to a request. */
export type AnswerTo<R extends Asked | FileRequest> = R extends { op: infer Op extends (Request | FileRequest)['op'] }
  ? AnswerOf<Op>
  : R extends { crew: infer Crew }
    ? Extract<CrewAnswer, { crew: CrewTag<Crew> }>
    : never;

/**
 * Kinds of trouble that the screens have words for: the notebook's own, and a
 * page that does not know the desk's secret (of an earlier start, say).
 */
export type Trouble = ProblemCode | CrewProblemCode | 'stranger';

/** What a failed call throws: one of a few kinds of trouble, with words for the log. */
export class CallProblem extends Error {
  readonly code: Trouble;

  constructor(problem: { code: Trouble; message: string }) {
    super(problem.message);
    this.name = 'CallProblem';
    this.code = problem.code;
  }
}

/** Any failure as a problem with a code that the screens have words for. */
export function asCallProblem(error: unknown): CallProblem {
  if (error instanceof CallProblem) return error;
  return new CallProblem({ code: 'internal', message: error instanceof Error ? error.message : String(error) });
}

/** What may change: anything of a kind, or one thing of it. */
export type Topic = Changed['kind'] | Changed;
export type Topics = readonly Topic[] | 'anything';

const subscriptions = new Set<(changed: readonly Changed[]) => void>();

/** Calls `hear` after each request that changed something of these topics; returns how to stop. */
export function subscribe(topics: Topics, hear: () => unknown): () => void {
  const receive = (changed: readonly Changed[]) => {
    if (topics === 'anything' || changed.some((each) => topics.some((topic) => isOf(each, topic)))) hear();
  };
  subscriptions.add(receive);
  return () => subscriptions.delete(receive);
}

function isOf(changed: Changed, topic: Topic): boolean {
  if (typeof topic === 'string') return changed.kind === topic;
  return changed.kind === topic.kind && (!('id' in topic) || ('id' in changed && changed.id === topic.id));
}

/** Tells the subscribers what a reply says has changed. */
function publish<T extends { changed: readonly Changed[] }>(reply: T): T {
  if (reply.changed.length > 0) for (const each of subscriptions) each(reply.changed);
  return reply;
}

type TroubleListener = (problem: CallProblem) => void;
const troubleListeners = new Set<TroubleListener>();

/** Hears of every call that failed; returns how to stop. */
export function onTrouble(listener: TroubleListener): () => void {
  troubleListeners.add(listener);
  return () => troubleListeners.delete(listener);
}

/** Asks the notebook or the crew. Throws [`CallProblem`] and nothing else. */
export async function call<R extends Asked>(request: R): Promise<AnswerTo<R>> {
  if ('crew' in request) return answerTo(request, await overEither<CrewReply>('crew', request));
  return answerTo(request, await heard(overEither<Reply>('call', request)));
}

/** Everything in the notebook as a file for another device of the crew. */
export async function crewFileOut(): Promise<ArrayBuffer> {
  if (isTauri()) return overShell<ArrayBuffer>('crew_file_out');
  const response = await overDesk('/crew/file');
  return response.ok ? response.arrayBuffer() : (bodyOf(response) as Promise<never>);
}

/** Takes in a file of another device of the crew. */
export async function crewFileIn(file: File): Promise<Extract<CrewAnswer, { crew: 'read_file' }>> {
  const bytes = await bytesOf(file);
  const reply = isTauri()
    ? await overShell<CrewReply>('crew_file_in', new Uint8Array(bytes))
    : ((await bodyOf(await overDesk('/crew/file', 'application/octet-stream', bytes))) as CrewReply);
  return publish(reply).answer as Extract<CrewAnswer, { crew: 'read_file' }>;
}

/**
 * Asks with files behind the request. They travel as bytes: the length of the
 * description (four bytes, the lowest first), the description, the files.
 */
export async function callWithFiles<R extends FileRequest>(request: R, files: readonly Blob[]): Promise<AnswerTo<R>> {
  const description = new TextEncoder().encode(JSON.stringify(request));
  const length = new DataView(new ArrayBuffer(4));
  length.setUint32(0, description.length, true);
  const bytes = await bytesOf(new Blob([length, description, ...files]));
  const reply = isTauri()
    ? overShell<Reply>('take_files', new Uint8Array(bytes))
    : (overDesk('/files', 'application/octet-stream', bytes).then(bodyOf) as Promise<Reply>);
  return answerTo(request, await heard(reply));
}

async function bytesOf(chosen: Blob): Promise<ArrayBuffer> {
  try {
    return await chosen.arrayBuffer();
  } catch {
    const message = 'the file could not be read from the device: choose it again';
    throw new CallProblem({ code: 'bad_input', message });
  }
}

/** How chosen files are described to the notebook. */
export function described(files: readonly File[]): ChosenFile[] {
  return files.map((file) => ({ name: file.name, bytes: file.size }));
}

/** The bytes of a photo. Throws [`CallProblem`] and nothing else. */
export async function photoBytes(name: string, size: PhotoSize): Promise<Blob> {
  if (isTauri()) return new Blob([await overShell<ArrayBuffer>('photo', { name, size })], { type: 'image/jpeg' });
  const response = await overDesk(`/photo/${name}/${size}`);
  if (response.ok) return response.blob();
  return bodyOf(response) as Promise<never>;
}

/** A reply on its way, whose failing is heard of by the listeners. */
async function heard(reply: Promise<Reply>): Promise<Reply> {
  try {
    return await reply;
  } catch (error) {
    if (error instanceof CallProblem) for (const listener of troubleListeners) listener(error);
    throw error;
  }
}

/** A file that was made: held by the page, or saved by the app already. */
export type MadeFile =
  | { kind: 'held'; name: string; bytes: number; content: Blob }
  | { kind: 'saved'; name: string; bytes: number; path: string };

/** Makes a file of the notebook. Throws [`CallProblem`] and nothing else. */
export async function fileOut(what: FileOut): Promise<MadeFile> {
  if (isTauri()) {
    const { path, bytes } = await overShell<{ path: string; bytes: number }>('file_out', { what });
    return { kind: 'saved', name: path.split(/[\\/]/).at(-1) ?? path, bytes, path };
  }
  const response = await overDesk('/file', 'application/json', JSON.stringify(what));
  if (!response.ok) return bodyOf(response) as Promise<never>;
  const named = /filename="([^"]+)"/.exec(response.headers.get('Content-Disposition') ?? '');
  try {
    const content = await response.blob();
    return { kind: 'held', name: named?.[1] ?? 'headwalk', bytes: content.size, content };
  } catch {
    throw new CallProblem({ code: 'unavailable', message: 'the file broke off on its way: make it again' });
  }
}

/** Says what an archive would bring, or brings it in. Throws [`CallProblem`] and nothing else. */
export async function archiveIn(file: File, keep: boolean): Promise<ArchiveReview> {
  return publish(isTauri() ? await archiveOverShell(file, keep) : await archiveOverDesk(file, keep)).review;
}

async function archiveOverShell(file: File, keep: boolean): Promise<ArchiveIn> {
  return overShell('archive_in', new Uint8Array(await bytesOf(file)), { headers: { keep: keep ? 'yes' : 'no' } });
}

async function archiveOverDesk(file: File, keep: boolean): Promise<ArchiveIn> {
  const address = keep ? '/archive/import' : '/archive/review';
  return (await bodyOf(await overDesk(address, 'application/octet-stream', file))) as ArchiveIn;
}

function answerTo<R extends Asked | FileRequest>(request: R, reply: Reply | CrewReply): AnswerTo<R> {
  const [asked, answered] = [tagOf(request), tagOf(reply.answer)];
  if (answered !== asked && !('crew' in request && answered === 'state')) {
    throw new CallProblem({ code: 'internal', message: `asked ${asked}, was answered ${answered}` });
  }
  return publish(reply).answer as AnswerTo<R>;
}

const tagOf = (tagged: Asked | FileRequest | Reply['answer'] | CrewAnswer) =>
  'crew' in tagged ? tagged.crew : tagged.op;

async function overEither<T>(way: 'call' | 'crew', request: Asked): Promise<T> {
  if (isTauri()) return overShell<T>(way, { request });
  return (await bodyOf(await overDesk(`/${way}`, 'application/json', JSON.stringify(request)))) as T;
}

async function overShell<T>(...call: Parameters<typeof invoke<T>>): Promise<T> {
  try {
    return await invoke<T>(...call);
  } catch (error) {
    throw new CallProblem(asProblem(error));
  }
}

async function overDesk(address: string, type?: string, body?: BodyInit): Promise<Response> {
  try {
    return await fetch(address, {
      method: body === undefined ? 'GET' : 'POST',
      headers: { 'X-Headwalk-Secret': deskSecret(), ...(type === undefined ? {} : { 'Content-Type': type }) },
      ...(body === undefined ? {} : { body }),
    });
  } catch {
    throw new CallProblem({ code: 'unavailable', message: 'the desk does not answer: is it still running?' });
  }
}

/** What the desk answered, or what it threw. */
async function bodyOf(response: Response): Promise<unknown> {
  const body: unknown = await response.json().catch(() => null);
  if (response.ok && body !== null) return body;
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
