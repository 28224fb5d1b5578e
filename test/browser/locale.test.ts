import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { bookOf } from '../../src/book/book.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { PAGES } from '../../web/views/route.ts';
import { everyKind } from './everyKind.ts';
import { goTo, openDemo, SCREENS, settled, visit } from './screens.ts';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

/** What stands on a page with a decimal point, or as a date in the order of English or of ISO 8601. What goes to paper
 *  is as the standards have it, and left out; so are fields, which keep a figure as it was typed. */
async function foreign(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const MONTH = /\b(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]* \d|\d{4}-\d\d-\d\d/;
    const isForeign = (text: string): boolean =>
      MONTH.test(text) ||
      (text.match(/[\w.,]*\d\.\d[\w.,]*/g) ?? []).some((word) =>
        /^\d+\.\d+[a-z]*[.,]?$/.test(word),
      );
    for (const each of document.querySelectorAll('details')) each.open = true;
    const found = new Set<string>();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT);
    for (let at: Node | null = document.body; at !== null; at = walker.nextNode()) {
      const each = at as Element;
      if (each.closest('.paper, script, style, textarea') !== null) continue;
      const own = [...each.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE);
      const texts = own.map((node) => node.textContent ?? '').join('');
      const spoken = ['aria-label', 'alt', 'title', 'placeholder', 'data-label'];
      for (const text of [texts, ...spoken.map((name) => each.getAttribute(name) ?? '')]) {
        if (isForeign(text)) found.add(text.replace(/\s+/g, ' ').trim());
      }
    }
    return [...found];
  });
}

describeApp('a person whose decimal mark is a comma', (app) => {
  test('finds it on every screen, and days in their order', async () => {
    const context = await app.context({ locale: 'de-DE' });
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    await openDemo(page);
    const faults: Record<string, string[]> = {};
    for (const [what, hash, seen] of SCREENS) {
      await visit(page, hash, seen);
      const found = await foreign(page);
      if (found.length > 0) faults[what] = found;
    }
    expect(faults).toEqual({});
  });

  test('finds it in whatever is kept of a hull, from the preview of its file on', async () => {
    const context = await app.context({ locale: 'de-DE' });
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    const { hull, survey, entries } = everyKind(4);
    await page.getByText('Take in an entry file').click();
    await page.getByLabel(/^Entry files of hulls/).setInputFiles({
      name: 'hull.txt',
      mimeType: 'text/plain',
      buffer: Buffer.from(writeEntryFile(bookOf(entries))),
    });
    await page.getByText('Read what is new').click();
    const faults: Record<string, string[]> = {};
    const look = async (what: string): Promise<void> => {
      const found = await foreign(page);
      if (found.length > 0) faults[what] = found;
    };
    await look('preview');
    await page.getByRole('button', { name: 'Take in', exact: true }).click();
    await page.getByText(/\d+ new, 0 already\s+here/).waitFor();
    const at = `#/hull/${hull}`;
    const routes = ['#/', at, ...['book', 'seasons', 'running'].map((name) => `${at}/${name}`)];
    routes.push(...PAGES.map((name) => `${at}/survey/${survey}/${name}`));
    for (const route of routes) {
      await goTo(page, route);
      await page.locator('h1').first().waitFor();
      await settled(page, route);
      await look(route);
    }
    expect(faults).toEqual({});
  });
});
