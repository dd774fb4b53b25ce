// A desk of its own for every test: the program on a free port, on a notebook
// in a temporary folder that goes with the test.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';

export const top = resolve(import.meta.dirname, '../..');
export const program = process.env['HEADWALK_PROGRAM'] ?? join(top, 'target/debug/headwalk');

export class Desk {
  /** Address with this start's secret, as the program prints it. */
  url = '';
  #process: ChildProcess | undefined;
  readonly #folder: string;

  private constructor(folder: string) {
    this.#folder = folder;
  }

  /** A desk on an empty notebook. */
  static async open(): Promise<Desk> {
    return new Desk(await mkdtemp(join(tmpdir(), 'headwalk-')));
  }

  get notebook(): string {
    return join(this.#folder, 'notebook.db');
  }

  /** Starts the program, or starts it again on the same notebook. */
  async start(...more: string[]): Promise<void> {
    const args = ['desk', '--no-open', '--port', '0', '--notebook', this.notebook, ...more];
    const started = spawn(program, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    this.#process = started;
    for await (const line of createInterface({ input: started.stdout })) {
      const url = /http:\/\/\S+/.exec(line)?.[0];
      if (url !== undefined) {
        this.url = url;
        return;
      }
    }
    throw new Error('the desk ended without printing its address');
  }

  /** Ends the program, by default as a pulled battery would. */
  async stop(signal: NodeJS.Signals = 'SIGKILL'): Promise<void> {
    const running = this.#process;
    this.#process = undefined;
    if (running === undefined || running.exitCode !== null) return;
    const ended = once(running, 'exit');
    running.kill(signal);
    await ended;
  }

  async close(): Promise<void> {
    await this.stop();
    await rm(this.#folder, { recursive: true });
  }
}

/** A file of the demo's invented season. */
export function demoFile(name: string): string {
  return join(top, 'demo-data', name);
}

/** Runs the program to its end and gives what it printed. */
export async function headwalk(...args: string[]): Promise<string> {
  const run = spawn(program, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  let printed = '';
  run.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text));
  const [code] = (await once(run, 'close')) as [number | null];
  if (code !== 0) throw new Error(`headwalk ${args.join(' ')} ended with ${code}`);
  return printed;
}
