import { describe, expect, test } from 'vitest';
import type { HullLine } from '../../../src/survey/fold/hullLinesOf.ts';
import type { Placement, Reading, Side } from '../../../src/survey/survey.ts';
import {
  lineProgress,
  readBack,
  rowBeside,
  rowToStart,
  stationRows,
  walkingOrder,
} from '../../../web/views/readingsView.ts';

const inch = (n: number) => ({ mm: n * 25.4, text: `${n} in` });
const reading = (station: number, parts: number, more: Partial<Reading> = {}): Reading => ({
  station: inch(station),
  gap: { mm: (parts * 25.4) / 32, text: `${parts}/32` },
  look: 1,
  source: `${station}/${parts}`,
  ...more,
});
const lay = (readings: readonly Reading[], more: Partial<Placement> = {}): Placement => ({
  id: 'lay',
  name: '1',
  repeat: 1,
  held: 'resting',
  division: 25.4 / 32,
  readings,
  voids: [],
  later: [],
  ...more,
});
const from = (placement: Placement | undefined, forward = true) =>
  stationRows({
    stations: [0, 3, 6].map(inch),
    placement,
    proposed: [{ station: inch(6), reason: 'strake', features: ['f'] }],
    forward,
    workUnit: 'in',
  });

describe('the rows of the readings table', () => {
  test('are the planned stations and those that something was done at, each once, from the transom forward', () => {
    const rows = from(
      lay([reading(3, 5), reading(4.5, 2, { station: { mm: 114.3, text: '114.3 mm' } })]),
    );
    expect(rows.map(({ label, state }) => [label, state])).toEqual([
      ['0', 'empty'],
      ['3', 'read'],
      ['114.3 mm', 'read'],
      ['6', 'empty'],
    ]);
  });

  test('3 in planned and 76.2 mm read are one station', () => {
    expect(from(lay([reading(3, 5, { station: { mm: 76.2, text: '76.2 mm' } })]))).toHaveLength(3);
  });

  test('turn round as a whole', () => {
    expect(from(undefined, false).map(({ label }) => label)).toEqual(['6', '3', '0']);
  });

  test('keep a contact apart from nothing, void and put off', () => {
    const rows = from(
      lay([reading(0, 0, { gap: { mm: 0, text: '0' } })], {
        voids: [{ station: inch(3), reason: 'through-hull', source: 'v' }],
        later: [{ station: inch(6), reason: 'a stand in the way', source: 'l' }],
      }),
    );
    expect(
      rows.map(({ state, reason, looks }) => [state, reason, looks.map((l) => l.text)]),
    ).toEqual([
      ['read', undefined, ['0']],
      ['void', 'through-hull', []],
      ['later', 'a stand in the way', []],
    ]);
  });

  test('a station put off and then read is read', () => {
    const later = [{ station: inch(3), reason: 'a stand in the way', source: 'l' }];
    expect(from(lay([reading(3, 5)], { later }))[1].state).toBe('read');
  });

  test('propose a void only where nothing was said', () => {
    expect(from(undefined).map(({ proposed }) => proposed)).toEqual([
      undefined,
      undefined,
      'strake',
    ]);
    expect(from(lay([reading(6, 1)]))[2].proposed).toBeUndefined();
  });

  test('show every look, and the gauge where it is another than the lay’s', () => {
    const second = reading(3, 6, { look: 2, division: 25.4 / 64 });
    const [, row] = from(lay([reading(3, 5), second]));
    expect(row.looks.map(({ text, gauge }) => [text, gauge])).toEqual([
      ['5/32', undefined],
      ['6/32', '1/64 in'],
    ]);
  });

  test('a gap in another unit carries its own', () => {
    const [, row] = from(lay([reading(3, 0, { gap: { mm: 2.4, text: '2.4' } })]));
    expect(row.looks[0].text).toBe('2.4 mm');
  });
});

describe('the cursor', () => {
  const rows = from(lay([reading(0, 1)]));

  test('goes to the next station in walking order and past the end to none', () => {
    expect(rowBeside(rows, rows[0].key, 1)).toBe(rows[1]);
    expect(rowBeside(rows, rows[2].key, 1)).toBeUndefined();
    expect(rowBeside(rows, rows[0].key, -1)).toBeUndefined();
  });

  test('starts where nothing was said yet, then where something was put off', () => {
    expect(rowToStart(rows)).toBe(rows[1]);
    const later = [3, 6].map((n) => ({ station: inch(n), reason: '', source: `l${n}` }));
    expect(rowToStart(from(lay([reading(0, 1)], { later })))?.label).toBe('3');
    expect(rowToStart([])).toBeUndefined();
  });
});

describe('a line’s end', () => {
  test('reads back the count, what is open and the largest gap', () => {
    const voids = [{ station: inch(6), reason: 'tab', source: 'v' }];
    expect(readBack(from(lay([reading(0, 2), reading(3, 5)], { voids })), 'resting', 'in')).toEqual(
      {
        read: 2,
        void: 1,
        later: 0,
        open: [],
        largest: { gap: '5/32 in', at: '3 in' },
        hints: [],
      },
    );
  });

  test('hints at a resting lay of four readings or more without a contact, and at no other', () => {
    const four = [0, 3, 6, 9].map((n) => reading(n, 2));
    expect(readBack(from(lay(four)), 'resting', 'in').hints).toEqual([
      'No zero on a resting lay: touching between stations, or slipped?',
    ]);
    expect(readBack(from(lay(four)), 'blocks', 'in').hints).toEqual([]);
    expect(readBack(from(lay([...four, reading(12, 0)])), 'resting', 'in').hints).toEqual([]);
    expect(readBack(from(lay(four.slice(1))), 'resting', 'in').hints).toEqual([]);
  });

  test('a line is done when every station that is not void was read or put off', () => {
    const voids = [{ station: inch(6), reason: 'tab', source: 'v' }];
    expect(lineProgress(from(lay([reading(0, 1)], { voids })))).toEqual({
      words: '1 of 2',
      done: false,
    });
    const later = [{ station: inch(3), reason: '', source: 'l' }];
    expect(lineProgress(from(lay([reading(0, 1)], { voids, later })))).toEqual({
      words: '1 of 2, 1 put off',
      done: true,
    });
    expect(lineProgress(from(undefined)).done).toBe(false);
  });
});

test('lines are walked from the keel outwards, one side and then the other, either first', () => {
  const line = (side: Side, offset: number): HullLine => ({
    id: `${side}${offset}`,
    ids: [],
    name: '',
    side,
    offset: { mm: offset, text: `${offset} mm` },
  });
  const lines = [
    line('starboard', 200),
    line('port', 600),
    line('centre', 0),
    line('port', 200),
    line('starboard', 600),
  ];
  const ids = (first: 'port' | 'starboard') => walkingOrder(lines, first).map(({ id }) => id);
  expect(ids('port')).toEqual(['centre0', 'port200', 'port600', 'starboard200', 'starboard600']);
  expect(ids('starboard').slice(1, 3)).toEqual(['starboard200', 'starboard600']);
});
