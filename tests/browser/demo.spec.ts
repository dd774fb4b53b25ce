// The command of the README: it prints an address on this machine, and the page
// there shows the invented season.

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { demoFile, program } from './desk';
import { expect, expectAccessible, test } from './scout';

test('cargo xtask start --demo shows the demo plantings', async ({ page }) => {
  // In a fresh clone the command builds the program first, with its own features.
  test.setTimeout(30 * 60_000);
  const xtask = join(dirname(program), 'xtask');
  const started = spawn(xtask, ['start', '--demo', '--fresh', '--no-open', '--port', '0'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  try {
    let url = '';
    for await (const line of createInterface({ input: started.stdout })) {
      url = /http:\/\/\S+/.exec(line)?.[0] ?? '';
      if (url !== '') break;
    }
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\//);

    await page.goto(url);
    const plantings = await readFile(demoFile('plantings.csv'), 'utf8');
    for (const row of plantings.trim().split('\n').slice(1)) {
      const [name, hybrid] = row.split(',');
      const listed = page.getByRole('listitem').filter({ hasText: name ?? '' });
      await expect(listed).toHaveCount(1);
      await expect(listed).toContainText(hybrid ?? '');
    }
    await expectAccessible(page, 'the list of plantings');
  } finally {
    const ended = once(started, 'exit');
    started.kill();
    await ended;
  }
});
