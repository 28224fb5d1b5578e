import { describe, expect, it } from 'vitest';

import type { BookLine } from '../../../web/views/bookView.ts';
import { bookSheetView, type BookSheetFrom } from '../../../web/views/bookSheetView.ts';
import { strikeWords } from '../../../web/views/strikeWords.ts';

const note = {
  by: 'Kim (invented)',
  device: 'Tablet (dev1)',
  day: '2026-05-04',
  time: '09:35',
  undone: false,
};
function line(n: number, more: Partial<BookLine> = {}): BookLine {
  return {
    key: `k${n}`,
    id: `k${n}`,
    day: '2026-05-04',
    time: '09:30',
    instant: n,
    survey: '0',
    group: 'readings',
    words: `entry ${n}`,
    rowCount: 0,
    rows: (from, to) => Array.from({ length: to - from }, (_, i) => `row ${from + i}`),
    by: 'Jo (invented)',
    device: 'Tablet (dev1)',
    replaces: [],
    struck: [],
    struckRows: new Map(),
    setAside: [],
    doubts: [],
    text: '',
    ...more,
  };
}
const from: BookSheetFrom = {
  paper: 'A4',
  hull: 'Plover (invented)',
  invented: false,
  lines: [line(1), line(2, { day: '2026-05-05' })],
  total: 2,
  title: () => 'The hull itself',
  only: '',
  loose: [],
  printed: '2026-05-06',
};

describe('the book on paper', () => {
  it('says at the head of every page whose it is, and whether it is the whole book', () => {
    expect(bookSheetView(from).head).toBe('Plover (invented) · field book, printed 2026-05-06');
    const part = bookSheetView({ ...from, only: 'entries by Jo', total: 1200 });
    expect(part.head).toMatch(/, in part$/);
    expect(part.count).toBe('2 of 1\u202f200 entries.');
  });

  it('goes by day, each with its survey', () => {
    expect(bookSheetView(from).parts.map(({ day, title }) => [day, title])).toEqual([
      ['2026-05-04', 'The hull itself'],
      ['2026-05-05', 'The hull itself'],
    ]);
  });

  it('prints every row of a short entry, and of a long file those that were struck', () => {
    const { rowsOf } = bookSheetView(from);
    const struckRows = new Map([
      [70, [note]],
      [2, [note]],
    ]);
    expect(rowsOf(line(1, { rowCount: 3 })).map(({ words }) => words)).toEqual([
      'row 0',
      'row 1',
      'row 2',
    ]);
    expect(rowsOf(line(1, { rowCount: 500, struckRows }))).toEqual([
      { row: 2, words: 'row 2', struck: [note] },
      { row: 70, words: 'row 70', struck: [note] },
    ]);
  });
});

describe('a strike', () => {
  it('is told with who, when, why and what stands instead', () => {
    expect(strikeWords({ ...note, why: 'misread', instead: 'P18in, 30 in: 5/32 in' })).toBe(
      'Struck by Kim (invented), 2026-05-04 09:35, Tablet (dev1): misread. In its place: P18in, 30 in: 5/32 in.',
    );
    expect(strikeWords({ ...note, undone: true })).toBe(
      'Taken back by Kim (invented), 2026-05-04 09:35, Tablet (dev1). Nothing stands in its place.',
    );
  });
});
