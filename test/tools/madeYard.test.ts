import { describe, expect, test } from 'vitest';

import { bookOf } from '../../src/book/book.ts';
import { parseId } from '../../src/book/id.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { standing } from '../../src/book/standing.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../src/survey/fold/surveyOf.ts';
import { surveysOf } from '../../src/survey/fold/surveysOf.ts';
import { madeHull, USUAL_PLAN } from '../../tools/madeYard.ts';
import { factsOf } from '../../web/store/summary.ts';

const plan = { ...USUAL_PLAN, surveys: 3, lines: 2, stations: 8 };
const hulls = Array.from({ length: 12 }, (_, nth) => madeHull(plan, nth));

const facts = hulls.map((entries) => factsOf(entries));

describe('a yard made up for measuring', () => {
  test('is the same for the same seed, and another for another', () => {
    expect(madeHull(plan, 3)).toEqual(hulls[3]);
    expect(madeHull({ ...plan, seed: 1 }, 3)).not.toEqual(hulls[3]);
  });

  test('has hulls of their own, each said in its name to be invented', () => {
    const names = facts.map(({ name }) => name);
    expect(new Set(names).size).toBe(hulls.length);
    for (const name of names) expect(name).toMatch(/\(invented\)$/);
    const keys = hulls.map(([{ _id }]) => {
      const id = parseId(_id);
      return id.ok && id.hull;
    });
    expect(new Set(keys).size).toBe(hulls.length);
  });

  test('states the readings of a survey as one entry, and lines and straightedge once', () => {
    for (const entries of hulls) {
      const count = (kind: string) => entries.filter((entry) => entry.kind === kind).length;
      expect(count('survey')).toBe(3);
      expect(count('import')).toBe(3);
      expect(count('line')).toBe(2);
      expect(count('straightedge')).toBe(1);
      expect(count('reading')).toBe(0);
    }
  });

  test('is read back whole: every reading of every survey, nothing set aside', () => {
    const read = readEntryFile(writeEntryFile(bookOf(hulls.flat())));
    expect(read.faults).toEqual([]);
    expect(read.book.entries.size).toBe(hulls.flat().length);
    const { standing: standers, struckRows } = standing(bookOf(hulls[0]));
    expect(hullOf(standers).setAside).toEqual([]);
    const { surveys } = surveysOf(standers);
    expect(surveys).toHaveLength(3);
    for (const { key } of surveys) {
      const { survey, setAside, disagreements } = surveyOf(standers, struckRows, key);
      expect([setAside, disagreements]).toEqual([[], []]);
      const readings = survey.lines.flatMap(({ placements }) =>
        placements.flatMap((placement) => placement.readings),
      );
      expect(readings).toHaveLength(2 * 8);
    }
  });

  test('has something of everything: verdicts, hulls that moved, that did not, that cannot be told', () => {
    const verdicts = new Set(facts.flatMap(({ verdict }) => verdict.map(({ word }) => word)));
    expect([...verdicts]).toEqual(expect.arrayContaining(['Hook', 'Rocker', 'Fair']));
    const moved = new Set(facts.map((each) => each.moved?.outcome));
    expect([...moved]).toEqual(expect.arrayContaining(['moved', 'not moved']));
  });

  test.each([{ surveys: 0 }, { lines: 1.5 }, { stations: 1 }])(
    'is refused where no hull can be made so: %o',
    (wrong) => {
      expect(() => madeHull({ ...plan, ...wrong }, 0)).toThrow(RangeError);
    },
  );
});
