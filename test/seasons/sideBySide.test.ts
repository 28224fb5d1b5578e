import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare } from '../../src/seasons/compare.ts';
import { defaultPair } from '../../src/seasons/defaultPair.ts';
import { hullTrends } from '../../src/seasons/hullTrends.ts';
import { levelled } from '../../src/seasons/levelled.ts';
import { sameLines } from '../../src/seasons/sameLines.ts';
import { toldComparison, toldProfiles, toldTrends } from '../../src/seasons/told.ts';
import { lineOf } from '../survey/madeSurveys.ts';
import { assessed } from './support.ts';

describe('the two surveys that are compared unless somebody chooses', () => {
  const surveys = ['2024-04-01', '2025-04-01', '2026-04-01'].map((date) => ({ key: date, date }));

  it('are the newest and the one before it', () => {
    expect(defaultPair(surveys, [])).toEqual(['2025-04-01', '2026-04-01']);
  });

  it('are the newest and the first since the last repair', () => {
    const repairs = [{ date: '2024-03-01', what: 'filled' }];
    expect(defaultPair(surveys, repairs)).toEqual(['2024-04-01', '2026-04-01']);
  });

  it('are the newest and the one before where the newest is the first since the repair', () => {
    const repairs = [{ date: '2025-06-01', what: 'filled' }];
    expect(defaultPair(surveys, repairs)).toEqual(['2025-04-01', '2026-04-01']);
  });

  it('pass over a survey without a date where two have one', () => {
    const some = [...surveys, { key: 'undated' }];
    expect(defaultPair(some, [])).toEqual(['2025-04-01', '2026-04-01']);
    expect(defaultPair([surveys[0], { key: 'undated' }], [])).toEqual(['2024-04-01', 'undated']);
  });

  it('are none where there is one survey or none', () => {
    expect(defaultPair([], [])).toBeUndefined();
    expect(defaultPair([surveys[0]], [])).toBeUndefined();
  });
});

describe('lines over several surveys', () => {
  it('are one line where each lies within reach of the next, named as the last survey names it', () => {
    const at = (offset: number, name: string) => lineOf([], { id: name, name, offset });
    const followed = sameLines(
      [[at(440, 'A')], [at(455, 'B'), at(700, 'D')], [at(460, 'C')]],
      25.4,
    );
    expect(followed.map(({ line, seen }) => [line.name, seen.map(({ survey }) => survey)])).toEqual(
      [
        ['C', [0, 1, 2]],
        ['D', [1]],
      ],
    );
  });
});

describe('profiles laid on one another', () => {
  const points = (z: (x: number) => number, to = 1500) =>
    Array.from({ length: 31 }, (_, i) => ({ x: (to * i) / 30, z: z((to * i) / 30), u: 0.1 }));

  it('are the same whatever straight line was added to each', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: -0.01, max: 0.01, noNaN: true }),
        (a, b) => {
          const shape = (x: number) => Math.sin(x / 300);
          const plain = levelled([points(shape), points(shape, 1200)]);
          const tilted = levelled([points(shape), points((x) => shape(x) + a + b * x, 1200)]);
          tilted[1].forEach(({ z }, i) => expect(z).toBeCloseTo(plain[1][i].z, 9));
        },
      ),
    );
  });

  it('stay as they are where they have no stretch in common', () => {
    const fore = points(() => 1).map((p) => ({ ...p, x: p.x + 2000 }));
    const both = [points(() => 1), fore];
    expect(levelled(both)).toBe(both);
  });
});

describe('seasons as they are handed from one thread to another', () => {
  const surveys = ['season-2024.csv', 'season-2025.csv', 'season-2026.csv'].map(assessed);

  it('are plain: a structured clone is the same, and no reading goes along', () => {
    const told = [
      surveys.map(toldProfiles),
      toldComparison(compare(surveys[0], surveys[2]), 'mm'),
      toldTrends(hullTrends(surveys), surveys),
    ];
    expect(structuredClone(told)).toEqual(told);
    expect(JSON.stringify(told)).not.toContain('"readings"');
  });

  it('say in a comparison what moved, and name the survey that a trend leaves out', () => {
    const { lines } = toldComparison(compare(surveys[0], surveys[2]), 'mm');
    expect(lines.filter(({ words }) => words.word === 'Moved').map((l) => l.second.name)).toEqual([
      'P700',
    ]);
    const moved = {
      ...surveys[0],
      survey: { ...surveys[0].survey, support: [{ what: 'trailer' }] },
    };
    const all = [moved, surveys[1], surveys[2]];
    const { leftOut } = toldTrends(hullTrends(all), all);
    expect(leftOut).toEqual([
      { survey: 0, lines: ['P300', 'P700', 'S300', 'S700'], what: ['support'] },
    ]);
    const accepted = hullTrends(all, { accept: (survey) => (survey === moved ? ['support'] : []) });
    expect(accepted.leftOut).toEqual([]);
  });
});
