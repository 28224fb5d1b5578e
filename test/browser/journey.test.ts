import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openDemo, SCREENS, visit } from './screens.ts';
import { describeApp } from './support.ts';
import { newHull } from './surveyDriver.ts';

const sample = (name: string) =>
  fileURLToPath(new URL(`../../fixtures/samples/${name}`, import.meta.url));

/** Faults by axe's rules for WCAG 2.2 A and AA, or by some of its rules, each with where it stands. */
async function axeFaults(page: Page, rules?: string[]): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  const { violations } = await (rules === undefined ? axe : axe.withRules(rules)).analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map((n) => `${id}: ${n.target.join(' ')}`));
}

/** What can be tapped and is smaller than 48 px (56 px on the keypad). A box to tick counts with its label; a link within
 *  a sentence is left out, as WCAG 2.2 (2.5.8, target size) does. */
async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const small: string[] = [];
    for (const each of document.querySelectorAll<HTMLElement>(
      'button, a[href], input:not([type=hidden]), select, textarea, summary',
    )) {
      if (!each.checkVisibility({ visibilityProperty: true }) || each.closest('.on-paper, svg'))
        continue;
      const at = each.closest('label') ?? each;
      const { width, height } = at.getBoundingClientRect();
      const within = getComputedStyle(each).display === 'inline' && each.tagName === 'A';
      if (width <= 1 || height <= 1 || within) continue;
      const least = each.closest('.keypad') === null ? 48 : 56;
      // Layout rounds to parts of a pixel.
      if (height < least - 0.5 || width < (each.matches('a, summary') ? 24 : least) - 0.5) {
        const name = each.getAttribute('aria-label') ?? each.textContent.trim().slice(0, 30);
        small.push(`target ${Math.round(width)}×${Math.round(height)}: ${each.tagName} ${name}`);
      }
    }
    return small;
  });
}

/** What the page itself is too wide by at 320 px: 640 px at 200 %, and what WCAG 2.2 asks of reflow (1.4.10); and at
 *  195 px, a phone of 390 px at 200 %. */
async function tooWide(page: Page): Promise<string[]> {
  const size = page.viewportSize();
  const found: string[] = [];
  for (const width of [320, 195]) {
    await page.setViewportSize({ width, height: 512 });
    // Two frames, in which a table may become cards.
    const over = await page.evaluate(async () => {
      for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
      return document.documentElement.scrollWidth - document.documentElement.clientWidth;
    });
    if (over > 0) found.push(`${over} px too wide at ${width} px`);
  }
  if (size !== null) await page.setViewportSize(size);
  return found;
}

describeApp('from an empty yard', (app) => {
  async function demo(options: Parameters<typeof app.open>[0] = {}): Promise<Page> {
    const page = await app.open(options);
    await openDemo(page);
    return page;
  }

  test('the demo hull is one click away, marked invented, and can be removed again', async () => {
    const page = await demo();
    await expect.poll(() => page.locator('h1').innerText()).toContain('invented');
    await page.getByRole('button', { name: 'Remove this hull…' }).click();
    await page.getByRole('button', { name: /^Remove Marsh Heron/ }).click();
    await page.getByRole('heading', { name: 'No hull yet' }).waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'No hull yet' }).waitFor();
  });

  test('the demo is judged: hook port at 18 and 30 in, none starboard', async () => {
    const page = await demo();
    await page.getByRole('link', { name: 'Verdict' }).click();
    await page.getByRole('heading', { name: 'All lines at one scale' }).waitFor();
    const main = page.locator('main');
    for (const line of ['P18in: Hook', 'P30in: Hook', 'S6in: Fair', 'S18in: ', 'S30in: ']) {
      await expect.poll(() => main.innerText()).toContain(line);
    }
    expect(await main.innerText()).not.toMatch(/S\d+in: (Hook|Rocker)/);
  });

  test('a hull begins with a name, takes lines, and is still there after a reload', async () => {
    const page = await app.open();
    await newHull(page, 'Sandpiper (invented)');
    await page.getByRole('button', { name: /^Start with/ }).click();
    await expect.poll(() => page.getByRole('button', { name: /^Strike line/ }).count()).toBe(6);
    // Entries are shown at once; they are kept when the screen says so.
    await page.getByRole('banner').getByText('saved', { exact: true }).waitFor();
    await page.reload();
    await expect.poll(() => page.getByRole('button', { name: /^Strike line/ }).count()).toBe(6);
    await page.getByRole('link', { name: 'Yard', exact: true }).first().click();
    await page.getByRole('link', { name: /Sandpiper/ }).waitFor();
    await page.getByLabel('Search by name').fill('nothing like it');
    await page.getByText('No hull has “nothing like it” in its name').waitFor();
  });

  test.each([
    'inches-wide.csv',
    'metric-long.csv',
    'two-placements.csv',
    'season-2024.csv',
    'stories/moulded-wedge.csv',
    'stories/rocker-blocks.csv',
  ])('%s is taken in through the page and judged', async (name) => {
    const page = await app.open();
    await newHull(page, 'Knot (invented)');
    await page.getByRole('link', { name: 'Take in a CSV file' }).click();
    await page.getByLabel('Choose a file, or drop one here').setInputFiles(sample(name));
    await page.getByRole('heading', { name: 'What was recognised' }).waitFor();
    await page.getByRole('button', { name: 'Keep as a survey of this hull' }).click();
    // The tolerance comes before the verdict.
    await page.getByLabel('Set by').fill('Invented yard hand');
    await page.getByRole('button', { name: 'Judge by this' }).click();
    await page.getByRole('heading', { name: 'All lines at one scale' }).waitFor();
  });

  test('a faulty file is explained row by row, and nothing of it is kept', async () => {
    const page = await app.open();
    await newHull(page, 'Ruff (invented)');
    await page.getByRole('link', { name: 'Take in a CSV file' }).click();
    await page
      .getByLabel('Choose a file, or drop one here')
      .setInputFiles(sample('faulty-long.csv'));
    await page.getByRole('heading', { name: /^\d+ faults$/ }).waitFor();
    const table = page.getByRole('table').last();
    const rows = async () => (await table.getByRole('row').allInnerTexts()).slice(1);
    const numbers = async () => (await rows()).map((row) => Number(row.split('\t')[0]));
    await expect.poll(numbers).toEqual([4, 6, 7, 8, 11, 12]);
    expect((await rows())[0]).toContain('o.8');
    await expect
      .poll(() => page.getByRole('button', { name: /^Keep as a survey/ }).isDisabled())
      .toBe(true);
  });

  test('a file without a unit is asked about, and nothing is guessed', async () => {
    const page = await app.open();
    await newHull(page, 'Stint (invented)');
    await page.getByRole('link', { name: 'Take in a CSV file' }).click();
    const rows = [0, 100, 200, 300, 400].map((at) => `port,300,${at},${at / 400}`);
    await page
      .getByLabel('or paste its text')
      .fill(['side,offset_mm,station_mm,gap', ...rows].join('\n'));
    const keep = page.getByRole('button', { name: /^Keep as a survey/ });
    await expect.poll(() => keep.isDisabled()).toBe(true);
    await page.getByLabel('gap', { exact: true }).selectOption('mm');
    await expect.poll(() => keep.isEnabled()).toBe(true);
  });

  test('an entry file goes out, and comes in on another device with everything', async () => {
    const page = await demo();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Back up this hull' }).click();
    await page.getByRole('button', { name: 'Download the backup' }).click();
    const text = readFileSync(await (await download).path(), 'utf8');
    const other = await app.open();
    await other.getByText('Take in an entry file').click();
    await other
      .getByLabel(/^Entry files of hulls/)
      .setInputFiles({ name: 'entries.txt', mimeType: 'text/plain', buffer: Buffer.from(text) });
    await other.getByRole('button', { name: 'Take in', exact: true }).click();
    await other.getByText(/\d+ new, 0 already/).waitFor();
    await other
      .getByRole('status')
      .getByRole('link', { name: /Marsh Heron/ })
      .click();
    await other.getByRole('link', { name: 'Verdict' }).click();
    await other.getByRole('heading', { name: 'All lines at one scale' }).waitFor();
  });

  test('a wrong entry file is refused in words, and nothing stored is lost', async () => {
    const page = await demo();
    await page.getByRole('link', { name: 'Yard', exact: true }).first().click();
    await page.getByText('Take in an entry file').click();
    await page
      .getByLabel(/^Entry files of hulls/)
      .setInputFiles({ name: 'x.txt', mimeType: 'text/plain', buffer: Buffer.from('not it\n') });
    await page.getByText('This is not an entry file.').waitFor();
    await page.getByRole('link', { name: /Marsh Heron/ }).waitFor();
  });

  test('no screen has a fault that axe finds in any theme, a target under 48 px, or scrolls sideways at 320 px or 195 px', async () => {
    const page = await app.open({ width: 820, height: 1180 });
    await page.getByRole('heading', { name: 'No hull yet' }).waitFor();
    const faults: Record<string, string[]> = {};
    const look = async (what: string): Promise<void> => {
      const found = [...(await axeFaults(page)), ...(await smallTargets(page))];
      for (const theme of ['dark', 'sun']) {
        await page.evaluate((to) => (document.documentElement.dataset['theme'] = to), theme);
        found.push(...(await axeFaults(page, ['color-contrast'])).map((f) => `${theme}: ${f}`));
      }
      await page.evaluate(() => delete document.documentElement.dataset['theme']);
      found.push(...(await tooWide(page)));
      if (found.length > 0) faults[what] = found;
    };
    await look('empty yard');
    await openDemo(page);
    for (const [what, hash, seen] of SCREENS) {
      await visit(page, hash, seen);
      if (what === 'verdict') {
        await page.getByRole('button', { name: 'Hook', exact: true }).first().click();
        await page.getByRole('img', { name: /^A hook: the bottom in profile/ }).waitFor();
      }
      await look(what);
    }
    expect(faults).toEqual({});
  }, 600_000);
});
