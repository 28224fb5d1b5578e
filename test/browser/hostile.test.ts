import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { KindName } from '../../src/survey/kinds/kinds.ts';
import { PAGES } from '../../web/views/route.ts';
import { everyKind } from './everyKind.ts';
import { goTo, settled } from './screens.ts';
import { describeApp } from './support.ts';

const MARKUP = `<img src=x onerror="hit=1">"'</title></style><script>hit=1</script>\u202e=1+1{{7*7}}`;

/** Every text of an entry that its kind lets be anything is markup. */
function hostile(entry: Entry): Entry {
  const asks = (body: unknown): boolean => readBody(entry.kind as KindName, body).ok;
  let body: unknown = entry.body;
  for (const path of textsIn(body)) {
    const changed = replaced(body, path);
    if (asks(changed)) body = changed;
  }
  const read = readEntry({ ...entry, by: MARKUP, device: MARKUP, why: MARKUP, body });
  if (!read.ok) throw new Error(read.reason);
  return read.entry;
}

function textsIn(value: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value === 'string') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => textsIn(inner, [...path, key]));
}

function replaced(value: unknown, [key, ...rest]: readonly string[]): unknown {
  if (key === undefined) return MARKUP;
  const inner = (value as Readonly<Record<string, unknown>>)[key];
  const changed = replaced(inner, rest);
  return Array.isArray(value)
    ? value.toSpliced(Number(key), 1, changed)
    : { ...(value as object), [key]: changed };
}

async function isText(page: Page, where: string): Promise<void> {
  const found = await page.evaluate(() => [
    'hit' in window,
    document.querySelectorAll('img[src="x"], [onerror], main script').length,
  ]);
  expect(found, where).toEqual([false, 0]);
}

describeApp('markup in every text of an entry file', (app) => {
  test('is text on every screen, and on what is printed', async () => {
    const { hull, survey, entries } = everyKind();
    const all = entries.map(hostile);
    const page = await app.open({ width: 820, height: 1180 });
    await page.getByText('Take in an entry file').click();
    await page.getByLabel(/^Entry files of hulls/).setInputFiles({
      name: `${MARKUP}.txt`,
      mimeType: 'text/plain',
      buffer: Buffer.from(writeEntryFile(bookOf(all))),
    });
    await page.getByText('Read what is new').click();
    await page.getByText('onerror="hit=1"').first().waitFor();
    await isText(page, 'preview');
    await page.getByRole('button', { name: 'Take in', exact: true }).click();
    await page.getByText(/\d+ new, 0 already\s+here/).waitFor();

    const at = `#/hull/${hull}`;
    const routes = ['#/', at, ...['book', 'seasons', 'running', 'import'].map((p) => `${at}/${p}`)];
    routes.push(...PAGES.map((name) => `${at}/survey/${survey}/${name}`.replace('/readings', '')));
    for (const route of routes) {
      await goTo(page, route);
      await page.getByText('onerror="hit=1"').first().waitFor();
      await settled(page, route);
      await isText(page, route);
    }
    await expect.poll(() => page.title()).toContain('aftrun');
  });
});
