// Joining by the invitation's QR code: with the camera, of which Chromium shows a
// film made here; from a picture of the code; and where the camera gives nothing.

import { type Browser, type Page } from '@playwright/test';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeQR } from 'qr';
import { Desk } from './desk';
import { Hub } from './hub';
import { phone } from './phone';
import { expect, expectAccessible, test } from './scout';

const WIDTH = 640;
const HEIGHT = 480;
const SCAN = 'Scan the QR code';

/** A film of one picture: the code, light grey around it, as YUV4MPEG2. */
function film(text: string): Buffer {
  const code = encodeQR(text, 'raw');
  const square = Math.floor((HEIGHT * 0.8) / code.length);
  const left = Math.floor((WIDTH - square * code.length) / 2);
  const top = Math.floor((HEIGHT - square * code.length) / 2);
  const luma = Buffer.alloc(WIDTH * HEIGHT, 200);
  for (const [row, squares] of code.entries())
    for (const [column, dark] of squares.entries())
      for (let line = 0; line < square; line += 1) {
        const at = (top + row * square + line) * WIDTH + left + column * square;
        luma.fill(dark ? 30 : 220, at, at + square);
      }
  const chroma = Buffer.alloc((WIDTH * HEIGHT) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, chroma]);
  const head = Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`);
  return Buffer.concat([head, frame, frame]);
}

/** A browser whose camera shows this. */
async function withCamera(
  launch: (args: string[]) => Promise<Browser>,
  text: string,
  work: (browser: Browser) => Promise<void>,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'headwalk-film-'));
  const file = join(folder, 'code.y4m');
  await writeFile(file, film(text));
  const browser = await launch(['--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${file}`]);
  try {
    await work(browser);
  } finally {
    await browser.close();
    await rm(folder, { recursive: true });
  }
}

async function toJoin(page: Page, desk: Desk): Promise<void> {
  await page.goto(desk.url);
  await page.evaluate(() => (location.hash = '#/crew/join'));
  await expect(page.getByRole('button', { name: SCAN })).toBeVisible();
}

test('an invitation is scanned by the camera and from a picture', async ({ page: ada, desk, playwright }) => {
  test.setTimeout(180_000);
  const { launchOptions, ...device } = phone;
  const launch = (args: string[]) =>
    playwright.chromium.launch({ ...launchOptions, args: [...(launchOptions?.args ?? []), ...args] });
  const hub = await Hub.open();
  const other = await Desk.open();
  await other.start();

  // Ada founds the crew by the camera: the owner code as a link.
  const founding = `${hub.url}/#join=${hub.ownerCode}`;
  await withCamera(launch, founding, async (browser) => {
    const context = await browser.newContext({ ...device, permissions: ['camera'] });
    const page = await context.newPage();
    await toJoin(page, desk);
    await page.getByRole('button', { name: SCAN }).tap();
    await expect(page.getByLabel('Invitation').first()).toHaveValue(founding);
    await expect(page.getByRole('button', { name: 'Stop the camera' })).toHaveCount(0);
    await page.getByLabel('Your name').first().fill('Ada');
    await page.getByRole('button', { name: 'Join', exact: true }).tap();
    await expect(page.getByText('You are an owner')).toBeVisible();
  });

  // Ben takes a picture of the invitation on her screen.
  await ada.goto(desk.url);
  await ada.evaluate(() => (location.hash = '#/crew/invite'));
  await ada.getByRole('button', { name: 'Make the invitation' }).tap();
  const link = await ada.getByText('#join=').innerText();
  const shown = await ada.getByRole('img', { name: 'QR code of the invitation' }).screenshot();
  const picture = (name: string, buffer: Buffer) => ({ name, mimeType: 'image/png', buffer });
  await ada.evaluate(() => (location.hash = '#/crew'));
  await toJoin(ada, other);
  const chooser = ada.getByLabel('Picture of the QR code');
  await chooser.setInputFiles(picture('barn.png', await ada.screenshot()));
  await expect(ada.getByRole('alert')).toContainText('No QR code was found');
  await chooser.setInputFiles(picture('text.png', Buffer.from('no picture')));
  await expect(ada.getByRole('alert')).toContainText('No QR code was found');
  await chooser.setInputFiles(picture('invitation.png', shown));
  await expect(ada.getByLabel('Invitation').first()).toHaveValue(link);
  await expect(ada.getByRole('alert')).toHaveCount(0);

  // Another code is told for what it is, and the camera looks on.
  await withCamera(launch, 'WIFI:T:WPA;S:barn;P:sorghum;;', async (browser) => {
    const context = await browser.newContext({ ...device, permissions: ['camera'] });
    const page = await context.newPage();
    await toJoin(page, other);
    await page.getByRole('button', { name: SCAN }).tap();
    await expect(page.getByRole('alert')).toContainText('not an invitation to a crew');
    await expect(page.getByLabel('What the camera shows')).toBeVisible();
    await expectAccessible(page, 'scanning');
    await expect(page.getByLabel('Invitation').first()).toHaveValue('');
    await page.getByRole('button', { name: 'Stop the camera' }).tap();
    await expect(page.getByLabel('What the camera shows')).toHaveCount(0);

    // Not allowed: told what to do instead.
    const refused = await (await browser.newContext(device)).newPage();
    await toJoin(refused, other);
    await refused.getByRole('button', { name: SCAN }).tap();
    await expect(refused.getByRole('alert')).toContainText('The camera is not allowed here');
    await expectAccessible(refused, 'a refused camera');
  });

  // No camera at all.
  const without = await launch([]);
  const page = await (await without.newContext(device)).newPage();
  await toJoin(page, other);
  await page.getByRole('button', { name: SCAN }).tap();
  await expect(page.getByRole('alert')).toContainText('No camera was found here');
  await without.close();

  await other.close();
  await hub.close();
});
