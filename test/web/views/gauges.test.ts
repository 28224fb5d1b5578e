import { describe, expect, test } from 'vitest';
import type { Placement } from '../../../src/survey/survey.ts';
import { BURST_WITHIN, pressIs } from '../../../web/views/burst.ts';
import { gaugeInHand } from '../../../web/views/gaugeView.ts';
import { readGap } from '../../../web/views/readingText.ts';
import { stationRows } from '../../../web/views/readingsView.ts';
import { gaugeBody } from '../../../web/views/setupView.ts';
import { UNIT_KEPT, unitDoubt } from '../../../web/views/unitDoubt.ts';

const gauge = (division: string) => {
  const body = gaugeBody(division, 'nearest mark');
  if (body === undefined) throw new Error(division);
  return gaugeInHand({ id: division, ...body }, 'in');
};

describe('a value as a digital gauge types it', () => {
  test.each([
    ['2.54mm', 2.54],
    ['2.54 MM ', 2.54],
    ['0.100 in', 2.54],
    ['+0.10IN', 2.54],
    ['+0.100', 2.54],
    ['0,100', 2.54],
    ['2,540 mm', 2.54],
    ['0.100\r\n', 2.54],
  ])('%j is a gap', (text, mm) => {
    const read = readGap(text, gauge('0.001 in'), {}, 'in');
    expect(read.is === 'gap' && read.gap.mm).toBeCloseTo(mm, 9);
  });

  test('a decimal comma is kept as a point', () => {
    expect(readGap('2,5', gauge('0.1 mm'), {}, 'mm')).toMatchObject({ gap: { text: '2.5' } });
  });

  test('a sign without a figure, two signs and two marks are refused', () => {
    for (const text of ['+', '++1', '1,2,3', '1.2,3', '+in'])
      expect(readGap(text, gauge('0.001 in'), {}, 'in').is, text).toBe('refused');
  });
});

describe('an Enter', () => {
  const last = { at: 1000, cell: 'a' };
  test('that comes too soon is doubled where nothing was typed, else the end of a burst', () => {
    expect(pressIs(last, 1000 + BURST_WITHIN - 1, ' ')).toBe('doubled');
    expect(pressIs(last, 1000 + BURST_WITHIN - 1, '2.54')).toBe('burst');
  });
  test('that takes its time is a person’s, as is the first, and one from before the clock was set', () => {
    expect(pressIs(last, 1000 + BURST_WITHIN, '2.54')).toBe('own');
    expect(pressIs(undefined, 1000, '2.54')).toBe('own');
    expect(pressIs(last, 900, '')).toBe('own');
  });
});

describe('a reading that may be of the other unit', () => {
  const rows = (gaps: readonly (string | undefined)[], unit: 'mm' | 'in' = 'mm', note = '') => {
    const readings = gaps.flatMap((text, i) => {
      if (text === undefined) return [];
      const read = readGap(text, gaugeInHand({ id: 'g', name: 'g', unit }, unit), {}, unit);
      if (read.is !== 'gap') throw new Error(text);
      const station = { mm: i * 100, text: `${i * 100} mm` };
      return [{ station, gap: read.gap, look: 1, source: `${i}`, ...(note && { note }) }];
    });
    const placement: Placement = {
      ...{ id: 'lay', name: '1', repeat: 1, held: 'resting', voids: [], later: [] },
      readings,
    };
    return stationRows({ stations: [], placement, proposed: [], forward: true, workUnit: unit });
  };
  const doubts = (all: ReturnType<typeof rows>, unit: 'mm' | 'in' = 'mm') =>
    all.map((row) => unitDoubt(all, row, unit)?.other);

  test('is pointed out about a 25th of its neighbours, with the same figure in the other unit', () => {
    expect(doubts(rows(['2.3', '2.5', '0.1', '2.6', '2.4']))).toEqual([
      undefined,
      undefined,
      '0.1 in',
      undefined,
      undefined,
    ]);
  });

  test('is pointed out about 25 times its neighbours', () => {
    const found = rows(['0.02', '0.025', '0.5', '0.02'], 'in');
    expect(doubts(found, 'in')).toEqual([undefined, undefined, '0.5 mm', undefined]);
    expect(unitDoubt(found, found[2], 'in')?.mm).toBeCloseTo(0.5, 12);
  });

  test('is not doubted at 10 or 60 times, beside one neighbour alone, nor beside some that differ', () => {
    expect(doubts(rows(['0.25', '0.25', '2.5', '0.25']))).toEqual(Array(4).fill(undefined));
    expect(doubts(rows(['0.2', '0.2', '12', '0.2']))).toEqual(Array(4).fill(undefined));
    expect(doubts(rows(['2.5', '0.1']))).toEqual(Array(2).fill(undefined));
    expect(doubts(rows(['0', '0.3', '0.1', '2.5', '2.5']))).toEqual(Array(5).fill(undefined));
  });

  test('is not doubted once somebody has looked, nor where it is a fraction or a contact', () => {
    expect(doubts(rows(['2.3', '2.5', '0.1', '2.6'], 'mm', UNIT_KEPT))).toEqual(
      Array(4).fill(undefined),
    );
    expect(doubts(rows(['1/64', '1/64', '25/64', '1/64'], 'in'), 'in')).toEqual(
      Array(4).fill(undefined),
    );
    expect(doubts(rows(['2.3', '2.5', '0', '2.6']))).toEqual(Array(4).fill(undefined));
  });
});
