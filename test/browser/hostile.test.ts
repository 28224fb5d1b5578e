import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { KindName } from '../../src/survey/kinds/kinds.ts';
import { PAGES } from '../../web/views/route.ts';
import { madeHull, USUAL_PLAN } from '../../tools/madeYard.ts';
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

/** A made hull of two surveys, and every kind of entry that there is, of that hull and its last survey. */
function entries(): readonly Entry[] {
  const made = madeHull({ ...USUAL_PLAN, surveys: 2 }, 0);
  const last = made.findLast(({ kind }) => kind === 'survey');
  const [hull, survey] = last?._id.split(':') ?? [];
  const folder = fileURLToPath(new URL('../../fixtures/book/', import.meta.url));
  const kinds = readdirSync(folder)
    .filter((name) => name.startsWith('kinds-'))
    .flatMap((name) => {
      const { entries } = JSON.parse(readFileSync(folder + name, 'utf8')) as {
        readonly entries: readonly Entry[];
      };
      return entries.filter(({ kind }) => !['hull', 'survey', 'import', 'log'].includes(kind));
    })
    .map((entry) => {
      const [, scope, own] = entry._id.split(':');
      return { ...entry, _id: [hull, scope === '0' ? '0' : survey, own].join(':') };
    });
  return [...made, ...kinds].map(hostile);
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
    const all = entries();
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

    const [hull, survey] = (all.findLast(({ kind }) => kind === 'survey')?._id ?? '').split(':');
    const at = `#/hull/${hull}`;
    const routes = ['#/', at, ...['book', 'seasons', 'running', 'import'].map((p) => `${at}/${p}`)];
    routes.push(...PAGES.map((name) => `${at}/survey/${survey}/${name}`.replace('/readings', '')));
    for (const route of routes) {
      await page.evaluate((hash) => (location.hash = hash), route);
      await page.getByText('onerror="hit=1"').first().waitFor();
      await expect
        .poll(() => page.getByText(/^(Loading|Reading|Judging|Working)\b.*…$/).allInnerTexts(), {
          timeout: 30_000,
          message: route,
        })
        .toEqual([]);
      await isText(page, route);
    }
    expect(await page.title()).toContain('aftrun');
  }, 120_000);
});
