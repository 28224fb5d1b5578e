import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { madeEntry, madeYard } from '../server/made.ts';
import { ProtocolServer } from '../server/protocolServer.ts';
import { describeApp } from './support.ts';

describeApp('two tablets and a server', (app) => {
  const server = new ProtocolServer();
  beforeAll(async () => {
    await server.start();
    await madeYard(server);
  });
  afterAll(() => server.end());

  async function fill(page: Page, password: string): Promise<void> {
    await page.goto(`${app.address}#/settings`);
    const form = page.locator('section', { has: page.getByRole('heading', { name: 'Sharing' }) });
    await form.locator('summary').click();
    await page.getByLabel('Server', { exact: true }).fill(server.address);
    await page.getByLabel('Database').fill('yard');
    await page.getByLabel('User').fill('hand');
    await page.getByLabel('Password').fill(password);
  }

  async function newHull(page: Page, name: string): Promise<void> {
    await page.goto(`${app.address}#/`);
    await page.getByRole('button', { name: 'New hull' }).click();
    await page.getByLabel('Name', { exact: true }).fill(name);
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('heading', { level: 1, name }).waitFor();
  }

  const hulls = (page: Page, name: string) => page.locator('main').getByText(name, { exact: true });

  test('a hull made on one stands on the other, a wrong password is said, and nothing is lost while the server is away', async () => {
    // A checkpoint that is not there yet, a wrong password, a server that is away.
    app.expectMessage(/Failed to load resource/);
    const office = await app.open({ width: 820, height: 1180 });
    await fill(office, 'guess');
    await office.getByRole('button', { name: 'Test the connection' }).click();
    await office.getByText('The server does not know this user and password.').waitFor();
    await office.getByLabel('Password').fill('a word');
    await office.getByRole('button', { name: 'Test the connection' }).click();
    await office.getByText('everything is as it must be').waitFor();
    const { violations } = await new AxeBuilder({ page: office }).analyze();
    expect(violations.map(({ id }) => id)).toEqual([]);
    await office.getByRole('button', { name: 'Share', exact: true }).click();
    await office.getByText('Level with the server.').waitFor();

    const tablet = await app.open({ width: 390, height: 844 });
    await fill(tablet, 'a word');
    await tablet.getByRole('button', { name: 'Share', exact: true }).click();
    await tablet.getByText('Level with the server.').waitFor();

    await newHull(office, 'Common Sandpiper (invented)');
    await tablet.goto(`${app.address}#/`);
    await hulls(tablet, 'Common Sandpiper (invented)').first().waitFor();

    await server.kill();
    await newHull(tablet, 'Green Sandpiper (invented)');
    await tablet.goto(`${app.address}#/`);
    await tablet.getByText(/Not level: .* 1 waiting here\./).waitFor();
    await server.start();
    await tablet.getByText('Shared: level with the server.').waitFor();
    await office.goto(`${app.address}#/`);
    await hulls(office, 'Green Sandpiper (invented)').first().waitFor();
  });

  async function shared(): Promise<Page> {
    const page = await app.open({ width: 820, height: 1180 });
    await fill(page, 'a word');
    await page.getByRole('button', { name: 'Share', exact: true }).click();
    await page.getByText('Level with the server.').waitFor();
    return page;
  }

  test('what was tampered with or is too large on the server is set aside and told, and the rest comes; rights withdrawn are said, and nothing is lost by it', async () => {
    app.expectMessage(/Failed to load resource/);
    const design = '/yard/_design/aftrun';
    const { answer } = await server.ask('GET', design);
    const { _rev, ...checked } = answer as { readonly _rev: string };
    await server.ask('PUT', design, { ...checked, _rev, validate_doc_update: 'function () {}' });
    const hull = 'sh4r1ng00000';
    const tampered = { ...madeEntry({}, hull), v: 99 };
    const oversized = madeEntry({ body: { text: 'x'.repeat(3_000_000) } }, hull);
    const good = madeEntry({ kind: 'hull', body: { name: 'Wood Sandpiper (invented)' } }, hull);
    for (const document of [{ _id: 'no-entry', text: 'stray' }, tampered, oversized, good]) {
      await server.ask('PUT', `/yard/${encodeURIComponent(document._id)}`, document);
    }
    const now = (await server.ask('GET', design)).answer as { readonly _rev: string };
    await server.ask('PUT', design, { ...checked, _rev: now._rev });

    const page = await shared();
    const section = page.locator('section', {
      has: page.getByRole('heading', { name: 'Sharing' }),
    });
    for (const { _id } of [tampered, oversized]) {
      await section.getByRole('listitem').filter({ hasText: _id }).waitFor();
    }
    await section.getByText('1 document on the server is no entry of any hull').waitFor();
    await page.goto(`${app.address}#/`);
    await hulls(page, 'Wood Sandpiper (invented)').first().waitFor();

    const { answer: rights } = await server.ask('GET', '/yard/_security');
    const nobody = { names: ['nobody'], roles: [] };
    await server.ask('PUT', '/yard/_security', { members: nobody, admins: nobody });
    await newHull(page, 'Red Knot (invented)');
    await page.goto(`${app.address}#/`);
    await page.getByText(/Not level: This user may not read or add .* 1 waiting here\./).waitFor();
    await server.ask('PUT', '/yard/_security', rights);
    await page.goto(`${app.address}#/settings`);
    await page.getByRole('button', { name: 'Try again now' }).click();
    await page.getByText('Level with the server.').waitFor();
  });

  test('a hull removed from one stays away while others enter more of it, and is there again once it is to be carried', async () => {
    app.expectMessage(/Failed to load resource/);
    const [office, tablet] = [await shared(), await shared()];
    const name = 'Curlew Sandpiper (invented)';
    await newHull(office, name);
    await tablet.goto(`${app.address}#/`);
    await hulls(tablet, name).first().click();
    await tablet.getByRole('button', { name: 'Remove this hull…' }).click();
    await tablet.getByText('keep what they have of it').waitFor();
    await tablet.getByRole('button', { name: `Remove ${name}` }).click();
    await tablet.getByRole('heading', { level: 1, name: 'Yard' }).waitFor();
    await office.getByRole('button', { name: 'New survey' }).click();
    await newHull(office, 'Spotted Redshank (invented)');
    await hulls(tablet, 'Spotted Redshank (invented)').first().waitFor();
    await expect.poll(() => hulls(tablet, name).count()).toBe(0);
    await tablet.goto(`${app.address}#/settings`);
    await tablet.getByRole('button', { name: `Carry ${name} again` }).click();
    await tablet.getByText('Level with the server.').waitFor();
    await tablet.goto(`${app.address}#/`);
    await hulls(tablet, name).first().waitFor();
  });
});
