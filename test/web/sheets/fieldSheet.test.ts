import { readFileSync } from 'node:fs';
import { render } from 'svelte/server';
import { expect, test } from 'vitest';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import FieldSheet from '../../../web/sheets/FieldSheet.svelte';
import { acrossPages } from '../../../web/views/acrossPages.ts';
import { fieldSheetView, type FieldSheetFrom } from '../../../web/views/fieldSheetView.ts';
import { NO_HULL, sampleSurvey, stateOf, wordsOf } from './samples.ts';

const from: FieldSheetFrom = {
  state: stateOf(sampleSurvey('inches-wide')),
  hull: NO_HULL,
  unit: 'in',
  paper: 'A4',
  limit: 1524,
  first: 'port',
  walk: 'forward',
};
const mm = (length: number, text: string) => ({ mm: length, text });

test('has the lines in walking order as columns and the stations as rows', () => {
  const [page] = fieldSheetView(from).pages;
  expect(page?.lines.map(({ name, offset }) => [name, offset])).toEqual([
    ['P6in', '6 in'],
    ['P18in', '18 in'],
    ['P30in', '30 in'],
    ['S6in', '6 in'],
    ['S18in', '18 in'],
    ['S30in', '30 in'],
  ]);
  expect(page?.rows.map(({ station }) => station)).toEqual(
    '0 3 6 9 12 15 18 24 30 36 42 48 54 60'.split(' '),
  );
});

test('follows the screen when it walks starboard first and towards the transom', () => {
  const [page] = fieldSheetView({ ...from, first: 'starboard', walk: 'aft' }).pages;
  expect(page?.lines[0]?.name).toBe('S6in');
  expect(page?.rows[0]?.station).toBe('60');
  expect(page?.lines.map(({ walked }) => walked).slice(0, 2)).toEqual(['1: aft ↓', '2: aft ↓']);
});

test('tells of lines walked in turn which is filled downwards and which from below, on every page', () => {
  const [page] = fieldSheetView({ ...from, walk: 'snake' }).pages;
  expect(page?.rows[0]?.station).toBe('0');
  expect(page?.lines.map(({ name, walked }) => `${name} ${walked}`)).toEqual([
    'P6in 1: forward ↓',
    'P18in 2: aft ↑',
    'P30in 3: forward ↓',
    'S6in 4: aft ↑',
    'S18in 5: forward ↓',
    'S30in 6: aft ↑',
  ]);
  const lines = Array.from({ length: 9 }, (_, i) => ({
    id: `l${i}`,
    ids: [`l${i}`],
    name: `P${i}`,
    side: 'port' as const,
    offset: mm(100 * i, `${100 * i} mm`),
  }));
  const hull = { ...NO_HULL, lines };
  const { pages } = fieldSheetView({ ...from, hull, walk: 'snake' });
  expect(pages.flatMap((each) => each.lines.map(({ walked }) => walked))).toEqual(
    lines.map((_, i) => `${i + 1}: ${i % 2 === 0 ? 'forward ↓' : 'aft ↑'}`),
  );
});

test('has the usual stations where none are planned', () => {
  const state = stateOf({ ...sampleSurvey('inches-wide'), lines: [] });
  const [page] = fieldSheetView({ ...from, state }).pages;
  expect(page?.rows.map(({ station }) => station).slice(0, 8)).toEqual(
    '0 3 6 9 12 15 18 24'.split(' '),
  );
});

test('goes on over as many pages as lines and stations take, and loses none', () => {
  const lines = Array.from({ length: 16 }, (_, i) => ({
    id: `l${i}`,
    ids: [`l${i}`],
    name: `P${i}`,
    side: 'port' as const,
    offset: mm(100 * i, `${100 * i} mm`),
  }));
  const stations = Array.from({ length: 25 }, (_, i) => mm(60 * i, `${60 * i} mm`));
  const state = { ...stateOf({ ...sampleSurvey('inches-wide'), lines: [] }), plan: { stations } };
  const { pages } = fieldSheetView({ ...from, state, hull: { ...NO_HULL, lines }, unit: 'mm' });
  const cells = pages.flatMap((page) =>
    page.lines.flatMap(({ name }) => page.rows.map(({ station }) => `${name}/${station}`)),
  );
  expect(new Set(cells).size).toBe(16 * 25);
  expect(cells).toHaveLength(16 * 25);
});

test('parts stations and lines evenly over its pages, with fewer on the shorter paper', () => {
  const stations = Array.from({ length: 17 }, (_, i) => mm(80 * i, `${80 * i} mm`));
  const state = { ...stateOf({ ...sampleSurvey('inches-wide'), lines: [] }), plan: { stations } };
  const rows = (paper: 'A4' | 'Letter') =>
    fieldSheetView({ ...from, state, paper }).pages.map((page) => page.rows.length);
  expect(rows('A4')).toEqual([17]);
  expect(rows('Letter')).toEqual([9, 8]);
});

test('marks where a strake or fitting may be in the way', () => {
  const hull = {
    ...NO_HULL,
    features: [
      {
        id: 'f',
        feature: 'through-hull' as const,
        side: 'port' as const,
        offsetFrom: mm(400, '400 mm'),
        offsetTo: mm(500, '500 mm'),
        stationFrom: mm(290, '290 mm'),
        stationTo: mm(310, '310 mm'),
      },
    ],
  };
  const [page] = fieldSheetView({ ...from, hull }).pages;
  const marked = page?.rows.filter(({ cells }) => cells.some((cell) => cell !== ''));
  expect(marked).toEqual([{ station: '12', cells: ['', 'through-hull', '', '', '', ''] }]);
});

test('has rows for the straightedges to be laid across each side, with the stations of the diagonal', () => {
  const [across] = fieldSheetView(from).across;
  expect(across.map(({ side, lines }) => [side, lines.map(({ name }) => name)])).toEqual([
    ['PORT', ['P6in', 'P18in', 'P30in']],
    ['STARBOARD', ['S6in', 'S18in', 'S30in']],
  ]);
  expect(across[0]?.rows.map(({ lies, cells }) => [lies, cells.join(' ')])).toEqual([
    ['athwart at 3 in', '  '],
    ['athwart at 60 in', '  '],
    ['on the diagonal, 3 in on P6in to 60 in on P30in', 'at 3 at 31 1/2 at 60'],
    ['', '  '],
    ['', '  '],
  ]);
  const { body } = render(FieldSheet, { props: { view: fieldSheetView(from) } });
  expect(wordsOf(body)).toContain('Across the lines');
  const two = {
    ...sampleSurvey('inches-wide'),
    lines: sampleSurvey('inches-wide').lines.filter(({ offset }) => offset < 700),
  };
  expect(fieldSheetView({ ...from, state: stateOf(two) }).across).toEqual([]);
});

test('has room for what must be asked at the haul-out, and boxes to tick', () => {
  const { body } = render(FieldSheet, { props: { view: fieldSheetView(from) } });
  const words = wordsOf(body);
  for (const label of ['Names', 'Hauled', 'Support', 'Straightedge', 'Gauge', 'Held', 'Aft end']) {
    expect(words).toContain(label);
  }
  expect(words).toContain('Never under slings alone');
  expect(words.match(/☐/g)?.length).toBeGreaterThan(10);
  expect(body).not.toContain('style=');
});

const read = (text: string) => {
  const found = readCsv(text);
  if (!found.ok) throw new Error(JSON.stringify(found.faults.slice(0, 3)));
  return found.survey;
};

test('tells of a diagonal that was laid at which station it meets each line, as of one to be laid', () => {
  const story = readFileSync('fixtures/samples/stories/twisted-panel.csv', 'utf8');
  const state = stateOf(read(story));
  const [[port]] = fieldSheetView({ ...from, unit: 'mm', state }).across;
  expect(port?.rows.slice(3).map(({ lies, cells }) => [lies, cells.join(' ')])).toEqual([
    ['diagonal, 200 mm to 1400 mm', 'at 200 at 600 at 1000 at 1400'],
    ['diagonal, 1300 mm to 100 mm', 'at 1300 at 900 at 500 at 100'],
    ['', '   '],
    ['', '   '],
  ]);
});

test('has one table right across the keel of a bottom that is flat there, each column with its side', () => {
  const story = readFileSync('fixtures/samples/stories/twisted-skiff.csv', 'utf8');
  const view = fieldSheetView({ ...from, unit: 'mm', state: stateOf(read(story)) });
  expect(view.across.flat().map(({ side }) => side)).toEqual(['PORT TO STARBOARD']);
  expect(view.across[0]?.[0]?.lines.map(({ side, where }) => `${side}, ${where}`)).toEqual([
    'PORT, 450 mm from KEEL',
    'PORT, 300 mm from KEEL',
    'PORT, 150 mm from KEEL',
    'STARBOARD, 150 mm from KEEL',
    'STARBOARD, 300 mm from KEEL',
    'STARBOARD, 450 mm from KEEL',
  ]);
  const { body } = render(FieldSheet, { props: { view } });
  expect(wordsOf(body)).toContain('to PORT at ________ and to STARBOARD at ________');
});

test.each(['A4', 'Letter'] as const)(
  'parts sixteen lines across into tables and pages of %s, with every line and every row',
  (paper) => {
    const lines = (['port', 'starboard'] as const).flatMap((side) =>
      Array.from({ length: 8 }, (_, i) => ({
        id: `${side}${i}`,
        ids: [`${side}${i}`],
        name: `${side === 'port' ? 'P' : 'S'}${100 * (i + 1)}`,
        side,
        offset: mm(100 * (i + 1), `${100 * (i + 1)} mm`),
      })),
    );
    const survey = {
      ...sampleSurvey('inches-wide'),
      lines: [],
      conditions: { 'flat across the keel': 'yes' },
    };
    const view = fieldSheetView({
      ...from,
      state: stateOf(survey),
      hull: { ...NO_HULL, lines },
      unit: 'mm',
      paper,
    });
    const tables = view.across.flat();
    expect(tables.map(({ side }) => side)).toEqual([
      'PORT TO STARBOARD, lines P800 to P300',
      'PORT TO STARBOARD, lines P200 to S400',
      'PORT TO STARBOARD, lines S500 to S800',
    ]);
    expect(tables.flatMap((each) => each.lines)).toHaveLength(16);
    for (const { rows, lines: own } of tables) {
      expect(rows).toHaveLength(5);
      for (const { cells } of rows) expect(cells).toHaveLength(own.length);
    }
    expect(new Set(tables.map(({ key }) => key)).size).toBe(3);
    const many = acrossPages(
      tables.map((table) => ({ ...table, rows: Array(40).fill(table.rows[0]) })),
      paper,
    );
    expect(many.flat().reduce((sum, { rows }) => sum + rows.length, 0)).toBe(120);
    expect(many.length).toBeGreaterThan(3);
  },
);
