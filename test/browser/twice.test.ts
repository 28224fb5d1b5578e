import AxeBuilder from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { entriesFromSurvey } from '../../src/survey/entriesFromSurvey.ts';
import { draftOf, stampAll } from '../../src/survey/kinds/draft.ts';
import { entryId } from '../../src/book/id.ts';
import { describeApp } from './support.ts';
import { deviceOf } from './surveyDriver.ts';

const HULL = 'tw1cehvq0001';
const SURVEY = 'tw1cesvrvey1';

/** A line of three stations that one person typed; another typed the second station on another device. Invented. */
function bothTyped(): string {
  const read = readCsv(
    'side,offset_mm,station_mm,gap_mm\nport,450,0,0\nport,450,300,2.5\nport,450,600,0\n',
  );
  if (!read.ok) throw new Error('the survey cannot be read');
  let count = 0;
  const stamp = (drafts: Parameters<typeof stampAll>[0], by: string): readonly Entry[] => {
    const at = Date.UTC(2026, 5, 1) + count * 1000;
    const ids = drafts.map(({ scope }) => {
      const random = new Uint8Array(10);
      random[9] = count += 1;
      return entryId({ hull: HULL, survey: scope === 'hull' ? '0' : SURVEY, time: at, random });
    });
    return stampAll(drafts, {
      ids,
      at: new Date(at).toISOString(),
      by,
      device: `${by}’s tablet`,
      app: 'test',
    });
  };
  const ann = stamp(
    [
      draftOf('hull', { name: 'Dunlin (invented)', invented: true }),
      ...entriesFromSurvey({ ...read.survey, support: [{ what: 'blocks' }] }, { as: 'single' }),
    ],
    'Ann',
  );
  const typed = ann.find(
    ({ kind, body }) => kind === 'reading' && (body as { gap: { mm: number } }).gap.mm === 2.5,
  );
  const body = typed?.body as { readonly gap: object };
  const ben = stamp(
    [draftOf('reading', { ...body, gap: { mm: 2.8, text: '2.8' } } as never)],
    'Ben',
  );
  return writeEntryFile(bookOf([...ann, ...ben]));
}

describeApp('a station that two people read', (app) => {
  test('is asked about, and as looks both stay', async () => {
    const file = bothTyped();
    expect(entriesOf(readEntryFile(file).book).length).toBeGreaterThan(5);
    const context = await app.context({ width: 390 });
    await deviceOf(context, 'mm');
    const page = await app.open(context);
    await page.getByText('Take in an entry file').click();
    await page
      .getByLabel(/^Entry files of hulls/)
      .setInputFiles({ name: 'dunlin.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
    await page.getByRole('button', { name: 'Take in', exact: true }).click();
    await page.getByText(/\d+ new, 0 already/).waitFor();
    await page.goto(`${app.address}#/hull/${HULL}/survey/${SURVEY}`);
    await page.getByText('Port, 450 mm from the keel, station 300 was read twice.').waitFor();
    await page.getByRole('button', { name: 'Only 2.8 (Ben, Ben’s tablet)' }).waitFor();
    const { violations } = await new AxeBuilder({ page }).include('.banner').analyze();
    expect(violations).toEqual([]);
    await page.getByRole('button', { name: 'All of them, as looks' }).click();
    await page.getByText('was read twice').waitFor({ state: 'detached' });
    const cell = page.getByLabel(/^Gap at station 300,/);
    await expect.poll(() => cell.inputValue()).toBe('2.5 · 2.8');
  });
});
