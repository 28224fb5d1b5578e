import { expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { madeLog } from '../survey/log/madeLogs.ts';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

const ROWS = 200_000;

/** A log as a rolling gauge writes it: made here, nothing of it measured. */
const LOG = madeLog({
  rows: ROWS,
  head: ['# kind: log', '# read to: 0.01 mm', '# tolerance: 1.5 mm over 1500 mm'],
});

describeApp('a log of 200,000 rows', (app) => {
  const atImport = async (width?: number, scheme?: 'light' | 'dark'): Promise<Page> => {
    const context = await app.context({
      ...(width === undefined ? {} : { width }),
      ...(scheme === undefined ? {} : { scheme }),
    });
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    await page.getByRole('button', { name: 'New hull' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Grey Teal (invented)');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('button', { name: 'New survey' }).waitFor();
    await page.goto(`${page.url().replace(/\/$/, '')}/import`);
    await page.getByLabel('Choose a file, or drop one here').waitFor();
    return page;
  };
  const choose = (page: Page, text: string) =>
    page.getByLabel('Choose a file, or drop one here').setInputFiles({
      name: 'rolling.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(text),
    });
  /** Keeps every state of the progress bar. */
  const watch = (page: Page) =>
    page.evaluate(() => {
      const seen: number[] = [];
      Object.assign(window, { seen });
      new MutationObserver(() => {
        const bar = document.querySelector('progress');
        if (bar) seen.push(bar.value);
      }).observe(document.body, { subtree: true, childList: true, attributes: true });
    });
  const seenIn = (page: Page) =>
    page.evaluate(() => (window as unknown as { seen: number[] }).seen);
  const databases = (page: Page) =>
    page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name).sort());

  test('is read under the policy with its progress, kept, and judged again when it is opened', async () => {
    const page = await atImport();
    await watch(page);
    await choose(page, LOG);
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).waitFor();
    const recognised = async () =>
      (await page.locator('dd').allInnerTexts()).join('; ').replace(/\s/g, ' ');
    await expect
      .poll(recognised)
      .toContain('200 000: 200 000 readings, 0 void, 0 blank, on 1 line in 1 placement');
    const seen = await seenIn(page);
    expect(seen.length).toBeGreaterThan(2);
    expect(Math.max(...seen)).toBeGreaterThan(50);
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).click();
    await page.getByText('Hollow 2.00 mm ± 0.01 mm deep').waitFor();
    const drawn = async () => {
      const each = await page
        .locator('svg')
        .evaluateAll((all) => all.map((svg) => svg.querySelectorAll('g.reading').length));
      return Math.max(...each);
    };
    await expect.poll(drawn).toBeGreaterThan(100);
    expect(await drawn()).toBeLessThanOrEqual(2000);

    await page.reload();
    await page.getByText('Hollow 2.00 mm ± 0.01 mm deep').waitFor();
    // As of typed readings, though these stayed in the thread that judged them.
    await page.getByText('How sure, and why: P450').click();
    await page.getByRole('heading', { name: 'Straightness of the readings' }).waitFor();
    await page.getByRole('table', { name: /^Uncertainty budget of P450/ }).waitFor();
    await page.getByRole('link', { name: 'Readings', exact: true }).click();
    await page.getByText('A log of 200\u202f000 readings').waitFor();
  });

  test('goes with the hull in its entry file, and is judged alike on another tablet', async () => {
    const page = await atImport();
    await choose(page, LOG);
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).click();
    const words = 'Hollow 2.00 mm ± 0.01 mm deep';
    await page.getByText(words).waitFor();
    const path = new URL(page.url()).hash;
    await page.getByRole('link', { name: 'Grey Teal (invented)' }).click();
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Back up this hull' }).click();
    await page.getByRole('button', { name: 'Download the backup' }).click();
    const file = await (await saving).path();
    const other = await app.context();
    await deviceOf(other, 'mm');
    const there = await app.open(other);
    await there.getByText('Take in an entry file').click();
    await there
      .getByLabel('Entry files of hulls, saved on this or another tablet')
      .setInputFiles(file);
    await there.getByRole('button', { name: 'Take in', exact: true }).click();
    await there.getByText(/\d+ new, 0 already\s+here/).waitFor({ state: 'attached' });
    await there.goto(`${app.address}${path}`);
    await there.getByText(words).waitFor();
  });

  test('that is cancelled leaves nothing behind', async () => {
    const page = await atImport();
    const before = await databases(page);
    const entries = () =>
      page.evaluate(
        () =>
          new Promise<number>((resolve, reject) => {
            const name = location.hash.split('/')[2];
            const open = indexedDB.open(`_pouch_aftrun-hull-${name}`);
            open.onerror = () => reject(new Error('not opened'));
            open.onsuccess = () => {
              const count = open.result
                .transaction('document-store')
                .objectStore('document-store')
                .count();
              count.onsuccess = () => {
                open.result.close();
                resolve(count.result);
              };
            };
          }),
      );
    const stored = await entries();
    const workers = () => page.workers().filter((each) => each.url().includes('logWorker')).length;
    await choose(page, `${LOG}${LOG.slice(LOG.indexOf('port')).repeat(8)}`);
    const cancel = page.getByRole('button', { name: 'Cancel' });
    await cancel.waitFor();
    await expect.poll(workers).toBe(1);
    await cancel.click();
    await page.getByText('Stopped. Nothing of rolling.csv was kept.').waitFor();
    await expect.poll(workers).toBe(0);
    await expect.poll(() => page.getByRole('progressbar').count()).toBe(0);
    await expect
      .poll(() => page.getByRole('button', { name: 'Keep as a survey of this hull' }).count())
      .toBe(0);
    await expect.poll(() => databases(page)).toEqual(before);
    await expect.poll(() => entries()).toBe(stored);
  });

  test('with a damaged row is not kept, and the row is named', async () => {
    const page = await atImport();
    const lines = LOG.split('\n');
    lines[150_000] = 'port,450,1125,NaN';
    await choose(page, lines.join('\n'));
    await page.getByRole('heading', { name: '1 fault' }).waitFor();
    const row = page.getByRole('row').filter({ hasText: 'NaN' });
    await expect
      .poll(async () => (await row.innerText()).replace(/\s/g, ''))
      .toContain('150001gap_mmNaN');
    await expect
      .poll(() => page.getByRole('button', { name: 'Keep as a survey of this hull' }).isDisabled())
      .toBe(true);
  });
});
