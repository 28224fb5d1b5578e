import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import type { BrowserContext, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { sample, surveyIn } from '../survey/madeSurveys.ts';
import { HULL, seasonsFile } from './seasonsHull.ts';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

/** Three surveys of a trailered hull, two of them on other bunks than the last. Invented. */
const FILE = seasonsFile(
  ['hour-3', 'after-six-days-afloat', 'next-year-longer-bunks'].map((name) =>
    sample(`stories/bunk-hook-${name}.csv`),
  ),
  'Plover (invented)',
);

/** The story's twisted panel, and a year later with a hollow of 4 mm on port. Invented. */
const STORY = readFileSync(
  new URL('../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
  'utf8',
);
const TIED = seasonsFile(
  [STORY, dented(STORY).replace(/^# date: .*$/m, '# date: 2027-05-04')].map(surveyIn),
  'Curlew Sound (invented)',
);

function dented(csv: string): string {
  return csv.replace(/^(port,(\d+),(\d+)),([\d.]+)/gm, (_, head: string, y, x, gap) => {
    const away = ((Number(x) - 700) / 250) ** 2 + ((Number(y) - 450) / 150) ** 2;
    return `${head},${(Number(gap) + 4 * Math.exp(-away)).toFixed(2)}`;
  });
}

describeApp('seasons side by side', (app) => {
  async function toSeasons(context: BrowserContext, file = FILE): Promise<Page> {
    await deviceOf(context, 'in');
    const page = await app.open(context);
    await page.getByText('Take in an entry file').click();
    await page
      .getByLabel(/^Entry files of hulls/)
      .setInputFiles({ name: 'plover.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
    await page.getByRole('button', { name: 'Take in', exact: true }).click();
    await page.getByText(/\d+ new, 0 already/).waitFor();
    await page.goto(`${app.address}#/hull/${HULL}`);
    await page.getByRole('link', { name: 'Seasons' }).click();
    return page;
  }

  test('what differs is compared once it is accepted knowingly, and not once that is taken back', async () => {
    const page = await toSeasons(await app.context({ width: 820 }));
    await page.getByText('Not compared: P16in and S16in.').waitFor();
    await page.getByRole('button', { name: /^Accept it knowingly/ }).click();
    await page.getByRole('button', { name: 'Accept and compare' }).click();
    await page.getByText('Say why the two may be compared all the same.').waitFor();
    await page.getByLabel('Why the two may be compared').fill('the bunks alone were changed');
    await page.getByRole('button', { name: 'Accept and compare' }).click();
    await page.getByText('“the bunks alone were changed”').waitFor();
    await page.getByText('Not compared: P16in and S16in.').waitFor({ state: 'detached' });
    await page.locator('svg.picture').first().waitFor();
    await page.getByRole('button', { name: /^Take back/ }).click();
    await page.getByText('Not compared: P16in and S16in.').waitFor();
  });

  test('figures are saved as CSV, nothing is wider than the page, and axe finds nothing', async () => {
    const page = await toSeasons(await app.context({ width: 390, scheme: 'dark' }));
    await page.getByRole('region', { name: 'Over the years' }).getByRole('img').first().waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the figures as CSV' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('Plover (invented) seasons.csv');
    expect(readFileSync(await download.path(), 'utf8').split('\r\n')).toHaveLength(3 * 9 + 2);
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth - innerWidth))
      .toBeLessThanOrEqual(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map((n) => n.html)])).toEqual([]);
  });

  test('two surveys that tied their sides have a map of what changed, port never where starboard is', async () => {
    const page = await toSeasons(await app.context({ width: 390 }), TIED);
    const map = page.locator('section.change svg.picture');
    await map.waitFor();
    await map.getByText(/^went in 3/).waitFor();
    const placeOf = async (text: string): Promise<number> => {
      const box = await map.getByText(text, { exact: true }).boundingBox();
      if (box === null) throw new Error(`${text}: not drawn`);
      return box.x;
    };
    const fromKeel = async (text: string) => (await placeOf(text)) - (await placeOf('KEEL'));
    await expect.poll(() => fromKeel('PORT')).toBeGreaterThan(0);
    await expect
      .poll(() => page.evaluate(() => document.documentElement.scrollWidth - innerWidth))
      .toBeLessThanOrEqual(0);
    await page.getByLabel('Above, through the bottom').check();
    await map.getByText('What changed seen from above, bow up', { exact: true }).waitFor();
    await expect.poll(() => fromKeel('PORT')).toBeLessThan(0);
  });
});
