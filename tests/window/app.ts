// The app in its own window, driven as a person would: WebKit's driver starts
// the shell with a data folder of its own.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Builder, type WebDriver } from 'selenium-webdriver';

const top = resolve(import.meta.dirname, '../..');
const shell = process.env['HEADWALK_SHELL'] ?? join(top, 'target/debug/headwalk-shell');

export class App {
  driver!: WebDriver;
  #driverProcess: ChildProcess | undefined;
  readonly #data: string;

  private constructor(data: string) {
    this.#data = data;
  }

  /** The app with an empty data folder, not started yet. */
  static async install(): Promise<App> {
    return new App(await mkdtemp(join(tmpdir(), 'headwalk-window-')));
  }

  /** Opens the window, at a phone's size. */
  async start(): Promise<void> {
    const port = await freePort();
    this.#driverProcess = spawn('WebKitWebDriver', [`--port=${port}`], {
      stdio: 'ignore',
      env: {
        ...process.env,
        XDG_DATA_HOME: this.#data,
        TAURI_AUTOMATION: 'true',
        TAURI_WEBVIEW_AUTOMATION: 'true',
      },
    });
    await answering(port);
    this.driver = await new Builder()
      .usingServer(`http://127.0.0.1:${port}`)
      .withCapabilities({ browserName: 'wry', 'webkitgtk:browserOptions': { binary: shell, args: [] } })
      .build();
    await this.driver.manage().window().setRect({ x: 0, y: 0, width: 412, height: 915 });
  }

  /** Closes the window; the data folder stays. */
  async stop(): Promise<void> {
    await this.driver.quit().catch(() => undefined);
    const running = this.#driverProcess;
    this.#driverProcess = undefined;
    if (running === undefined || running.exitCode !== null) return;
    const ended = once(running, 'exit');
    running.kill();
    await ended;
  }

  async remove(): Promise<void> {
    await this.stop();
    await rm(this.#data, { recursive: true });
  }
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  await once(server, 'close');
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}

async function answering(port: number): Promise<void> {
  for (let tries = 0; tries < 100; tries += 1) {
    const response = await fetch(`http://127.0.0.1:${port}/status`).catch(() => null);
    if (response?.ok === true) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("WebKit's driver does not answer");
}
