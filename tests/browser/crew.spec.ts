// Two scouts, two desks and a hub: they join, walk apart from each other,
// exchange, see each other's heads, settle what differs, and say that a planting
// made twice is one.

import type { Page } from '@playwright/test';
import { Desk } from './desk';
import { Hub } from './hub';
import { expect, expectAccessible, test } from './scout';
import { Thumb } from './thumb';

const go = (page: Page, address: string) => page.evaluate((hash) => (location.hash = hash), address);

/** A planting of the field "Creek", with some heads. */
async function walk(page: Page, planting: string, hybrid: string, shares: readonly number[]): Promise<void> {
  const thumb = new Thumb(page);
  await go(page, '#/planting/new');
  await page.getByLabel('Name').first().fill(planting);
  await page.getByLabel('Hybrid').first().fill(hybrid);
  await page.getByLabel('Planted on').fill('2026-05-20');
  await page.getByLabel('Field').first().fill('Creek');
  await thumb.tap('button', 'Save the planting');
  await thumb.tap('button', 'Start a walk');
  await thumb.tap('button', 'Start reading heads');
  for (const [at, share] of shares.entries()) {
    await thumb.slide(share);
    await thumb.tap('button', 'Pliable');
    await expect(page.getByRole('button', { name: `Head ${at + 1}: pliable, ${share} %` })).toBeVisible();
  }
  await thumb.tap('button', 'Finish');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(planting);
  // The walk's own screen has that heading too; finished, it leads to the planting's.
  await expect(page.getByRole('link', { name: /^Open this walk/ })).toBeVisible();
}

async function exchange(page: Page): Promise<void> {
  await go(page, '#/crew');
  await page.getByRole('button', { name: 'Exchange now' }).tap();
  await expect(page.getByText('up to date')).toBeVisible();
  // The last of the exchange has come here too.
  await expect(page.getByRole('button', { name: 'Exchange now' })).toBeVisible();
}

async function setHybrid(page: Page, planting: RegExp, hybrid: string): Promise<void> {
  await go(page, '#/plantings');
  await page.getByRole('link', { name: planting }).tap();
  await page.getByRole('link', { name: 'Edit' }).tap();
  await expect(page.getByLabel('Name').first()).not.toHaveValue('');
  await page.getByLabel('Hybrid').first().fill(hybrid);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await expect(page.getByText(hybrid).first()).toBeVisible();
}

test('two scouts become a crew', async ({ page: ada, desk, browser }) => {
  test.setTimeout(240_000);
  const hub = await Hub.open();
  const other = await Desk.open();
  await other.start();
  const context = await browser.newContext();
  const ben = await context.newPage();
  await ada.goto(desk.url);
  await ben.goto(other.url);

  // Each for himself, with the same strip under two names.
  await walk(ada, 'Creek 3', 'H-17', [20, 30, 40]);
  await walk(ben, 'Creek three', 'H-17', [50, 60]);

  // Ada founds the crew and invites.
  await go(ada, '#/more');
  await ada.getByRole('link', { name: 'Crew and exchange' }).tap();
  await ada.getByRole('link', { name: 'Join a crew' }).tap();
  const join = ada.getByRole('button', { name: 'Join', exact: true });
  await expect(join).toBeDisabled();
  await ada.getByLabel('Invitation').first().fill('01234-56789');
  await ada.getByLabel('Address of the hub').first().fill(hub.url);
  await ada.getByLabel('Your name').first().fill('Ada');
  await join.tap();
  await expect(ada.getByRole('alert')).toContainText('This is no invitation');
  await ada.getByLabel('Invitation').first().fill(hub.ownerCode.toLowerCase());
  await ada.getByLabel('Name of the crew').first().fill('North bench');
  await expectAccessible(ada, 'joining');
  await join.tap();
  await expect(ada.getByRole('heading', { level: 1 })).toHaveText('North bench');
  await expect(ada.getByText('You are an owner')).toBeVisible();
  await ada.getByRole('link', { name: 'Invite someone' }).tap();
  await ada.getByRole('button', { name: 'Make the invitation' }).tap();
  await expect(ada.getByRole('img', { name: 'QR code of the invitation' })).toBeVisible();
  await expectAccessible(ada, 'an invitation');
  const link = await ada.getByText('#join=').innerText();

  // Ben joins with the link.
  await go(ben, '#/crew/join');
  await ben.getByLabel('Invitation').first().fill(link);
  await expect(ben.getByLabel('Address of the hub')).toHaveCount(0);
  await ben.getByLabel('Your name').first().fill('Ben');
  await ben.getByRole('button', { name: 'Join', exact: true }).tap();
  await expect(ben.getByText('You are a scout')).toBeVisible();
  await expect(ben.getByText('Ada')).toBeVisible();
  await exchange(ben);
  await exchange(ada);
  await exchange(ben);
  await expectAccessible(ada, 'the crew');

  // Each sees the other's heads.
  await go(ada, '#/plantings');
  await expect(ada.getByRole('link', { name: /Creek three/ })).toBeVisible();
  await expect(ada.getByRole('link', { name: /Last exchange .* up to date/ })).toBeVisible();
  await go(ben, '#/plantings');
  await ben.getByRole('link', { name: /Creek 3/ }).tap();
  await ben.getByRole('link', { name: /^Open this walk/ }).tap();
  await expect(ben.getByRole('button', { name: 'Head 3: pliable, 40 %' })).toBeVisible();

  // Without the hub both say what the hybrid is; the later word is shown, the
  // other one tap away.
  await hub.stop();
  await setHybrid(ada, /Creek 3/, 'H-18');
  await setHybrid(ben, /Creek 3/, 'H-19');
  await go(ben, '#/crew');
  await ben.getByRole('button', { name: 'Exchange now' }).tap();
  await expect(ben.getByText('No signal at the last try')).toBeVisible();
  await expect(ben.getByText(/1 entry waits/)).toBeVisible();
  await hub.start();
  await exchange(ben);
  await exchange(ada);
  await go(ada, '#/plantings');
  await ada.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(ada.getByText('Two people gave different values')).toBeVisible();
  await ada.getByText('Hybrid: H-19').tap();
  await expectAccessible(ada, 'a conflict');
  await ada.getByRole('button', { name: 'Use H-18' }).tap();
  await expect(ada.getByText('Two people gave different values')).toHaveCount(0);

  // Made twice: merged by Ada, one for Ben too; and taken apart again.
  await go(ada, '#/duplicates');
  await expect(ada.getByText('No two plantings look like one.')).toBeVisible();
  await setHybrid(ada, /Creek 3/, 'H-17');
  await go(ada, '#/duplicates');
  await expectAccessible(ada, 'duplicates');
  await ada.getByRole('button', { name: 'Merge: keep Creek 3' }).tap();
  await expect(ada.getByText('Creek three is now shown as Creek 3.')).toBeVisible();
  await exchange(ada);
  await exchange(ben);
  await go(ben, '#/plantings');
  await expect(ben.getByRole('listitem')).toHaveCount(1);
  await ben.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(ben.getByRole('link', { name: /^Open this walk/ })).toHaveCount(2);
  await ben.getByRole('button', { name: 'Undo the merge of Creek three' }).tap();
  await expect(ben.getByRole('link', { name: /^Open this walk/ })).toHaveCount(1);
  await exchange(ben);
  await exchange(ada);
  await go(ada, '#/plantings');
  await expect(ada.getByRole('listitem')).toHaveCount(2);

  // Both say again that they are one, each the other way round: the later word is
  // shown, the other one tap away.
  await hub.stop();
  for (const [page, kept] of [
    [ada, 'Creek 3'],
    [ben, 'Creek three'],
  ] as const) {
    await go(page, '#/duplicates');
    await page.getByRole('button', { name: `Merge: keep ${kept}` }).tap();
    await expect(page.getByText(`is now shown as ${kept}.`)).toBeVisible();
  }
  await hub.start();
  await exchange(ben);
  await exchange(ada);
  await go(ada, '#/plantings');
  await expect(ada.getByRole('listitem')).toHaveCount(1);
  await ada.getByRole('link', { name: /Creek three/ }).tap();
  await ada.getByText('Creek three: a separate planting').tap();
  await expectAccessible(ada, 'a merge either way round');
  await ada.getByRole('button', { name: 'It is the same as Creek 3' }).tap();
  await expect(ada.getByRole('heading', { level: 1 })).toHaveText('Creek 3');
  await expect(ada.getByText('Two people gave different values')).toHaveCount(0);
  await ada.getByRole('button', { name: 'Undo the merge of Creek three' }).tap();
  await exchange(ada);
  await exchange(ben);
  await go(ben, '#/plantings');
  await expect(ben.getByRole('listitem')).toHaveCount(2);

  // Ben's phone is lost: out at once, and told so.
  await go(ada, '#/crew');
  await ada.getByRole('button', { name: /^Remove .*, Ben/ }).tap();
  await expectAccessible(ada, 'a removal');
  await ada.getByRole('button', { name: 'Remove now' }).tap();
  await expect(ada.getByText(/is no longer in the crew/)).toBeVisible();
  await go(ben, '#/crew');
  await ben.getByRole('button', { name: 'Exchange now' }).tap();
  await expect(ben.getByText('This device was removed from the crew')).toBeVisible();
  await go(ben, '#/plantings');
  await expect(ben.getByRole('listitem')).toHaveCount(2);

  await context.close();
  await other.close();
  await hub.close();
});

test('a crew exchanges by a file, and by itself once a walk is done', async ({ page: ada, desk, browser }) => {
  test.setTimeout(180_000);
  const hub = await Hub.open();
  const other = await Desk.open();
  await other.start();
  const context = await browser.newContext({ acceptDownloads: true });
  const ben = await context.newPage();
  await ada.goto(desk.url);
  await ben.goto(other.url);
  for (const [page, invitation, name] of [
    [ada, `${hub.url}/#join=${hub.ownerCode}`, 'Ada'],
    [ben, '', 'Ben'],
  ] as const) {
    let link: string = invitation;
    if (link === '') {
      await go(ada, '#/crew/invite');
      await ada.getByRole('button', { name: 'Make the invitation' }).tap();
      link = await ada.getByText('#join=').innerText();
    }
    await go(page, '#/crew/join');
    await page.getByLabel('Invitation').first().fill(link);
    await page.getByLabel('Your name').first().fill(name);
    await page.getByRole('button', { name: 'Join', exact: true }).tap();
    await expect(page.getByRole('button', { name: 'Exchange now' })).toBeVisible();
  }

  // No hand on it: the taps of the walk go on their own when they have settled.
  await walk(ada, 'Creek 3', 'H-17', [20, 30]);
  await go(ada, '#/crew');
  await expect(ada.getByText('up to date')).toBeVisible({ timeout: 60_000 });

  // And without the hub by a file.
  await hub.stop();
  await walk(ben, 'Hill 1', 'H-9', [70]);
  await go(ben, '#/crew/file');
  const [download] = await Promise.all([
    ben.waitForEvent('download'),
    ben.getByRole('button', { name: 'Write a file' }).tap(),
  ]);
  const path = await download.path();
  await go(ada, '#/crew/file');
  await ada.locator('input[type=file]').setInputFiles({
    name: 'from ben.hwx',
    mimeType: 'application/octet-stream',
    buffer: Buffer.from('no exchange file'),
  });
  await expect(ada.getByRole('alert')).toContainText('cannot be read');
  await ada.locator('input[type=file]').setInputFiles(path);
  await expect(ada.getByText(/entries in it were new here/)).toBeVisible();
  await go(ada, '#/plantings');
  await expect(ada.getByRole('link', { name: /Hill 1/ })).toBeVisible();

  await context.close();
  await other.close();
  await hub.close();
});
