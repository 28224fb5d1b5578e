import { repeatabilityOf, REPEATS_NEEDED } from '../../src/survey/repeatability.ts';
import { describe, expect, it } from 'vitest';
import type { Repeatability } from '../../src/survey/assessment.ts';
import type { Placement } from '../../src/survey/survey.ts';
import {
  byPeriod,
  houseDivision,
  readingUncertainty,
  usableReadings,
} from '../../src/survey/usable.ts';
import { lineOf, placementOf, readingOf, sample, surveyOf, unsaid } from './madeSurveys.ts';

const none: Repeatability = { mm: 1e-12, from: 'stated' };

function only(placement: Placement, resolution?: number) {
  return usableReadings(placement, 'mm', resolution)[0];
}

describe('the uncertainty of one reading', () => {
  it('is the resolution over the root of 12: 0.29 of a division (JCGM 100:2008, F.2.2.1)', () => {
    // GUM F.2.2.1, from memory: "u = 0.29 δx", and a balance with 1 g as its last digit has u = 0.29 g.
    const u = readingUncertainty(only(placementOf([0], () => 1, { division: 1 })), none);
    expect(u).toBeCloseTo(0.29, 2);
    expect(u ** 2).toBeCloseTo(1 / 12, 12);
  });

  it('of a rule read to 1/32 in is 0.229 mm before any repeatability', () => {
    // 25.4 mm / 32 / √12, worked by hand: 0.79375 / 3.4641.
    const u = readingUncertainty(only(placementOf([0], () => 1, { division: 25.4 / 32 })), none);
    expect(u).toBeCloseTo(0.22914, 5);
  });

  it('takes a stated repeatability in by the root of the sum of squares', () => {
    // 0.4/√12 = 0.11547; with 0.15: √(0.013333 + 0.0225) = 0.189297, worked by hand.
    const reading = only(placementOf([0], () => 1, { division: 0.4 }));
    expect(readingUncertainty(reading, { mm: 0.15, from: 'stated' })).toBeCloseTo(0.189297, 6);
  });

  it('takes half of the very division a reading was read with where nothing is stated', () => {
    const placement = placementOf([0], () => 1, { division: 0.4 });
    const fine = { ...placement, readings: [readingOf(0, 1, { division: 0.1 })] };
    const byDefault: Repeatability = { mm: 0.05, from: 'house default' };
    // √(1/12 + 1/4) = 1/√3 of a division.
    expect(readingUncertainty(only(placement), byDefault)).toBeCloseTo(0.4 / Math.sqrt(3), 12);
    expect(readingUncertainty(only(fine), byDefault)).toBeCloseTo(0.1 / Math.sqrt(3), 12);
  });

  it('does not count rounding twice where repeats show the scatter, nor falls below rounding', () => {
    const reading = only(placementOf([0], () => 1, { division: 0.4 }));
    expect(readingUncertainty(reading, { mm: 0.3, from: 'repeats', dof: 12 })).toBe(0.3);
    const steady: Repeatability = { mm: 0, from: 'repeats', dof: 12 };
    expect(readingUncertainty(reading, steady)).toBeCloseTo(0.4 / Math.sqrt(12), 12);
  });

  it("divides an average's repeatability by the root of its count, and leaves its resolution", () => {
    const placement = placementOf([], () => 0, { division: 0.4 });
    const reading = only({ ...placement, readings: [readingOf(0, 1, { weight: 9 })] });
    const u = readingUncertainty(reading, { mm: 0.3, from: 'stated' });
    expect(u).toBeCloseTo(Math.hypot(0.4 / Math.sqrt(12), 0.1), 12);
  });
});

describe('usable readings', () => {
  it('take the division asked for, then the own, then the lay’s, then the house default', () => {
    const own = placementOf([], () => 0, { readings: [readingOf(0, 1, { division: 0.02 })] });
    expect(only(own, 0.25).division).toBe(0.25);
    expect(only(own).division).toBe(0.02);
    expect(only(placementOf([0], () => 1)).division).toBe(0.1);
    const bare = unsaid(
      placementOf([0], () => 1),
      'division',
    );
    expect(usableReadings(bare, 'mm')[0].division).toBe(0.5);
    expect(usableReadings(bare, 'in')[0].division).toBe(25.4 / 32);
    expect(houseDivision('in')).toBeCloseTo(0.79375, 12);
  });

  it('lose the height of the blocks', () => {
    const placement = placementOf([0], () => 19.4, { held: 'blocks', block: 20 });
    expect(only(placement).gap).toBeCloseTo(-0.6, 12);
    expect(only({ ...placement, held: 'resting' }).gap).toBe(19.4);
  });

  it('are corrected by half a division where the last leaf that went in was read', () => {
    const placement = placementOf([0], () => 1, { division: 0.2, reads: 'last leaf' });
    expect(only(placement).gap).toBeCloseTo(1.1, 12);
    expect(only({ ...placement, reads: 'nearest mark' }).gap).toBe(1);
  });

  it('heed the gauge of each reading before that of the lay', () => {
    const mixed = placementOf([], () => 0, {
      division: 0.2,
      reads: 'last leaf',
      readings: [readingOf(0, 1, { reads: 'nearest mark' }), readingOf(100, 1)],
    });
    expect(usableReadings(mixed, 'mm').map((r) => r.gap)).toEqual([1, 1.1]);
  });

  it('leave the survey as it was', () => {
    const placement = placementOf([200, 0, 100], (x) => x / 100, { held: 'blocks', block: 20 });
    const before = structuredClone(placement);
    usableReadings(placement, 'mm', 0.3);
    byPeriod(lineOf([placement]));
    expect(placement).toEqual(before);
  });
});

describe('the repeatability of a survey', () => {
  const stations = Array.from({ length: 12 }, (_, i) => i * 100);
  const first = placementOf(stations, () => 1);
  /** One station in four out by 0.4: with offset and tilt taken off, something is left. */
  const again = placementOf(stations, (x) => (x % 400 === 0 ? 1.4 : 1), {
    id: 'P450/1/2',
    repeat: 2,
  });

  it('is found from repeats where 10 degrees of freedom or more speak, and goes before a stated one', () => {
    const found = repeatabilityOf(surveyOf([lineOf([first, again])]), 0.9, undefined);
    expect(found.from).toBe('repeats');
    // 12 stations twice, less 12 heights, an offset and a tilt.
    expect(found.dof).toBe(REPEATS_NEEDED);
    expect(found.mm).toBeGreaterThan(0.05);
    expect(found.mm).toBeLessThan(0.4);
  });

  it('is the stated one where one degree of freedom is missing', () => {
    const short = { ...again, readings: again.readings.slice(1) };
    const survey = surveyOf([lineOf([first, short])]);
    expect(repeatabilityOf(survey, 0.9, undefined)).toEqual({ mm: 0.9, from: 'stated' });
  });

  it('is half of the finest division where nothing is known, and says so', () => {
    const coarse = placementOf([0, 100], () => 1, { id: 'P450/2/1', division: 0.5 });
    const survey = surveyOf([lineOf([placementOf([0], () => 1), coarse])]);
    expect(repeatabilityOf(survey, undefined, undefined)).toEqual({
      mm: 0.05,
      from: 'house default',
    });
    expect(repeatabilityOf(survey, undefined, 0.8).mm).toBeCloseTo(0.4, 12);
    expect(repeatabilityOf(surveyOf([], { workUnit: 'in' }), undefined, undefined).mm).toBeCloseTo(
      25.4 / 64,
      12,
    );
  });

  it('pools the lines: two with half the repeats each are enough together', () => {
    const half = (from: number): Placement[] =>
      [first, again].map((p) => ({ ...p, readings: p.readings.slice(from, from + 7) }));
    const survey = surveyOf([
      lineOf(half(0)),
      lineOf(half(5), { id: 'S450', name: 'S450', side: 'starboard' }),
    ]);
    expect(repeatabilityOf(survey, undefined, undefined)).toMatchObject({
      from: 'repeats',
      dof: 10,
    });
  });

  it('never takes layings before and after a move of the support for repeats of each other', () => {
    const moved = surveyOf([
      lineOf([
        { ...first, supportPeriod: 0 },
        { ...again, supportPeriod: 1 },
      ]),
    ]);
    expect(repeatabilityOf(moved, undefined, undefined).from).toBe('house default');
  });

  it('of the sample with layings done twice comes from them', () => {
    const { from, dof, mm } = repeatabilityOf(sample('two-placements.csv'), undefined, undefined);
    expect({ from, dof }).toEqual({ from: 'repeats', dof: 24 });
    // Scatter of a gauge read to 0.25 mm cannot be less than its rounding, 0.25/√12 = 0.07.
    expect(mm).toBeGreaterThan(0.07);
    expect(mm).toBeLessThan(0.25);
  });
});

describe('periods of the support', () => {
  it('part the placements of a line, earliest first; without any, all belong together', () => {
    const late = placementOf([0], () => 1, { id: 'b', supportPeriod: 2 });
    const early = placementOf([0], () => 1, { id: 'a', supportPeriod: 0 });
    const ids = (line: readonly Placement[]) =>
      byPeriod(lineOf(line)).map((g) => g.map((p) => p.id));
    expect(ids([late, early])).toEqual([['a'], ['b']]);
    expect(ids([unsaid(late, 'supportPeriod'), early])).toEqual([['a', 'b']]);
  });
});
