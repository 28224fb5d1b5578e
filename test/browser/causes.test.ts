import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { DEMO_HULL, DEMO_SURVEY } from '../../web/store/demoHull.ts';
import { describeApp } from './support.ts';

describeApp('is it the bottom', (app) => {
  test('goes from the complaint to the first test, the outcome and a trial before and after', async () => {
    const page = await app.open({ width: 390, height: 844, scheme: 'dark' });
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.waitForURL(/#\/hull\//);
    await page.goto(`${app.address}#/hull/${DEMO_HULL}/survey/${DEMO_SURVEY}/causes`);
    await page.getByLabel('porpoises', { exact: true }).check();
    await page.getByText(/^Trim the drive in step by step, tabs up/).waitFor();
    await page.getByText('Test next: drive trim.').waitFor();
    const trim = page.getByRole('group', { name: 'What was found of drive trim' });
    await trim.getByLabel('ruled out').check();
    await page.getByText('Test next: water in bilge or foam.').waitFor();
    await page
      .getByRole('group', { name: 'What was found of weight aft' })
      .getByLabel('is the cause')
      .check();
    await page.getByText(/^The cause was found: weight aft/).waitFor();

    await page.getByLabel(/^Speed/).fill('28');
    await page.getByRole('button', { name: 'It begins here' }).click();
    await page.getByText('28 kn: it begins here').waitFor();
    await page.getByLabel(/^What was changed\? Then/).fill('200 lb in the bow locker');
    await page.getByRole('button', { name: 'Begin a trial after the change' }).click();
    await page.getByText('No runs yet.', { exact: true }).waitFor();
    await page.getByLabel(/^Speed/).fill('34');
    await page.getByRole('button', { name: 'It begins here' }).click();
    await page
      .getByText('After “200 lb in the bow locker” it begins later, by 6 ± 3 kn: the change helps.')
      .waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth))
      .toBeLessThanOrEqual(390);
  });
});
