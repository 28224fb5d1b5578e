import { describe, expect, test } from 'vitest';
import { beginsAt } from '../../../src/running/planing/beginsAt.ts';
import { celano } from '../../../src/running/planing/celano.ts';
import { equilibrium } from '../../../src/running/planing/equilibrium.ts';
import { figure18 } from '../../../src/running/planing/figure18.ts';
import { limitBand, stabilityOf } from '../../../src/running/planing/porpoising.ts';
import { trimCurve } from '../../../src/running/planing/trimCurve.ts';
import { reference, referenceRows } from '../reference.ts';
import { paperBoat, SMALL } from './boats.ts';

const chart = referenceRows('planing/savitsky1964_fig18_porpoising_limits.csv');

// Savitsky (1964), figure 18, read from a scan by machine, about ±0.3°.
describe('figure 18', () => {
  test.each(chart.filter((row) => row['tau_limit_beta0'] !== ''))(
    'comes out at its points: √(CL/2) $sqrt_CL_over_2',
    (row) => {
      for (const deadrise of [0, 10, 20]) {
        expect(figure18(deadrise, Number(row['sqrt_CL_over_2']))).toBeCloseTo(
          Number(row[`tau_limit_beta${deadrise}`]),
          12,
        );
      }
    },
  );

  test('gives the limit that the author states, 4.5° at 0.186 and 10°, within 0.1°', () => {
    const stated = chart.find((row) => row['reading'].startsWith('author')) ?? {};
    const found = figure18(10, Number(stated['sqrt_CL_over_2'])) ?? Number.NaN;
    expect(Math.abs(found - Number(stated['tau_limit_beta10']))).toBeLessThan(0.1);
  });

  test('is never carried past its edges', () => {
    expect([figure18(20.1, 0.2), figure18(10, 0.129), figure18(10, 0.301)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

// Celano (1998), Trident Scholar Report 254: coefficients from memory; the check values are of the formula, computed apart.
test('Celano’s form comes out to four decimals', () => {
  const { check_values_computed_from_formula: checks } = reference(
    'planing/porpoising_celano1998.json',
  ) as {
    readonly check_values_computed_from_formula: Record<string, Record<string, number>>;
  };
  for (const [deadrise, limits] of Object.entries(checks)) {
    for (const [loading, limit] of Object.entries(limits)) {
      expect(celano(Number(deadrise.slice(4)), Number(loading))).toBeCloseTo(limit, 4);
    }
  }
  expect([celano(0, 0.2), celano(26, 0.2), celano(20, 0.1)]).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});

describe('the band', () => {
  test('reaches over both accounts', () => {
    const band = limitBand(20, 0.15);
    expect(band).toMatchObject({ ok: true, figure18: 4, high: 4.3 });
    if (band.ok) expect(band.low).toBeCloseTo(3.461, 4);
  });

  test('stands on one account where only one speaks, and on none says why', () => {
    expect(limitBand(5, 0.2)).not.toHaveProperty('celano');
    const deep = limitBand(23, 0.2);
    expect(deep).not.toHaveProperty('figure18');
    if (deep.ok) expect(deep.high - deep.low).toBeCloseTo(1.1, 9);
    expect(limitBand(27, 0.2)).toMatchObject({ ok: false });
    expect(limitBand(10, 0.1)).toMatchObject({ ok: false });
  });

  test('tells stable, near the limit and beyond it, with what the trim may be out by', () => {
    const band = { ok: true, low: 3, high: 4 } as const;
    expect([2.9, 3.5, 4.1].map((trim) => stabilityOf(trim, band))).toEqual([
      'stable',
      'near the limit',
      'beyond it',
    ]);
    expect(stabilityOf(4.1, band, 0.1)).toBe('near the limit');
    expect(stabilityOf(9, { ok: false, reason: '' })).toBe('not told');
  });
});

// Table 1: limit 4.5°, trim 2.3°, "stable".
test('the boat of Savitsky’s table 1 is stable, with its published limit in the band', () => {
  const runs = equilibrium(paperBoat());
  if (!runs.ok) throw new Error(runs.reason);
  const band = limitBand(10, runs.loading);
  if (!band.ok) throw new Error(band.reason);
  expect(stabilityOf(runs.trim, band)).toBe('stable');
  expect(band.low).toBeLessThan(4.5);
  expect(band.high).toBeGreaterThan(4.5);
});

describe('the speed where porpoising begins', () => {
  test('lies where the margin passes 0', () => {
    expect(beginsAt([10, 12, 14], [-0.5, -0.1, 0.3])).toEqual({ at: 'speed', speed: 12.5 });
  });

  test('is not told across a speed that is not told', () => {
    expect(beginsAt([10, 12, 14], [-0.5, undefined, 0.3])).toEqual({ at: 'or below', speed: 14 });
  });

  test('may lie below what was asked, nowhere, or not be told', () => {
    expect(beginsAt([10, 12], [0.2, 0.3])).toEqual({ at: 'or below', speed: 10 });
    expect(beginsAt([10, 12], [-0.2, -0.3])).toEqual({ at: 'never' });
    expect(beginsAt([10, 12], [undefined, undefined])).toEqual({ at: 'not told' });
  });
});

test('a curve tells every speed, or why it does not', () => {
  const [slow, planing] = trimCurve(SMALL, [3, 12]);
  expect(slow).toMatchObject({ runs: { ok: false }, stability: 'not told' });
  expect(planing.runs.ok && planing.limit.ok).toBe(true);
});
