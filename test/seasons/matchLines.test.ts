import { describe, expect, it } from 'vitest';
import { matchLines } from '../../src/seasons/matchLines.ts';
import { lineOf } from '../survey/madeSurveys.ts';
import type { Line } from '../../src/survey/survey.ts';

const line = (name: string, offset: number, more: Partial<Line> = {}): Line =>
  lineOf([], { id: name, name, offset, ...more });

const names = ({ matched, onlyFirst, onlySecond }: ReturnType<typeof matchLines>) => ({
  matched: matched.map(({ first, second, by }) => [first.name, second.name, by]),
  onlyFirst: onlyFirst.map((l) => l.name),
  onlySecond: onlySecond.map((l) => l.name),
});

describe('which lines of two surveys are one', () => {
  it('are those of one side within 1 in, the nearest first, and no others', () => {
    const first = [line('a', 450), line('b', 470), line('c', 700)];
    const second = [line('d', 452), line('e', 475.4), line('f', 725.5)];
    expect(names(matchLines(first, second))).toEqual({
      matched: [
        ['a', 'd', 'offset'],
        ['b', 'e', 'offset'],
      ],
      onlyFirst: ['c'],
      onlySecond: ['f'],
    });
    expect(names(matchLines(first, second, 26)).matched).toHaveLength(3);
  });

  it('takes 17 in and 18 in for one line, an inch being the width', () => {
    expect(matchLines([line('a', 17 * 25.4)], [line('b', 18 * 25.4)]).matched).toHaveLength(1);
  });

  it('never pairs port with starboard', () => {
    const { matched } = matchLines([line('a', 450)], [line('b', 450, { side: 'starboard' })]);
    expect(matched).toEqual([]);
  });

  it('goes by the landmark before the offset, however it is spaced or capitalised', () => {
    const first = [line('a', 450, { landmark: 'Inner  strake' }), line('b', 600)];
    const second = [line('c', 452), line('d', 640, { landmark: 'inner strake' })];
    expect(names(matchLines(first, second)).matched).toEqual([['a', 'd', 'landmark']]);
  });

  it('pairs the same lines when the surveys are exchanged', () => {
    const first = [line('a', 100), line('b', 110), line('c', 125)];
    const second = [line('d', 105), line('e', 120)];
    const back = matchLines(second, first).matched.map(({ first: f, second: s }) => [
      s.name,
      f.name,
    ]);
    const there = matchLines(first, second).matched.map(({ first: f, second: s }) => [
      f.name,
      s.name,
    ]);
    expect(back.sort()).toEqual(there.sort());
  });

  it('throws RangeError on a negative width', () => {
    expect(() => matchLines([], [], -1)).toThrow(RangeError);
  });
});
