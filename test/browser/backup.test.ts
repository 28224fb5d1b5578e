import { AxeBuilder } from '@axe-core/playwright';
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { describeApp } from './support.ts';
import { begin, cell, deviceOf, toSetup } from './surveyDriver.ts';

const asFile = (text: string) => ({
  name: 'backup.txt',
  mimeType: 'text/plain',
  buffer: Buffer.from(text),
});
const choose = async (page: Page, text: string) => {
  await page.getByLabel('A backup, of the yard or of a hull').setInputFiles(asFile(text));
};

/** A file picker and a share sheet, since those of a browser wait for a hand. */
async function withPickers(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const kept = window as unknown as { chosen: string; shared: string[]; tired: boolean };
    kept.chosen = '';
    kept.shared = [];
    kept.tired = true;
    Object.assign(window, {
      showSaveFilePicker: ({ suggestedName }: { suggestedName: string }) =>
        Promise.resolve({
          createWritable: () =>
            Promise.resolve({
              write: (text: string) => Promise.resolve(void (kept.chosen += text)),
              close: () => Promise.resolve(),
              abort: () => Promise.resolve(),
            }),
          getFile: () => Promise.resolve(new File([kept.chosen], suggestedName)),
        }),
    });
    Object.defineProperty(navigator, 'canShare', { value: () => true });
    Object.defineProperty(navigator, 'share', {
      value: async ({ files }: { files: File[] }) => {
        if (kept.tired) {
          kept.tired = false;
          throw new DOMException('no recent tap', 'NotAllowedError');
        }
        kept.shared.push(await files[0].text());
      },
    });
  });
}

describeApp('the backup', (app) => {
  test('goes to a file, the downloads or the share sheet; is restored on an empty device and beside what has gone on', async () => {
    const context = await app.context({ width: 390, height: 844 });
    await deviceOf(context, 'in');
    const page = await context.newPage();
    await withPickers(page);
    await page.goto(app.address);
    await toSetup(page);
    await begin(page);
    for (const figure of ['0', '1', '2']) {
      await page.keyboard.type(figure);
      await page.keyboard.press('Enter');
    }
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    const survey = new URL(page.url()).hash;
    // As if the hull had been there for two days.
    await page.evaluate((hull) => {
      const seen = new Date(Date.now() - 2 * 86_400_000).toISOString();
      localStorage.setItem('aftrun-backups', JSON.stringify({ hulls: { [hull]: { seen } } }));
    }, survey.split('/')[2]);
    await page.goto(app.address);
    await page.reload();
    await page.getByText('Time for a backup.').waitFor();
    await page.getByRole('link', { name: 'Make a backup' }).click();

    await page.getByRole('button', { name: 'Save the backup in a file' }).click();
    await page.getByText('Read back from the file, and found whole.').waitFor();
    await page.getByText('Nothing was entered since.').waitFor();
    const text = await page.evaluate(() => (window as unknown as { chosen: string }).chosen);
    expect(readEntryFile(text).faults).toEqual([]);
    await page.getByRole('button', { name: 'Share the backup' }).click();
    await page.getByRole('button', { name: 'Share it now' }).click();
    await page.getByText('Handed over. Look whether it is there').waitFor();
    const shared = () =>
      page.evaluate(() => (window as unknown as { shared: readonly string[] }).shared);
    await expect.poll(() => shared()).toEqual([text]);
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Download the backup' }).click();
    expect(await readFile(await (await saving).path(), 'utf8')).toBe(text);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await page.getByRole('link', { name: 'Yard', exact: true }).click();
    await page.getByText('1 hull', { exact: true }).waitFor();
    await expect.poll(() => page.getByText('Time for a backup.').count()).toBe(0);

    const there = await app.open({ width: 820, height: 1180 }, '#/settings');
    await choose(there, text);
    await there.getByText('The backup is whole').waitFor();
    await there.getByText(/^New: \d+ entries\.$/).waitFor();
    expect((await new AxeBuilder({ page: there }).analyze()).violations).toEqual([]);
    await there.getByRole('button', { name: 'Restore', exact: true }).click();
    await there.getByText(/entries and 0 files restored/).waitFor();
    await there.goto(`${app.address}${survey}`);
    await expect.poll(() => cell(there, '6').inputValue()).toBe('2/32');

    // The first device has gone on; the backup of the other comes with one line damaged.
    await page.goto(`${app.address}${survey}`);
    await cell(page, '9').fill('7');
    await cell(page, '9').press('Enter');
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    await page.goto(`${app.address}#/settings`);
    const lines = text.split('\n');
    const at = lines.findIndex((line) => line.includes('"kind":"reading"'));
    lines[at] = lines[at].replace('Tester', 'Tester?');
    await choose(page, lines.slice(0, -2).join('\n'));
    await page.getByText(new RegExp(`^Line ${String(at + 1)}: damaged`)).waitFor();
    await page.getByText('the end is missing').waitFor();
    await page.getByText('Nothing new.').waitFor();
    const aside = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the lines that cannot be read' }).click();
    expect(await readFile(await (await aside).path(), 'utf8')).toBe(`${lines[at]}\n`);
    await page.getByRole('button', { name: 'Restore', exact: true }).click();
    await page.getByText('everything was here already').waitFor();
    await page.goto(`${app.address}${survey}`);
    await expect.poll(() => cell(page, '9').inputValue()).toBe('7/32');
    await expect.poll(() => cell(page, '6').inputValue()).toBe('2/32');
  });
});
