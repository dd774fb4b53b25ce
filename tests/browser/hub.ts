// A hub of its own for a test: the program on a free port, in a temporary folder.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { program } from './desk';

export class Hub {
  /** As phones reach it. */
  url = '';
  /** With which its first crew is founded. */
  ownerCode = '';
  #process: ChildProcess | undefined;
  readonly #folder: string;

  private constructor(folder: string) {
    this.#folder = folder;
  }

  static async open(): Promise<Hub> {
    const hub = new Hub(await mkdtemp(join(tmpdir(), 'headwalk-hub-')));
    await hub.start();
    return hub;
  }

  /** Starts it, or starts it again at the address it had. */
  async start(): Promise<void> {
    const listen = this.url === '' ? '127.0.0.1:0' : new URL(this.url).host;
    const started = spawn(program, ['hub', '--listen', listen], {
      cwd: this.#folder,
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    this.#process = started;
    const again = this.url !== '';
    for await (const line of createInterface({ input: started.stdout })) {
      if (line.startsWith('http')) {
        this.url = line.trim();
        if (again) return;
      }
      const code = /^owner code: (\S+)/.exec(line)?.[1];
      if (code !== undefined) {
        this.ownerCode = code;
        return;
      }
    }
    throw new Error('the hub ended without printing its address');
  }

  /** Out of reach, as beyond the last hill. */
  async stop(): Promise<void> {
    const running = this.#process;
    this.#process = undefined;
    if (running === undefined || running.exitCode !== null) return;
    const ended = once(running, 'exit');
    running.kill('SIGTERM');
    await ended;
  }

  /** Set up anew in an empty folder, at the address it had. */
  async forget(): Promise<void> {
    await this.stop();
    for (const name of await readdir(this.#folder)) await rm(join(this.#folder, name), { recursive: true });
    await this.start();
  }

  async close(): Promise<void> {
    await this.stop();
    await rm(this.#folder, { recursive: true });
  }
}
