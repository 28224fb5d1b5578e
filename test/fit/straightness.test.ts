import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import examples from '../../fixtures/reference/straightness_examples.json';
import { straightness, type Straightness } from '../../src/fit/straightness.ts';
import { places } from './support.ts';

const [autocollimator, parabola, , , hookLike] = examples;

function assessed(x: readonly number[], z: readonly number[]): Straightness {
  const result = straightness(x, z);
  if (!result.ok) throw new Error(result.reason);
  return result;
}

describe('straightness on the least-squares line against examples', () => {
  // Sources in fixtures/reference/SOURCES.md: lecture slides on the autocollimator (readings published,
  // least-squares parameters recomputed from them), a constructed profile with exact results.
  it.each([
    ['an autocollimator run', autocollimator.x_mm, autocollimator.cumulative_um, autocollimator],
    ['a hook-like profile', hookLike.x_mm, hookLike.y_mm, hookLike],
  ])(
    'gives every parameter of %s to 12 decimals, every deviation as listed',
    (_, x, z, example) => {
      if (!x || !z || !example.computed_here) throw new Error('the fixture lacks its profile');
      const { LSLI: listed } = example.computed_here;
      const found = assessed(x, z);
      expect(found.STRt).toBeCloseTo(listed.STRt, 12);
      expect(found.STRp).toBeCloseTo(listed.STRp, 12);
      expect(found.STRv).toBeCloseTo(listed.STRv, 12);
      expect(found.STRq).toBeCloseTo(listed.STRq, 12);
      expect(found.line.slope).toBeCloseTo(listed.slope, 14);
      expect(found.line.intercept).toBeCloseTo(listed.intercept, 13);
      found.deviations.forEach((d, i) => expect(d).toBeCloseTo(listed.deviation[i], 6));
      expect(found).toMatchObject({ n: x.length, domain: [0, x.at(-1)] });
    },
  );

  it.each((parabola.discrete ?? []).map((row) => [row.N, row] as const))(
    'gives a parabola of %d readings its listed parameters to 12 decimals',
    (count, listed) => {
      const x = places(0, 1, count);
      const found = assessed(
        x,
        x.map((at) => at * at),
      );
      for (const name of ['STRp', 'STRv', 'STRq'] as const) {
        expect(found[name]).toBeCloseTo(listed[name], 12);
      }
      expect(found.STRt).toBeCloseTo(listed.STRt_LS, 12);
      expect(found.line.slope).toBeCloseTo(listed.LS_slope, 12);
      expect(found.line.intercept).toBeCloseTo(listed.LS_intercept, 12);
    },
  );

  it('comes to the continuous parabola as readings grow dense', () => {
    // Closed forms for z = c·x² over L: STRp = cL²/6, STRv = cL²/12, STRq = cL²/(6√5).
    const [c, length, count] = [3e-6, 1500, 20001];
    const x = places(0, length, count);
    const { STRp, STRv, STRq, STRt } = assessed(
      x,
      x.map((at) => c * at * at),
    );
    const unit = c * length * length;
    expect(Math.abs(STRp - unit / 6)).toBeLessThan((2 * unit) / count);
    expect(Math.abs(STRv - unit / 12)).toBeLessThan((2 * unit) / count);
    expect(Math.abs(STRq - unit / (6 * Math.sqrt(5)))).toBeLessThan((2 * unit) / count);
    expect(STRt).toBeCloseTo(unit / 4, 9);
  });
});

describe('the signs of straightness', () => {
  it('call a high spot in a flat a peak and a low spot a valley', () => {
    const x = places(0, 1000, 11);
    const proud = assessed(
      x,
      x.map((_, i) => (i === 5 ? 2 : 0)),
    );
    expect(proud.STRp).toBeCloseTo(2 - 2 / 11, 12);
    expect(proud.STRv).toBeCloseTo(2 / 11, 12);
    expect(proud.deviations[5]).toBeGreaterThan(0);
  });

  it('swap peak and valley, and nothing else, when the profile is turned over', () => {
    fc.assert(
      fc.property(profile, ({ x, z }) => {
        const straight = straightness(x, z);
        fc.pre(straight.ok);
        const over = assessed(
          x,
          z.map((value) => -value),
        );
        expect(over.STRp).toBeCloseTo(straight.STRv, 9);
        expect(over.STRv).toBeCloseTo(straight.STRp, 9);
        expect(over.STRt).toBeCloseTo(straight.STRt, 9);
        expect(over.STRq).toBeCloseTo(straight.STRq, 9);
      }),
      { seed: 421, numRuns: 200 },
    );
  });
});

const profile = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 1500 }), fc.integer({ min: -40, max: 40 })), {
    minLength: 2,
    maxLength: 30,
  })
  .map((points) => ({ x: points.map((p) => p[0]), z: points.map((p) => p[1]) }));

it('a straight line added changes no parameter', () => {
  const slope = fc.integer({ min: -5, max: 5 });
  fc.assert(
    fc.property(profile, slope, slope, ({ x, z }, offset, tilt) => {
      const plain = straightness(x, z);
      fc.pre(plain.ok);
      const tilted = assessed(
        x,
        z.map((value, i) => value + offset + tilt * x[i]),
      );
      for (const name of ['STRt', 'STRp', 'STRv', 'STRq'] as const) {
        expect(tilted[name]).toBeCloseTo(plain[name], 8);
      }
    }),
    { seed: 422, numRuns: 200 },
  );
});

it('STRq is never more than the larger of STRp and STRv, nor STRt less than it', () => {
  fc.assert(
    fc.property(profile, ({ x, z }) => {
      const found = straightness(x, z);
      fc.pre(found.ok);
      expect(found.STRq).toBeLessThanOrEqual(Math.max(found.STRp, found.STRv) * (1 + 1e-12));
      expect(found.STRt).toBe(found.STRp + found.STRv);
    }),
    { seed: 423, numRuns: 200 },
  );
});

describe('what straightness refuses', () => {
  it('says what a line needs, as the line fit does', () => {
    expect(straightness([1], [2])).toEqual({
      ok: false,
      reason: 'too few readings',
      n: 1,
      needed: 2,
    });
    expect(straightness([3, 3], [1, 2])).toMatchObject({ ok: false, reason: 'degenerate' });
  });

  it('throws RangeError on unequal lengths and values that are not finite', () => {
    expect(() => straightness([1, 2], [1])).toThrow(RangeError);
    expect(() => straightness([1, 2], [1, NaN])).toThrow(RangeError);
  });

  it('leaves what it was given as it was', () => {
    const x = Object.freeze([0, 1, 2]);
    const z = Object.freeze([0, 1, 0]);
    expect(assessed(x, z).STRt).toBeCloseTo(1, 12);
  });
});
