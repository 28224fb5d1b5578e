import { describe, expect, it } from 'vitest';

import { bookOf, entriesOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { standing } from '../../../src/book/standing.ts';
import { doubtsOf } from '../../../src/survey/fold/doubtsOf.ts';
import { dayAndTime } from '../../../web/views/dayAndTime.ts';
import { deviceWords } from '../../../web/views/deviceWords.ts';
import {
  bookParts,
  choicesOf,
  filteredLines,
  filterWords,
  surveyTitles,
  WHOLE_BOOK,
} from '../../../web/views/bookParts.ts';
import { bookLines, looseNotes, type BookLine } from '../../../web/views/bookView.ts';

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
const gap = (n: number, text: string, mm: number, more: Partial<Entry> = {}) => {
  const station = inches('30 in', 762);
  const body = { placement: id(3), station, gap: inches(text, mm), look: 1 };
  return entry(n, 'reading', body, more);
};

const line = entry(
  1,
  'line',
  { side: 'port', offset: inches('18 in', 457.2) },
  {
    _id: id(1, '0'),
  },
);
const survey = entry(2, 'survey', {
  date: '2026-05-04',
  place: 'north shed',
  workUnit: 'in',
  measured: 'hand',
});
const lay = entry(3, 'placement', { line: id(1, '0'), name: '1', repeat: 1, held: 'resting' });
const wrong = gap(4, '9/32', 7.14375);
const right = gap(5, '5/32', 3.96875, {
  strikes: [{ entry: id(4) }],
  why: 'misread the scale',
  by: 'Kim (invented)',
});
const base = [line, survey, lay, wrong, right];

function linesOf(entries: readonly Entry[], offset = 0): readonly BookLine[] {
  const stands = standing(bookOf(entries));
  const { disagreements, setAside } = doubtsOf(stands);
  return bookLines({
    entries,
    standing: stands,
    disagreements,
    setAside: [...stands.setAside, ...setAside],
    offset: () => offset,
  });
}
const of = (lines: readonly BookLine[], n: number, own = SURVEY) => {
  const found = lines.find((each) => each.id === id(n, own));
  if (found === undefined) throw new Error(`no line ${n}`);
  return found;
};

describe('the book', () => {
  it('has a line for every entry, in plain words, with who, when and where', () => {
    const lines = linesOf(base);
    expect(lines.map(({ words }) => words)).toEqual([
      'Line P18in: port, 18 in from the keel',
      'The survey: 2026-05-04, north shed, in inches, by hand',
      'Edge laid on P18in, laying 1: resting',
      'P18in, 30 in: 9/32 in',
      'P18in, 30 in: 5/32 in',
    ]);
    expect(of(lines, 4)).toMatchObject({
      by: 'Jo (invented)',
      device: 'Tablet (dev1)',
      day: '2026-05-04',
      time: '09:34',
    });
  });

  it('keeps a struck figure, with who struck it, when, why, and what stands instead', () => {
    const lines = linesOf(base);
    expect(of(lines, 4).struck).toEqual([
      {
        by: 'Kim (invented)',
        device: 'Tablet (dev1)',
        day: '2026-05-04',
        time: '09:35',
        undone: false,
        why: 'misread the scale',
        instead: 'P18in, 30 in: 5/32 in',
      },
    ]);
    expect(of(lines, 5)).toMatchObject({ struck: [], replaces: ['P18in, 30 in: 9/32 in'] });
  });

  it('tells an undo, and that nothing stands in its place', () => {
    const undo = entry(6, 'strike', { act: 'undo' }, { strikes: [{ entry: id(5) }] });
    const lines = linesOf([...base, undo]);
    const [note] = of(lines, 5).struck;
    expect(note.undone).toBe(true);
    expect(note).not.toHaveProperty('instead');
    expect(of(lines, 4).struck).toEqual([]);
    expect(of(lines, 6).words).toBe('Undone: P18in, 30 in: 5/32 in');
  });

  it('marks two standing entries of the same thing, and counts both', () => {
    const twin = gap(7, '7/32', 5.55625, { by: 'Kim (invented)' });
    const lines = linesOf([...base, twin]);
    for (const n of [5, 7]) {
      expect(of(lines, n).doubts).toEqual([
        'P18in, placement 1, station 30 in: 2 readings of look 1',
      ]);
    }
  });

  it('shows both contents of one id, set aside, and what hangs on nothing', () => {
    const twin = { ...lay, body: { ...(lay.body as object), held: 'blocks' } };
    const lines = linesOf([...base, twin]);
    const both = lines.filter((each) => each.id === lay._id);
    expect(both.map(({ setAside }) => setAside)).toEqual([
      ['its id came with two contents'],
      ['its id came with two contents'],
    ]);
    expect(new Set(lines.map(({ key }) => key)).size).toBe(lines.length);
    expect(of(lines, 5).setAside).toEqual(['its placement does not stand or has not arrived']);
  });

  it('never drops a kind that it does not know', () => {
    const lines = linesOf([...base, entry(8, 'tide', { low: 3 })]);
    expect(of(lines, 8)).toMatchObject({ group: 'other', raw: '{"low":3}' });
  });

  it('tells the struck rows of a file, and by whom', () => {
    const columns = ['act', 'placement', 'station', 'station text', 'gap', 'gap text', 'look'];
    const rows = [
      ['reading', 0, 0, '0 in', 0, '0 in', 1],
      ['reading', 0, 76.2, '3 in', 25.4, '1 in', 1],
    ];
    const rest = { mapping: {}, units: {}, placements: [id(3)], count: 2 };
    const file = entry(8, 'import', { ...rest, columns, rows });
    const strike = entry(9, 'strike', { act: 'strike' }, { strikes: [{ entry: id(8), row: 1 }] });
    const lines = linesOf([...base, file, strike]);
    expect([...of(lines, 8).struckRows.keys()]).toEqual([1]);
    expect(of(lines, 8).struck).toEqual([]);
    expect(of(lines, 8).rows(1, 2)).toEqual(['P18in, 3 in: 1 in']);
    expect(of(lines, 9).words).toBe('Struck: P18in, 3 in: 1 in');
  });

  it('lists what is kept and is no entry', () => {
    const setAside = [{ id: 'broken', reason: 'kind: expected a value' }];
    expect(looseNotes({ entries: base, setAside })).toEqual(setAside);
  });
});

describe('the order of the book', () => {
  it('does not depend on the order of arrival', () => {
    expect(linesOf(base.toReversed()).map(({ key }) => key)).toEqual(
      linesOf(base).map(({ key }) => key),
    );
    expect(linesOf(entriesOf(bookOf(base)))).toHaveLength(base.length);
  });

  it('goes by day, each survey of a day for itself, at the time on the wall', () => {
    const later = gap(60 * 15, '1', 25.4);
    const hullNote = entry(6, 'note', { text: 'wet' }, { _id: id(6, '0') });
    const after = gap(8, '1 in', 25.4);
    const parts = bookParts(linesOf([...base, hullNote, after, later]));
    expect(parts.map(({ day, survey: own, lines }) => [day, own, lines.length])).toEqual([
      ['2026-05-04', '0', 2],
      ['2026-05-04', SURVEY, 5],
      ['2026-05-05', SURVEY, 1],
    ]);
    const west = bookParts(linesOf([...base, hullNote, after, later], -600));
    expect(west.map(({ day }) => day)).toEqual(['2026-05-03', '2026-05-03', '2026-05-04']);
  });
});

describe('the filter of the book', () => {
  const lines = linesOf([...base, entry(8, 'tide', { low: 3 })]);
  const found = (filter: object) =>
    filteredLines(lines, { ...WHOLE_BOOK, ...filter }).map(({ words }) => words);

  it('lets everything through where nothing is chosen', () => {
    expect(found({})).toHaveLength(lines.length);
  });

  it('goes by survey, person, kind, what was struck, and words', () => {
    expect(found({ survey: '0' })).toEqual(['Line P18in: port, 18 in from the keel']);
    expect(found({ by: 'Kim (invented)' })).toEqual(['P18in, 30 in: 5/32 in']);
    expect(found({ group: 'readings' })).toHaveLength(3);
    expect(found({ struckOnly: true })).toEqual(['P18in, 30 in: 9/32 in']);
    expect(found({ search: 'MISREAD  p18' })).toEqual(['P18in, 30 in: 5/32 in']);
  });

  it('says itself in words, for the head of a page', () => {
    const titles = surveyTitles([
      { key: SURVEY, date: '2026-05-04', place: 'north shed', entries: 4 },
    ]);
    const filter = { ...WHOLE_BOOK, survey: SURVEY, by: 'Jo', struckOnly: true, search: ' 9/32 ' };
    expect(filterWords(filter, titles)).toBe(
      'Survey of 2026-05-04, north shed; entries by Jo; only what was struck; with “9/32”',
    );
    expect(filterWords(WHOLE_BOOK, titles)).toBe('');
    expect(titles('0')).toBe('The hull itself');
    expect(titles('zzzzzzzzzzzz')).toBe('Survey zzzzzzzzzzzz, struck or not arrived');
  });

  it('offers each person with how many lines are theirs', () => {
    expect(choicesOf(lines, ({ by }) => by)).toEqual([
      { value: 'Jo (invented)', count: 5 },
      { value: 'Kim (invented)', count: 1 },
    ]);
  });
});

describe('who, when and where', () => {
  it('is told at the time on the wall, across midnight', () => {
    expect(dayAndTime('2026-05-04T23:30:00Z', () => 120)).toMatchObject({
      day: '2026-05-05',
      time: '01:30',
    });
    expect(() => dayAndTime('yesterday', () => 0)).toThrow(RangeError);
  });

  it('names a device, and tells two of one name apart', () => {
    expect(deviceWords('Tablet dev1ce000000')).toBe('Tablet (dev1)');
    expect(deviceWords('Device dev1 dev1ce000000')).toBe('Device dev1');
    expect(deviceWords('dev1ce000000')).toBe('Device dev1');
    expect(deviceWords('tablet 1')).toBe('tablet 1');
  });
});
