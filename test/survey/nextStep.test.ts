import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/survey/assess.ts';
import type { LineAssessment } from '../../src/survey/assessment.ts';
import { nextSteps } from '../../src/survey/nextStep.ts';
import { bump, lineOf, placementOf, stationsTo, surveyOf } from './madeSurveys.ts';

const fixed = { seed: 20261103, numRuns: 60 };

function lineWith(
  gap: (x: number) => number,
  {
    spacing = 100,
    division = 0.1,
    ...asked
  }: { spacing?: number; division?: number } & {
    repeatability?: number;
    resolution?: number;
  } = {},
): LineAssessment {
  const stations = stationsTo(1500, spacing);
  return assess(surveyOf([lineOf([placementOf(stations, gap, { division })])]), asked).lines[0];
}

function stepsFor(line: LineAssessment): readonly string[] {
  return nextSteps(line, 1.5, 'mm');
}

describe('the next step', () => {
  it('is given whenever a line is undecided, and never when something is proven', () => {
    const depth = fc.integer({ min: -300, max: 300 }).map((n) => n / 100);
    const width = fc.integer({ min: 150, max: 1400 });
    const u = fc.integer({ min: 2, max: 80 }).map((n) => n / 100);
    const seen = new Set<string>();
    fc.assert(
      fc.property(depth, width, u, (d, w, repeatability) => {
        const line = lineWith(bump(d, 750 - w / 2, 750 + w / 2), { repeatability });
        if (!line.outcome.ok) throw new Error('judged lines expected');
        const undecided = line.outcome.judgement.verdict.includes('undecided');
        seen.add(undecided ? 'undecided' : 'proven');
        expect(stepsFor(line).length > 0).toBe(undecided);
      }),
      fixed,
    );
    expect([...seen].sort()).toEqual(['proven', 'undecided']);
  });

  it('is to lay the edge again where two layings would do', () => {
    const steps = stepsFor(lineWith(bump(1, 200, 1300), { repeatability: 0.5 }));
    expect(steps).toContain(
      'Lay the edge again and read the line once more: two layings may be enough.',
    );
  });

  it('is to agree what counts where a departure lies at the tolerance', () => {
    const steps = stepsFor(lineWith(bump(1.5, 200, 1300), { repeatability: 0.2 }));
    expect(steps).toContain(
      'The deepest departure is so near the tolerance that repeats alone would hardly decide it: agree what counts, or treat the line as at its limit.',
    );
    expect(steps.join(' ')).not.toContain('layings');
  });

  it('is more stations, not repeats, where what lies between them is what is not known', () => {
    // Four stations on a straight bottom, read to 0.1 mm.
    const steps = stepsFor(lineWith(() => 0, { spacing: 500, repeatability: 0.05 }));
    expect(steps).toEqual([
      'Read more stations, halfway between those read: what lies between them is less certain than the readings themselves.',
    ]);
  });

  it('is to read closer where the departure is narrower than three stations', () => {
    // One reading stands out of a straight bottom: its neighbours are 300 mm off.
    const one = lineWith((x) => (x === 600 ? 1.7 : 0), { spacing: 300, repeatability: 0.2 });
    const closer = stepsFor(one).find((s) => s.startsWith('Read closer stations'));
    expect(closer).toMatch(
      /^Read closer stations from \d+ to \d+ mm: the departure there is narrower than 900 mm, which is the least that stations 300 mm apart can show\.$/,
    );
  });

  it('is not to read closer where the departure is wide, though little of it passes the tolerance', () => {
    // A bow over the whole line: a chord of 1500 mm shows it, and its top 400 mm pass the tolerance.
    const bow = (x: number) => 1.55 * (1 - ((x - 750) / 750) ** 2);
    const steps = stepsFor(lineWith(bow, { spacing: 150, repeatability: 0.2 }));
    expect(steps.length).toBeGreaterThan(0);
    expect(steps.join(' ')).not.toContain('Read closer');
  });

  it('is a finer gauge only where the division makes half or more of the uncertainty', () => {
    const finer =
      "Read with a finer gauge: half or more of each reading's uncertainty comes from its division.";
    const gap = bump(1.3, 200, 1300);
    const coarse = lineWith(gap, { division: 0.8, repeatability: 0.1 });
    expect(stepsFor(coarse)).toContain(finer);
    const fine = lineWith(bump(1.5, 200, 1300), { division: 0.1, repeatability: 0.06 });
    expect(stepsFor(fine).length).toBeGreaterThan(0);
    expect(stepsFor(fine)).not.toContain(finer);
    // The gauge that counts is the one the readings were judged with.
    const asked = lineWith(gap, { division: 0.8, resolution: 0.1, repeatability: 0.25 });
    expect(stepsFor(asked)).not.toContain(finer);
    expect(stepsFor(asked).length).toBeGreaterThan(0);
  });

  it('counts half a division as repeatability, the house default, as half or more', () => {
    for (const division of [0.3, 0.5, 0.7, 0.9, 25.4 / 32, 25.4 / 64]) {
      const line = lineWith(bump(1.5, 200, 1300), { division });
      expect(stepsFor(line).some((s) => s.startsWith('Read with a finer gauge'))).toBe(true);
    }
  });

  it('says how many stations are missing where too few were read', () => {
    expect(stepsFor(lineWith(() => 0, { spacing: 1500 }))).toEqual([
      'Read at least 2 more stations: 4 are the least a verdict can rest on, 10 or more are usual.',
    ]);
    expect(stepsFor(lineWith(() => 0, { spacing: 750 }))).toEqual([
      'Read at least 1 more station: 4 are the least a verdict can rest on, 10 or more are usual.',
    ]);
  });
});
