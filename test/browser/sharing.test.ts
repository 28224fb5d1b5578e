import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { madeYard } from '../server/made.ts';
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
    await tablet.getByText('Shared: level with the server.').waitFor({ timeout: 20_000 });
    await office.goto(`${app.address}#/`);
    await hulls(office, 'Green Sandpiper (invented)').first().waitFor();
  }, 90_000);
});
