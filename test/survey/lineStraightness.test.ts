import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import examples from '../../fixtures/reference/straightness_examples.json';
import { assess } from '../../src/survey/assess.ts';
import { lineStraightness } from '../../src/survey/lineStraightness.ts';
import { straightnessWords } from '../../src/survey/straightnessWords.ts';
import { bump, lineOf, placementOf, sample, stationsTo, surveyOf } from './madeSurveys.ts';

function ofReadings(stations: readonly number[], gap: (x: number) => number, limit = 1500) {
  const line = lineOf([placementOf(stations, gap)]);
  const found = lineStraightness(assess(surveyOf([line]), { limit }).lines[0]);
  if (!found) throw new Error('straightness expected');
  return found;
}

describe('straightness of a line’s readings', () => {
  it('is that of the constructed profile in the reference, on both reference lines', () => {
    // fixtures/reference/straightness_examples.json: the hook-like profile with exact results; a gap is minus
    // a height, and an offset and a tilt of the edge drop out.
    const [, , , , { x_mm: x, y_mm: y, computed_here: wanted }] = examples;
    if (!x || !y || !wanted?.MZLI) throw new Error('the fixture lacks its profile');
    const found = ofReadings(x, (at) => 3 + 0.002 * at - y[x.indexOf(at)]);
    expect(found.STRt).toBeCloseTo(wanted.LSLI.STRt, 9);
    expect(found.STRp).toBeCloseTo(wanted.LSLI.STRp, 9);
    expect(found.STRv).toBeCloseTo(wanted.LSLI.STRv, 9);
    expect(found.STRq).toBeCloseTo(wanted.LSLI.STRq, 9);
    expect(found.minimumZone).toBeCloseTo(wanted.MZLI.STRt, 9);
  });

  it('is of readings within the judged stretch alone', () => {
    const wild = ofReadings(stationsTo(2000, 100), (x) => (x > 1500 ? 7 : 0.1), 1500);
    expect(wild).toMatchObject({ readings: 16, from: 0, to: 1500, placements: 1 });
    expect(wild.STRt).toBeCloseTo(0, 9);
  });

  it('counts every placement, brought into one datum', () => {
    const found = lineStraightness(assess(sample('two-placements.csv')).lines[0]);
    expect(found).toMatchObject({ readings: 31, placements: 3, from: 0, to: 1500 });
    // The placements' own offsets and tilts, some 6 mm, are gone.
    expect(found?.STRt).toBeLessThan(4.5);
  });

  it('is never narrower on the least-squares line than in the minimum zone, and p + v make t', () => {
    const gaps = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 8, maxLength: 16 });
    fc.assert(
      fc.property(gaps, (tenths) => {
        const stations = tenths.map((_, i) => 100 * i);
        const found = ofReadings(stations, (x) => tenths[x / 100] / 10);
        expect(found.minimumZone).toBeLessThanOrEqual(found.STRt + 1e-9);
        expect(found.STRp + found.STRv).toBeCloseTo(found.STRt, 12);
        expect(found.STRq).toBeLessThanOrEqual(Math.max(found.STRp, found.STRv) + 1e-12);
      }),
      { seed: 20261125, numRuns: 30 },
    );
  });

  it('is not given for a line that was not judged', () => {
    const few = assess(surveyOf([lineOf([placementOf([0, 500, 900], () => 0)])]));
    expect(lineStraightness(few.lines[0])).toBeUndefined();
  });
});

describe('straightness in words', () => {
  const found = ofReadings(stationsTo(1500, 100), bump(2.34, 0, 1500));

  it('has units, no more digits than one reading bears, and says what it is of', () => {
    const { rows, note } = straightnessWords(found, 'mm');
    expect(rows.map(({ symbol }) => symbol)).toEqual(['STRt', 'STRp', 'STRv', 'STRq', 'STRt (MZ)']);
    for (const { value } of rows) expect(value).toMatch(/^\d\.\d mm$/);
    expect(rows[0].value).toBe(`${found.STRt.toFixed(1)} mm`);
    expect(note).toBe(
      'ISO 12780-1, of the 16 readings from 0 to 1500 mm as they stand, each ± 0.2 mm: not of the surface between them.',
    );
  });

  it('is in fractions of an inch for those who work in them, and tells of several placements', () => {
    const { rows, note } = straightnessWords({ ...found, placements: 2 }, 'in');
    for (const { value } of rows) expect(value).toMatch(/^(\d+\/\d+|0) in$/);
    expect(note).toMatch(/The 2 placements are brought into one datum by the fit\.$/);
  });
});
