import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { newHull } from './surveyDriver.ts';

describeApp('the surface of a bottom', (app) => {
  test('a survey without readings across is drawn line by line, port never where starboard is', async () => {
    const context = await app.context({ width: 390, scheme: 'dark' });
    const page = await app.open(context);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.locator('a[href*="/survey/"]').first().click();
    await page.getByRole('link', { name: 'Surface', exact: true }).click();
    await page.getByText('Heights between lines are not tied', { exact: true }).waitFor();
    const map = page.locator('svg.picture');
    await map.waitFor();

    const placeOf = async (text: string): Promise<number> => {
      const box = await map.getByText(text, { exact: true }).boundingBox();
      if (box === null) throw new Error(`${text}: not drawn`);
      return box.x;
    };
    const fromKeel = async (text: string) => (await placeOf(text)) - (await placeOf('KEEL'));
    await expect.poll(() => fromKeel('PORT')).toBeGreaterThan(0);
    await expect.poll(() => fromKeel('STARBOARD')).toBeLessThan(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map((n) => n.html)])).toEqual([]);
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth - innerWidth))
      .toBeLessThanOrEqual(0);

    await page.getByLabel('Above, through the bottom').check();
    await map.getByText('The bottom seen from above, bow up', { exact: true }).waitFor();
    await expect.poll(() => fromKeel('PORT')).toBeLessThan(0);
  });

  test('placements across that came in a file tie the lines of a side', async () => {
    const page = await app.open(await app.context({ width: 820 }));
    await newHull(page, 'Whimbrel (invented)');
    await page.getByRole('link', { name: 'Take in a CSV file' }).click();
    const file = fileURLToPath(
      new URL('../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
    );
    await page.getByLabel('Choose a file, or drop one here').setInputFiles(file);
    await page.getByRole('heading', { name: 'What was recognised' }).waitFor();
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).click();
    await page.getByRole('link', { name: 'Surface', exact: true }).click();
    await page.locator('svg.picture').first().waitFor();
    const summary = page.locator('svg.picture desc').first();
    await expect.poll(() => summary.textContent()).toMatch(/twist/i);
    await expect
      .poll(() => page.getByText('Heights between lines are not tied', { exact: true }).count())
      .toBe(0);

    // Every line is fair; the head of the verdict says all the same what the surface proves, and leads there.
    await page.getByRole('link', { name: 'Profile and verdict', exact: true }).click();
    await page.getByText(/Twisted as one surface: PORT, lines P150 to P600/).waitFor();
    await page.getByRole('link', { name: 'see the surface' }).click();
    await page.getByRole('heading', { name: /^Twisted: port/ }).waitFor();
  });
});
