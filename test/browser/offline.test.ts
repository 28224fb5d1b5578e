import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview, type PreviewServer } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { entriesOf } from '../../src/book/book.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { describeApp } from './support.ts';
import { begin, deviceOf, toSetup } from './surveyDriver.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

describeApp('without a network', (app) => {
  let folder: string;
  let server: PreviewServer;
  let address: string;

  beforeAll(async () => {
    // A copy of its own, whose version can be changed under the app as a yard's server would.
    folder = await mkdtemp(join(tmpdir(), 'aftrun-offline-'));
    await cp(join(root, 'dist'), folder, { recursive: true });
    server = await preview({
      root: join(root, 'web'),
      configFile: join(root, 'vite.config.ts'),
      logLevel: 'warn',
      build: { outDir: folder },
      preview: { host: '127.0.0.1', port: 0, strictPort: false, open: false },
    });
    const at = server.httpServer.address();
    if (at === null || typeof at === 'string') throw new Error('a TCP port expected');
    address = `http://127.0.0.1:${String(at.port)}/`;
  });
  afterAll(async () => {
    await server.close();
    await rm(folder, { recursive: true, force: true });
  });

  test('the whole job without a network: a new hull, its survey, verdict, sheet and backup; a newer version is offered, taken when asked for, and everything is there', async () => {
    const context = await app.context({ width: 820, height: 1180 });
    await deviceOf(context, 'in');
    let page = await context.newPage();
    await page.goto(`${address}#/settings`);
    await page.getByText('The whole app is stored on this device').waitFor();
    await page.close();

    await context.setOffline(true);
    page = await context.newPage();
    await page.goto(address);
    await toSetup(page);
    await begin(page);
    for (const figure of '0 1 2 4 5 5 4 3 3 2 1 1 0 0'.split(' ')) {
      await page.keyboard.type(figure);
      await page.keyboard.press('Enter');
    }
    await page.getByText('14 stations read').waitFor();
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    const survey = `${address}${new URL(page.url()).hash}`;
    await page.getByRole('button', { name: 'Judge by this' }).click();
    await expect.poll(() => page.locator('.verdict').first().innerText()).toMatch(/Hook/);
    await page.goto(`${survey}/rollout`);
    await page.getByLabel('Engine').selectOption('hanging on the transom');
    await page.getByRole('button', { name: 'Keep what is written' }).click();
    const asked = page.getByRole('region', { name: 'Conditions' }).locator('.field');
    await asked.first().waitFor();
    for (let nth = 0; nth < (await asked.count()); nth += 1) {
      const field = asked.nth(nth);
      const choice = field.locator('select');
      if ((await choice.count()) > 0) await choice.selectOption({ index: 1 });
      else {
        await field
          .getByRole('textbox')
          .fill(/Temperature/.test(await field.innerText()) ? '18 C' : '0');
        await field.getByRole('textbox').blur();
      }
    }
    await page.getByText('Nothing is missing.').waitFor();
    await page.goto(`${survey}/sheet`);
    await page.locator('.paper').first().waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length).toBeGreaterThan(2);
    await page.goto(`${address}#/settings`);
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Download the backup' }).click();
    const backup = readEntryFile(await readFile(await (await saving).path(), 'utf8'));
    expect(backup.faults).toEqual([]);
    const kinds = entriesOf(backup.book).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'reading')).toHaveLength(14);
    await page.getByText('Nothing was entered since.').waitFor();
    await page.close();
    await context.setOffline(false);

    const worker = join(folder, 'worker.js');
    const text = await readFile(worker, 'utf8');
    const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as {
      version: string;
    };
    expect(text).toContain(version);
    await writeFile(worker, text.replaceAll(version, '77.0.0'));

    page = await context.newPage();
    await page.goto(address);
    await page.getByText('Version 77.0.0 of aftrun is ready.').waitFor();
    // Never while readings are typed.
    await page.getByRole('link', { name: /Grey Teal/ }).click();
    await page.getByRole('link', { name: /measured by A\. Tester/ }).click();
    await page.getByRole('table').waitFor();
    await expect.poll(() => page.getByText('Version 77.0.0').count()).toBe(0);
    await page.goto(address);
    await page.getByText('Version 77.0.0 of aftrun is ready.').waitFor();
    const other = await context.newPage();
    await other.goto(address);
    await page.getByRole('button', { name: 'Take the new version' }).click();
    await page.getByText(/open in another tab/).waitFor();
    await other.close();
    await Promise.all([
      page.waitForEvent('load'),
      page.getByRole('button', { name: 'Take the new version' }).click(),
    ]);
    await page.getByRole('heading', { name: 'Yard' }).waitFor();
    await expect.poll(() => page.getByText('Version 77.0.0').count()).toBe(0);
    await page.getByRole('link', { name: /Grey Teal/ }).click();
    await page.getByRole('link', { name: /measured by A\. Tester/ }).click();
    await expect
      .poll(() => page.getByRole('table').getByRole('textbox').nth(4).inputValue())
      .toBe('5/32');
  });
});
