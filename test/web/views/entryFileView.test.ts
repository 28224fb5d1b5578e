import { describe, expect, it } from 'vitest';

import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { faultWords, hullPreview } from '../../../web/views/entryFileView.ts';

const HULL = '0123456789ab';
const SURVEY = 'cdefghjkmnpq';
const START = Date.UTC(2026, 4, 4, 9, 30);

function id(n: number, survey = SURVEY): string {
  const random = new Uint8Array(10).fill(n);
  return entryId({ hull: HULL, survey, time: START + n * 60_000, random });
}
function entry(n: number, kind: string, body: unknown, more: Partial<Entry> = {}): Entry {
  const at = new Date(START + n * 60_000).toISOString();
  const signed = { at, by: 'Jo (invented)', device: 'Tablet dev1ce000000', app: '1' };
  return { _id: id(n), v: 1, kind, ...signed, body, ...more };
}
const inches = (text: string, mm: number) => ({ mm, text });
const reading = (n: number, text: string, mm: number, more: Partial<Entry> = {}) => {
  const body = { placement: id(3), station: inches('30 in', 762), gap: inches(text, mm), look: 1 };
  return entry(n, 'reading', body, more);
};

const line = entry(
  1,
  'line',
  { side: 'port', offset: inches('18 in', 457.2) },
  { _id: id(1, '0') },
);
const facts = { date: '2026-05-04', workUnit: 'in', measured: 'hand' };
const survey = entry(2, 'survey', facts);
const lay = entry(3, 'placement', { line: id(1, '0'), name: '1', repeat: 1, held: 'resting' });
const mine = reading(4, '9/32', 7.14375);
const here = [line, survey, lay, mine];
const kim = { by: 'Kim (invented)' };
const look = (brought: readonly Entry[], known: readonly Entry[] = here) =>
  hullPreview(known, brought, () => 0);

describe('the preview of an entry file', () => {
  it('counts what is new by survey, person and day, and what is here already', () => {
    const note = entry(5, 'note', { text: 'wet' }, { _id: id(5, '0'), ...kim });
    const preview = look([...here, note, reading(60 * 20, '1', 25.4, kim)]);
    expect(preview.same).toBe(4);
    expect(preview.fresh.map(({ words }) => words)).toEqual(['Remark: wet', 'P18in, 30 in: 1 in']);
    expect(preview.surveys).toEqual([
      { value: '0', count: 1 },
      { value: SURVEY, count: 1 },
    ]);
    expect(preview.people).toEqual([{ value: 'Kim (invented)', count: 2 }]);
    expect(preview.days).toEqual(['2026-05-04', '2026-05-05']);
    expect(preview.title(SURVEY)).toBe('Survey of 2026-05-04');
  });

  it('says so where nothing is new', () => {
    const preview = look(here);
    expect(preview).toMatchObject({ fresh: [], same: 4, disputed: [], disagreements: [] });
    expect(preview).not.toHaveProperty('days');
  });

  it('shows both contents of one id side by side', () => {
    const theirs = reading(4, '5/32', 3.96875, kim);
    expect(look([theirs]).disputed).toMatchObject([
      {
        id: id(4),
        said: expect.arrayContaining([
          expect.objectContaining({ words: 'P18in, 30 in: 9/32 in', here: true }),
          expect.objectContaining({ words: 'P18in, 30 in: 5/32 in', here: false }),
        ]) as unknown,
      },
    ]);
  });

  it('shows what two people have said of the same thing', () => {
    expect(look([reading(6, '5/32', 3.96875, kim)]).disagreements).toMatchObject([
      {
        about: 'P18in, placement 1, station 30 in: 2 readings of look 1',
        said: [
          { words: 'P18in, 30 in: 9/32 in', by: 'Jo (invented)', here: true },
          { words: 'P18in, 30 in: 5/32 in', by: 'Kim (invented)', here: false },
        ],
      },
    ]);
  });

  it('does not bring up again what was said twice before', () => {
    const known = [...here, reading(6, '5/32', 3.96875, kim)];
    expect(look([entry(7, 'note', { text: 'wet' })], known).disagreements).toEqual([]);
  });

  it('shows what stands here and would be struck', () => {
    const right = reading(6, '5/32', 3.96875, { ...kim, strikes: [{ entry: id(4) }] });
    const preview = look([right]);
    expect(preview.struck.map(({ words }) => words)).toEqual(['P18in, 30 in: 9/32 in']);
    expect(preview.struck[0].struck[0].instead).toBe('P18in, 30 in: 5/32 in');
    expect(preview.disagreements).toEqual([]);
  });

  it('says of what is new and cannot count why it is set aside', () => {
    const stray = entry(8, 'hull', { hin: 'X' }, { _id: id(8, '0') });
    const [only, ...none] = look([stray], []).notCounted;
    expect(none).toEqual([]);
    expect(only.setAside).toEqual(['name: expected a value, found nothing']);
  });
});

describe('a fault of an entry file', () => {
  it('is told with its place, what was found and what was expected', () => {
    const row = 4;
    expect(faultWords({ row, column: 'crc', found: 'x', expected: 'y' })).toBe(
      'Line 4: damaged, its check does not hold. Found x, expected y.',
    );
    expect(faultWords({ row, column: 'version', found: 'v9', expected: 'v1' })).toMatch(
      /^Line 4: the first line does not name a version .* Found v9, expected v1\.$/,
    );
  });
});
