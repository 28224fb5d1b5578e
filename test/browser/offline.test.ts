import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview, type PreviewServer } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

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

  test('the app starts cold, opens a hull, its verdict and its sheet; a newer version is offered, and taken when asked for', async () => {
    const context = await app.context({ width: 820, height: 1180 });
    await deviceOf(context, 'in');
    let page = await context.newPage();
    await page.goto(`${address}#/settings`);
    await page.getByText('The whole app is stored on this device').waitFor();
    await page.close();

    await context.setOffline(true);
    page = await context.newPage();
    await page.goto(address);
    await page.getByRole('button', { name: 'Open the demo hull' }).click();
    await page
      .getByRole('link', { name: /2026|survey/i })
      .first()
      .click();
    const hash = await page.evaluate(() => location.hash);
    await page.goto(`${address}${hash.split('/').slice(0, 5).join('/')}/profile`);
    await page.getByText(/Hook/).first().waitFor();
    await page.goto(`${address}${hash.split('/').slice(0, 5).join('/')}/sheet`);
    await page.getByRole('heading', { level: 1 }).waitFor();
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
    await page
      .getByRole('link', { name: /demo|invented/i })
      .first()
      .waitFor();
  });
});
