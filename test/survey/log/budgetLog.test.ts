import { describe, expect, test } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { lineBudget } from '../../../src/survey/budget.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { lineStraightness } from '../../../src/survey/lineStraightness.ts';
import { readLog } from '../../../src/survey/log/readLog.ts';
import { madeLog } from './madeLogs.ts';

describe('a log is taken apart as the same readings one by one', () => {
  test.each([
    ['a station each', madeLog({ rows: 3000 })],
    ['ten rows a station, averaged with their weight', madeLog({ rows: 3000, each: 10 })],
  ])('%s: budget and straightness agree, though not every reading is drawn', (_, text) => {
    const log = readLog(new TextEncoder().encode(text));
    const csv = readCsv(text);
    if (!log?.ok || !csv.ok) throw new Error('both readers expected to take it');
    const [one, other] = [log.survey, csv.survey].map((survey) => {
      const all = assess(survey);
      return { results: lineBudget(all.lines[0], all), straight: lineStraightness(all.lines[0]) };
    });
    expect(one.results.length).toBeGreaterThan(1);
    expect(one.results.map((result) => result.of)).toEqual(other.results.map((r) => r.of));
    one.results.forEach(({ parts, u, value }, i) => {
      const same = other.results[i];
      expect(u).toBeCloseTo(same.u, 6);
      expect(value).toBeCloseTo(same.value, 6);
      parts.forEach(({ contribution, share, basis }, k) => {
        expect(contribution).toBeCloseTo(same.parts[k].contribution, 6);
        expect([share, basis]).toEqual([same.parts[k].share, same.parts[k].basis]);
      });
    });
    expect(one.straight?.readings).toBe(other.straight?.readings);
    for (const name of ['STRt', 'STRp', 'STRv', 'STRq', 'minimumZone'] as const) {
      expect(one.straight?.[name]).toBeCloseTo(Number(other.straight?.[name]), 6);
    }
  });
});
