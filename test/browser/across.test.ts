import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

const STORY = new URL('../../fixtures/samples/stories/twisted-panel.csv', import.meta.url);

/** The invented story's lines, each by itself: nothing lies across them. */
function alongOnly(): Buffer {
  const rows = readFileSync(STORY, 'utf8').split('\r\n');
  return Buffer.from(rows.filter((row) => !/athwart|diagonal/.test(row)).join('\r\n'));
}

async function faults(page: Page): Promise<readonly unknown[]> {
  const found: unknown[] = [];
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).analyze();
    found.push(...violations.map(({ id, nodes }) => [colorScheme, id, nodes.map((n) => n.html)]));
  }
  return found;
}

describeApp('placements across the lines', (app) => {
  test('are recorded by keyboard alone, put right and undone as along a line, and tie the map', async () => {
    const context = await app.context({ width: 820, height: 1180 });
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    await page.getByRole('button', { name: 'New hull' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Whimbrel (invented)');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('link', { name: 'Take in a CSV file' }).click();
    await page
      .getByLabel('Choose a file, or drop one here')
      .setInputFiles({ name: 'along.csv', mimeType: 'text/csv', buffer: alongOnly() });
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).click();
    await page.getByRole('link', { name: 'Readings', exact: true }).click();
    await page.getByRole('link', { name: /^Across/ }).focus();
    await page.keyboard.press('Enter');

    await page.getByRole('heading', { name: 'Lay the straightedge across' }).waitFor();
    const port = page.getByRole('region', { name: /^PORT/ });
    await expect.poll(() => port.innerText()).toMatch(/not tied yet[^]*Still to lay: athwart at/);
    expect(await faults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Start reading across' }).focus();
    await page.keyboard.press('Enter');

    const cells = page.getByRole('table').getByRole('textbox');
    const shown = () =>
      cells.evaluateAll((each) => each.map((one) => (one as HTMLInputElement).value));
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
    const type = async (gap: string, on: string) => {
      await expect.poll(focused).toMatch(new RegExp(`^Gap on ${on}\\b`));
      await page.keyboard.type(gap);
      await page.keyboard.press('Enter');
    };
    await type('99', 'P150');
    await page.getByText(/expected at most 30 mm/).waitFor();
    await page.keyboard.press('Escape');
    await type('1.5', 'P150');
    await type('2', 'P300');
    await expect.poll(shown).toEqual(['1.5', '2', '', '']);
    await page.keyboard.press('Control+z');
    await expect.poll(shown).toEqual(['1.5', '', '', '']);
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(shown).toEqual(['1.5', '2', '', '']);
    await page.getByLabel(/^Gap on P450\b/).focus();
    await page.keyboard.press('v');
    await page.getByRole('heading', { name: 'P450 cannot be read: why?' }).waitFor();
    await page.keyboard.press('1');
    await type('1.5', 'P600');
    await page.getByText('3 lines read').waitFor();
    expect(await faults(page)).toEqual([]);

    // What is to be laid next has the focus.
    for (const gaps of [
      ['1', '2', '2', '1'],
      ['1', '2', '2', '1'],
    ]) {
      await page.getByRole('button', { name: /^Next: port/ }).waitFor();
      await page.keyboard.press('Enter');
      for (const [i, gap] of gaps.entries()) await type(gap, `P${150 * (i + 1)}`);
      await page.getByText('4 lines read').waitFor();
    }
    await expect.poll(() => port.innerText()).toMatch(/: tied/);
    await expect.poll(() => page.locator('.head .saving').innerText()).toBe('saved');
    await page.reload();
    await expect.poll(shown).toEqual(['1', '2', '2', '1']);

    await page.getByRole('link', { name: 'Surface', exact: true }).focus();
    await page.keyboard.press('Enter');
    const heading = page.getByRole('heading', { name: /: port, lines P150, P300, P450 and P600/ });
    await heading.waitFor();
    await expect.poll(() => heading.innerText()).not.toMatch(/Not one surface/);
  });
});
