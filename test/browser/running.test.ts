import AxeBuilder from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

describeApp('weights and running trim', (app) => {
  test('a boat is weighed, an engine moved and struck, and the page tells what can be told at each step', async () => {
    const context = await app.context({ width: 390, scheme: 'dark' });
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.getByRole('link', { name: 'Weights and running trim' }).click();

    // The invented demo is the boat whose bottom is not to blame.
    await page.getByText('Weight is the larger lever for this boat', { exact: false }).waitFor();
    await page.locator('svg.picture').nth(4).waitFor();
    const loads = page.getByRole('region', { name: 'Loads' });
    await expect.poll(() => loads.innerText()).toMatch(/As now[^]*72\.8 in ± 1\.1 in/);
    await page.getByText(/Carry 425 lb ± 45 lb at 230 in/).waitFor();

    await page
      .getByRole('button', { name: 'Move two new engines with bracket', exact: true })
      .click();
    await page.getByLabel(/^After, forward of the transom/).fill('lots');
    await page.getByLabel(/^After, above the keel/).focus();
    await page.getByText('Found “lots”, expected 84 in, or a range: 80 to 90.').waitFor();
    await page.getByRole('button', { name: 'Add to the ledger' }).click();
    await page.getByText('Something is not understood yet: see the field.').waitFor();
    await page.getByLabel(/^After, forward of the transom/).fill('-14');
    await page.getByLabel(/^After, above the keel/).fill('30');
    await page.getByRole('button', { name: 'Add to the ledger' }).click();
    await page.getByText('-26 in → -14 in').waitFor();
    await loads.getByText('79.6 in', { exact: false }).waitFor();

    await page.getByRole('button', { name: 'Strike two new engines with bracket' }).last().click();
    await loads.getByText('77.2 in', { exact: false }).waitFor();

    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth - innerWidth))
      .toBeLessThanOrEqual(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map((n) => n.html)])).toEqual([]);
  });
});
