import { describe, expect, it } from 'vitest';
import beam from '../../../fixtures/reference/straightedge_beam.json' with { type: 'json' };
import { beamSag, G, secondMoment, stringSag } from '../../../src/survey/edge/sag.ts';
import { sagUnder } from '../../../src/survey/edge/sagUnder.ts';

/** Every figure here is of the uniform beam of Euler and Bernoulli, as handbooks give it (Roark); the ratios were
 *  recomputed by integration, see fixtures/reference/SOURCES.md. Length 1 and w/(E·I) 1: figures are in w·L⁴/(E·I). */
const over = (separation: number) => beamSag(1, [(1 - separation) / 2, (1 + separation) / 2], 1);
const ratios = beam.support_separations_over_L;
const figures = beam.nondimensional_sag_times_EI_over_wL4;

describe('beamSag', () => {
  it('is 5wL⁴/(384EI) in the middle of a beam held at its ends', () => {
    expect(beamSag(1, [0, 1], 1)(0.5)).toBeCloseTo(5 / 384, 12);
    expect(beamSag(1, [0, 1], 1)(0.5)).toBeCloseTo(figures.ends_supported_mid, 12);
  });

  it('is 0.17055 mm for the worked bar of aluminium: 2.0 m, 25 by 75 mm', () => {
    const { worked_here: worked } = beam;
    const sag = sagUnder(
      { from: 'section', width: 25, depth: 75, material: 'aluminium' },
      { length: 2000, at: [0, 2000] },
    );
    expect(sag?.(1000)).toBeCloseTo(worked.mid_sag_mm_ends_supported, 9);
    expect(secondMoment(25, 75)).toBeCloseTo(worked.I_m4 * 1e12, 6);
    const stated = sagUnder(
      { from: 'stiffness', weight: worked.w_N_per_m / G, stiffness: 69e9 * worked.I_m4 },
      { length: 2000, at: [0, 2000] },
    );
    expect(stated?.(1000)).toBeCloseTo(worked.mid_sag_mm_ends_supported, 9);
  });

  it('has the ends level with each other’s slope at Airy’s points', () => {
    const sag = over(ratios.Airy_ends_level);
    expect((sag(1e-6) - sag(0)) / 1e-6).toBeCloseTo(0, 6);
    expect(sag(0.5)).toBeCloseTo(figures.Airy.mid_below_supports, 8);
    expect(-sag(0)).toBeCloseTo(figures.Airy.end_above_supports, 8);
  });

  it('has the middle level with the ends where the sag is least, and with the supports at 0.5228 of the length', () => {
    const least = over(ratios['least_peak_to_valley_sag (ends = middle)']);
    expect(least(0.5)).toBeCloseTo(least(0), 7);
    expect(least(0.5)).toBeCloseTo(figures.least_sag.mid_and_ends_below_supports, 7);
    expect(over(ratios.zero_mid_deflection_relative_to_supports)(0.5)).toBeCloseTo(0, 7);
  });

  it('varies by 0.0460 at Airy’s points and by 0.0208 at least of what it does held at its ends', () => {
    const places = Array.from({ length: 2001 }, (_, i) => i / 2000);
    const range = (separation: number) => {
      const sag = places.map(over(separation));
      return (Math.max(...sag) - Math.min(...sag)) / figures.ends_supported_mid;
    };
    const { Airy, least_sag } = beam.ratio_peak_to_valley_to_end_supported;
    expect(range(ratios.Airy_ends_level)).toBeCloseTo(Airy, 5);
    expect(range(ratios['least_peak_to_valley_sag (ends = middle)'])).toBeCloseTo(least_sag, 5);
  });

  it('hangs free as a cantilever past a support: wL⁴/(8EI) less what the support turns', () => {
    // Two halves of a beam held as near as may be to its middle are two cantilevers of half the length.
    const sag = beamSag(1, [0.5 - 1e-4, 0.5 + 1e-4], 1);
    expect(sag(0)).toBeCloseTo(0.5 ** 4 / 8, 4);
  });

  it('takes unlike overhangs, level at both supports', () => {
    const sag = beamSag(2000, [100, 1500], 1e-13);
    expect(sag(100)).toBeCloseTo(0, 12);
    expect(sag(1500)).toBeCloseTo(0, 12);
    expect(sag(800)).toBeGreaterThan(0);
  });

  it.each([
    [-1, 1000],
    [500, 500],
    [0, 2001],
  ])('refuses supports at %d and %d under a beam of 2000', (a, b) => {
    expect(() => beamSag(2000, [a, b], 1e-13)).toThrow(RangeError);
  });
});

describe('a sag that was measured', () => {
  it('is that sag held the same way, and grows with the fourth power of the span', () => {
    const measured = { from: 'measured', sag: 0.4, between: 2000 } as const;
    expect(sagUnder(measured, { length: 2000, at: [0, 2000] })?.(1000)).toBeCloseTo(0.4, 12);
    expect(sagUnder(measured, { length: 1000, at: [0, 1000] })?.(500)).toBeCloseTo(0.4 / 16, 12);
  });
});

describe('a taut string', () => {
  it('hangs w·L²/(8H) in the middle: 3 m of 1 g/m at 100 N hang 0.110 mm', () => {
    const sag = sagUnder(
      { from: 'tension', weight: 0.001, tension: 100 },
      { length: 3000, at: [0, 3000] },
    );
    // 0.001 kg/m · 9.80665 m/s² · (3 m)² / (8 · 100 N), the closed form.
    expect(sag?.(1500)).toBeCloseTo(((0.001 * 9.80665 * 9) / 800) * 1000, 9);
    expect(sag?.(0)).toBe(0);
  });

  it('hangs w·x·(L − x)/(2H) anywhere', () => {
    expect(stringSag([200, 1200], 2e-6)(450)).toBeCloseTo((2e-6 * 250 * 750) / 2, 12);
  });
});

describe('a box section', () => {
  it('is stiffer for its weight than a bar, and one whose walls meet is solid', () => {
    expect(secondMoment(25, 75, 3)).toBeCloseTo((25 * 75 ** 3 - 19 * 69 ** 3) / 12, 9);
    expect(secondMoment(25, 75, 13)).toBe(secondMoment(25, 75));
    const held = { length: 2000, at: [0, 2000] } as const;
    const bar = { from: 'section', width: 25, depth: 75, material: 'aluminium' } as const;
    const box = sagUnder({ ...bar, wall: 3 }, held)?.(1000);
    expect(box).toBeLessThan(Number(sagUnder(bar, held)?.(1000)));
  });
});
