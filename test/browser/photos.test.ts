import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';

import made from '../../fixtures/reference/pictures/pictures.json' with { type: 'json' };
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { readPictureHead } from '../../src/survey/photo/pictureHead.ts';
import { describeApp } from './support.ts';
import { deviceOf, toSetup } from './surveyDriver.ts';

const picture = (start: string) => {
  const found = made.pictures.find(({ name }) => name.startsWith(start));
  if (found === undefined) throw new Error(start);
  return Buffer.from(found.base64, 'base64');
};
/** 80 × 40, with a place, and asking to be turned a quarter. */
const turned = picture('JPEG with Exif');
const plain = picture('PNG');
/** A PNG that says it is 100,000 wide. */
const bomb = Buffer.from(plain);
bomb.writeUInt32BE(100_000, 16);

const choose = (page: Page, files: Readonly<Record<string, Buffer>>) =>
  page
    .getByLabel('Choose photos, or drop them here')
    .setInputFiles(
      Object.entries(files).map(([name, buffer]) => ({ name, mimeType: 'image/jpeg', buffer })),
    );

describeApp('photos', (app) => {
  test('are scaled down, kept without their place, captioned, enlarged and struck, and go with the entry file', async () => {
    const context = await app.context({ width: 390, height: 844 });
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await toSetup(page);
    await page.getByRole('link', { name: 'Photos' }).click();
    await page.getByText('None yet.').waitFor();
    await choose(page, {
      'DSC <b>1</b>.jpg': turned,
      'letter.jpg': Buffer.from('Dear yard, the hull is fair.'),
      'wide.png': bomb,
      'nameplate.png': plain,
    });
    await page.getByText('2 photos were kept.').waitFor();
    const alert = page.getByRole('alert');
    await expect
      .poll(async () => (await alert.innerText()).split('\n').filter(Boolean))
      .toEqual([
        'letter.jpg was not kept: found text, expected a picture in JPEG, PNG, WebP or GIF.',
        'wide.png was not kept: found 100000 × 70 pixels, expected at most 64 megapixels and 20000 pixels a side.',
      ]);

    await page.getByRole('button', { name: 'Add a caption' }).first().click();
    await page.getByLabel('Caption').fill('How it stands');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    const photo = page.getByRole('button', { name: 'How it stands', exact: true });
    await photo.click();
    const sum = page.locator('.sum');
    await expect.poll(() => sum.innerText()).toMatch(/^[0-9a-f]{64}$/);
    const sha256 = await sum.innerText();
    await page.getByText('40 × 80 pixels').waitFor();
    await page.getByText('“DSC <b>1</b>.jpg”').waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
    const width = () => page.evaluate(() => document.documentElement.scrollWidth);
    await expect.poll(width).toBeLessThanOrEqual(390);
    await page.keyboard.press('Escape');
    await sum.waitFor({ state: 'detached' });
    await expect
      .poll(() => photo.evaluate((button) => button === document.activeElement))
      .toBe(true);

    await page.getByRole('button', { name: /^Strike… Photo without/ }).click();
    await page.getByLabel('Why is it struck?').fill('of another boat');
    await page.getByRole('button', { name: 'Strike', exact: true }).click();
    await page.getByText('Struck photos (1)').click();
    await page.getByText(/^Struck .*\d{4}.* by A\. Tester: of another boat$/).waitFor();

    const path = new URL(page.url()).hash;
    await page.getByRole('link', { name: 'Grey Teal (invented)' }).click();
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Back up this hull' }).click();
    await page.getByRole('button', { name: 'Download the backup' }).click();
    const file = await (await saving).path();
    const { attachments, faults } = readEntryFile(await readFile(file, 'utf8'));
    expect(faults).toEqual([]);
    const kept = attachments.map(({ base64 }) => Buffer.from(base64, 'base64'));
    expect(kept.map((bytes) => readPictureHead(new Uint8Array(bytes)))).toEqual([
      { ok: true, type: 'image/jpeg', width: 40, height: 80 },
      { ok: true, type: 'image/jpeg', width: 33, height: 70 },
    ]);
    expect(turned.includes('Invented maker')).toBe(true);
    expect(kept.some((bytes) => /Exif|Invented maker/.test(bytes.toString('latin1')))).toBe(false);
    expect(createHash('sha256').update(new Uint8Array(kept[0])).digest('hex')).toBe(sha256);

    const there = await app.open(await app.context({ scheme: 'dark' }));
    await there.getByText('Take in an entry file').click();
    await there.getByLabel(/^Entry files of hulls/).setInputFiles(file);
    await there.getByRole('button', { name: 'Take in', exact: true }).click();
    await there.getByText(/\d+ new, 0 already/).waitFor();
    await there.goto(`${app.address}${path}`);
    await there.getByRole('button', { name: 'How it stands', exact: true }).click();
    await expect.poll(() => there.locator('.sum').innerText()).toBe(sha256);
    await expect
      .poll(() => there.locator('img').evaluate((image: HTMLImageElement) => image.naturalHeight))
      .toBe(80);
    expect(
      (await new AxeBuilder({ page: there }).analyze()).violations.map(({ id }) => id),
    ).toEqual([]);
  });
});
