import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge, type Question } from '../../src/fit/judge.ts';
import { heightsAt } from '../../src/fit/functionals.ts';
import { fitProfile, meanCoefficients, type Profile } from '../../src/fit/posterior.ts';
import { responseTo } from '../../src/fit/responseTo.ts';
import { withSystematic, type SystematicMode } from '../../src/fit/systematic.ts';
import { places, readingsOf, seededNormals } from './support.ts';

const T = 1.5;
const question: Question = { tolerance: T, over: 1500, limit: 1500, tail: 300 };
const x = places(0, 1500, 16);

function fitted(gap: readonly number[], u = 0.15): Profile {
  const profile = fitProfile([{ x, gap, u: x.map(() => u) }], 10 * T);
  if (!profile.ok) throw new Error(profile.reason);
  return profile;
}

/** A bow `mm` high in the middle of 1500 mm. */
const bow = (mm: number) => (at: number) => (4 * mm * at * (1500 - at)) / 1500 ** 2;

function bowMode(profile: Profile, mm: number, distribution: SystematicMode['distribution']) {
  const placements = [{ x, gap: x.map(() => 0), u: x.map(() => 0.15) }];
  const shape = responseTo(profile, placements, (_, i) => bow(mm)(x[i]));
  return { name: 'bow', shape, distribution };
}

describe('a systematic mode in a judgement', () => {
  const flat = readingsOf(() => 0, x, 0.15).gap;

  it('changes no bit where there is none', () => {
    const profile = fitted(flat);
    expect(judge(profile, question, [])).toEqual(judge(profile, question));
  });

  it('widens the band, the sizes and the tail by what it is worth', () => {
    const hooked = x.map((at) => bow(2)(at));
    const profile = fitted(hooked);
    const without = judge(profile, question);
    const with1 = judge(profile, question, [bowMode(profile, 0.5, 'normal')]);
    expect(without.hollow.size).toBeCloseTo(2, 1);
    expect(with1.hollow.u).toBeCloseTo(Math.hypot(without.hollow.u, 0.5), 1);
    const middle = Math.floor(with1.profile.length / 2);
    expect(with1.profile[middle].u).toBeGreaterThan(2 * without.profile[middle].u);
    expect(Number(with1.tail?.u)).toBeGreaterThan(Number(without.tail?.u));
    expect(without.verdict).toEqual(['hook']);
    expect(with1.verdict).toEqual(['undecided']);
  });

  it('keeps what lies beyond the whole of a rectangular bound proven', () => {
    const profile = fitted(x.map((at) => bow(2.4)(at)));
    const within = bowMode(profile, 0.3 / Math.sqrt(3), 'rectangular');
    expect(judge(profile, question, [within]).verdict).toEqual(['hook']);
  });

  it('mirrors exactly: hook and rocker change places to the last bit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (seed, size) => {
          const { gap } = readingsOf((at) => bow(size)(at), x, 0.15, {
            noise: seededNormals(seed),
          });
          const [one, other] = [fitted(gap), fitted(gap.map((g) => -g))].map((profile) =>
            judge(profile, question, [
              bowMode(profile, 0.4, 'rectangular'),
              { ...bowMode(profile, 0.1, 'normal'), name: 'second' },
            ]),
          );
          expect(other.hump).toEqual(one.hollow);
          expect(other.hollow).toEqual(one.hump);
          expect(other.fairness).toBe(one.fairness);
        },
      ),
      { seed: 20261, numRuns: 20 },
    );
  });

  it('is refused where its shape is of another profile', () => {
    const profile = fitted(flat);
    const strange: SystematicMode = {
      name: 'strange',
      shape: new Float64Array(3),
      distribution: 'normal',
    };
    expect(() => judge(profile, question, [strange])).toThrow(/strange: a shape of/);
  });
});

describe('withSystematic', () => {
  const zeros = Array.from({ length: 2000 }, () => new Float64Array(1));
  const mode = (distribution: SystematicMode['distribution']): SystematicMode => ({
    name: distribution,
    shape: Float64Array.of(1),
    distribution,
  });
  const spread = (values: readonly number[]) =>
    Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

  it('has a standard deviation of 1 in either distribution, and ends where a rectangle ends', () => {
    const rectangular = withSystematic(zeros, [mode('rectangular')], 0).map((c) => c[0]);
    const normal = withSystematic(zeros, [mode('normal')], 0).map((c) => c[0]);
    expect(spread(rectangular)).toBeCloseTo(1, 2);
    expect(spread(normal)).toBeCloseTo(1, 1);
    expect(Math.max(...rectangular)).toBeLessThan(Math.sqrt(3));
    expect(Math.max(...normal)).toBeGreaterThan(2.5);
  });

  it('takes modes as independent, twenty of them', () => {
    const many = Array.from({ length: 20 }, (_, m): SystematicMode => ({
      name: `${m}`,
      shape: Float64Array.from({ length: 20 }, (_, j) => (j === m ? 1 : 0)),
      distribution: 'rectangular',
    }));
    const draws = withSystematic(
      Array.from({ length: 2000 }, () => new Float64Array(20)),
      many,
      0,
    );
    for (let a = 0; a < 20; a++) {
      for (let b = 0; b < a; b++) {
        const product = draws.reduce((sum, c) => sum + c[a] * c[b], 0) / draws.length;
        expect(Math.abs(product), `${a} with ${b}`).toBeLessThan(0.15);
      }
    }
  });

  it('goes on where it stopped: the second hundred pairs are the same alone', () => {
    const whole = withSystematic(zeros.slice(0, 400), [mode('normal')], 0);
    const rest = withSystematic(zeros.slice(0, 200), [mode('normal')], 100);
    expect(whole.slice(200)).toEqual(rest);
  });
});

describe('responseTo', () => {
  it('is what the fit does when its readings change, up to a straight line', () => {
    const { gap } = readingsOf((at) => Math.sin(at / 200), x, 0.15);
    const u = x.map(() => 0.15);
    const half = [{ x, gap, u }, readingsOf((at) => Math.sin(at / 200), x.slice(2), 0.15)];
    const profile = fitProfile(half, 10 * T);
    if (!profile.ok) throw new Error(profile.reason);
    const change = (p: number, i: number) => (p === 1 ? bow(0.02)(half[1].x[i]) : 0);
    const shift = responseTo(profile, half, change);
    const moved = fitProfile(
      half.map((p, k) => ({ ...p, gap: p.gap.map((g, i) => g + change(k, i)) })),
      10 * T,
    );
    if (!moved.ok) throw new Error(moved.reason);
    const wanted = meanCoefficients(moved).map((c, j) => c - meanCoefficients(profile)[j]);
    const at = heightsAt(profile, x);
    const [got, want] = [at(shift), at(wanted)].map(bent);
    for (let i = 0; i < x.length; i++) expect(Math.abs(got[i] - want[i])).toBeLessThan(5e-4);
    expect(Math.max(...want.map(Math.abs))).toBeGreaterThan(4e-3);
  });
});

/** Heights off the straight line between their ends. */
function bent(z: Float64Array): number[] {
  const last = z.length - 1;
  return Array.from(z, (v, i) => v - z[0] - ((z[last] - z[0]) * i) / last);
}
