import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge, PROVEN, type Deepest, type Judgement, type Question } from '../../src/fit/judge.ts';
import { fitProfile } from '../../src/fit/posterior.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';
import { places, readingsOf, seededNormals, type Shape } from './support.ts';

const T = 1.5;
const question: Question = { tolerance: T, over: 1500, limit: 1500, tail: 300 };
const stations = places(0, 1500, 16);

function judged(
  placements: PlacementReadings | readonly PlacementReadings[],
  asked: Question = question,
): Judgement {
  const profile = fitProfile('x' in placements ? [placements] : placements, 10 * T);
  if (!profile.ok) throw new Error(profile.reason);
  return judge(profile, asked);
}

/** Hollow whose chord over 1500 mm is d deep; d below 0 is a hump. */
const parabola =
  (d: number): Shape =>
  (x) =>
    4 * d * (x / 1500) ** 2;

/** Rounded hollow d deep from a to b in a straight bottom. */
const dip =
  (d: number, a: number, b: number): Shape =>
  (x) =>
    x <= a || x >= b ? 0 : (-d / 2) * (1 - Math.cos((2 * Math.PI * (x - a)) / (b - a)));

const mirrored = (r: PlacementReadings): PlacementReadings => ({ ...r, gap: r.gap.map((g) => -g) });

/** Readings of invented bottoms: a bend, a wave and a dip in any proportion, noise included. */
const anyReadings = fc
  .record({
    bend: fc.double({ min: -4, max: 4, noNaN: true }),
    wave: fc.double({ min: -2, max: 2, noNaN: true }),
    deep: fc.double({ min: -3, max: 3, noNaN: true }),
    count: fc.integer({ min: 6, max: 20 }),
    seed: fc.integer({ min: 1, max: 1e6 }),
  })
  .map(({ bend, wave, deep, count, seed }) => {
    const shape: Shape = (x) =>
      parabola(bend)(x) + wave * Math.sin(x / 230) + dip(deep, 400, 1000)(x);
    return readingsOf(shape, places(5, 1495, count), 0.15, { noise: seededNormals(seed) });
  });

const swapped = { hook: 'rocker', rocker: 'hook', fair: 'fair', undecided: 'undecided' } as const;

function expectNear(found: Judgement, wanted: Judgement, within: number): void {
  expect(found.verdict).toEqual(wanted.verdict);
  for (const part of ['hollow', 'hump'] as const) {
    expect(Math.abs(found[part].size - wanted[part].size)).toBeLessThan(within);
    expect(Math.abs(found[part].u - wanted[part].u)).toBeLessThan(within);
  }
  expect(Math.abs(Number(found.tail?.angle) - Number(wanted.tail?.angle))).toBeLessThan(within);
  expect(found.sections.map((s) => s.class)).toEqual(wanted.sections.map((s) => s.class));
}

describe('a parabola with next to no noise', () => {
  // Closed form: depth c·L²/4 at the middle of a chord L, tail angle c·L (radians).
  const dense = places(0, 1500, 61);
  const readings = readingsOf(parabola(3), dense, 1e-4);

  it('is as deep as c·L²/4, in the middle, under a chord from end to end, to 1e-6', () => {
    const { hollow, hump, verdict } = judged(readings);
    expect(verdict).toEqual(['hook']);
    expect(Math.abs(hollow.size - 3)).toBeLessThan(1e-6);
    expect(hollow).toMatchObject({ at: 750, from: 0, to: 1500 });
    expect(hump.size).toBeLessThan(1e-3);
  });

  it('has its tail turned towards the water by c·L, to 1e-4 of a degree', () => {
    const { tail } = judged(readings);
    const angle = ((4 * 3) / 1500) * (180 / Math.PI);
    expect(Math.abs(Number(tail?.angle) - angle)).toBeLessThan(1e-4);
    expect(tail?.over).toBe(300);
  });

  it('is as deep as c·G²/4 under a shorter edge, to 1 %, never deeper', () => {
    const short = judged(readings, { ...question, over: 900 });
    const exact = 3 * (900 / 1500) ** 2;
    expect(short.hollow.size).toBeGreaterThan(0.99 * exact);
    expect(short.hollow.size).toBeLessThan(1.001 * exact);
    expect(short.hollow.to - short.hollow.from).toBeLessThanOrEqual(900 + 1e-6);
  });
});

describe('a mirrored profile', () => {
  it('has hook and rocker swapped to the last bit: sizes, uncertainties, places, sections', () => {
    const bare = ({ size, u, at }: Deepest) => ({ size, u, at });
    fc.assert(
      fc.property(anyReadings, (readings) => {
        const one = judged(readings);
        const two = judged(mirrored(readings));
        expect(two.verdict.toSorted()).toEqual(one.verdict.map((v) => swapped[v]).toSorted());
        expect(bare(two.hollow)).toEqual(bare(one.hump));
        expect(bare(two.hump)).toEqual(bare(one.hollow));
        expect(two.fairness).toBe(one.fairness);
        expect(two.tail?.u).toBe(one.tail?.u);
        expect(two.tail?.angle).toBe(one.tail && -one.tail.angle);
        expect(two.sections).toEqual(
          one.sections.map((s) => ({
            ...s,
            class: swapped[s.class],
            leaning: swapped[s.leaning],
          })),
        );
        expect(two.profile).toEqual(one.profile.map((p) => ({ ...p, z: -p.z })));
      }),
      { seed: 161, numRuns: 25 },
    );
  });
});

describe('what a judgement does not depend on', () => {
  it('is a straight line added to the readings: the edge’s own offset and tilt, to 1e-6', () => {
    const anyLine = fc.tuple(
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.double({ min: -0.02, max: 0.02, noNaN: true }),
    );
    fc.assert(
      fc.property(anyReadings, anyLine, (readings, [level, slope]) => {
        const gap = readings.gap.map((g, i) => g + level + slope * readings.x[i]);
        expectNear(judged({ ...readings, gap }), judged(readings), 1e-6);
      }),
      { seed: 162, numRuns: 12 },
    );
  });

  it('is where stations count from: all moved by a constant, with the limit, to 1e-6', () => {
    fc.assert(
      fc.property(anyReadings, fc.integer({ min: -500, max: 5000 }), (readings, by) => {
        const moved = { ...readings, x: readings.x.map((x) => x + by) };
        const found = judged(moved, { ...question, limit: 1500 + by });
        const still = judged(readings);
        expectNear(found, still, 1e-6);
        expect(found.hollow.at - by).toBeCloseTo(still.hollow.at, 6);
      }),
      { seed: 163, numRuns: 12 },
    );
  });

  it('is the order of the rows, to 1e-9', () => {
    fc.assert(
      fc.property(anyReadings, fc.infiniteStream(fc.nat()), (readings, keys) => {
        const order = [...readings.x.keys()]
          .map((i) => [i, Number(keys.next().value)])
          .sort((a, b) => a[1] - b[1])
          .map(([i]) => i);
        const pick = (values: readonly number[]) => order.map((i) => values[i]);
        const { x, gap, u } = readings;
        expectNear(judged({ x: pick(x), gap: pick(gap), u: pick(u) }), judged(readings), 1e-9);
      }),
      { seed: 164, numRuns: 12 },
    );
  });

  it('is when it is asked: the same readings give the same judgement, whole', () => {
    const readings = readingsOf(parabola(T), stations, T / 10, { noise: seededNormals(8) });
    const first = judged(readings);
    judged(readingsOf(parabola(2), places(0, 1500, 9), 0.2));
    expect(judged(readings)).toEqual(first);
  });

  it('is how many lays the readings come in, where noise is next to none', () => {
    const shape: Shape = (x) => parabola(3)(x) + 0.3 * Math.sin(x / 200);
    const x = places(0, 1500, 31);
    const aft = readingsOf(shape, x.slice(0, 19), 1e-4);
    const fore = readingsOf(shape, x.slice(12), 1e-4, { offset: 5, tilt: -0.01 });
    expectNear(judged([aft, fore]), judged(readingsOf(shape, x, 1e-4)), 1e-3);
  });
});

describe('the verdict, with noise a tenth of the tolerance', () => {
  const noisy = (shape: Shape, seed: number) =>
    judged(readingsOf(shape, stations, T / 10, { noise: seededNormals(seed) }));

  it('is undecided where the hollow is just the tolerance deep, and says how likely fair is', () => {
    const { verdict, fairness, sections } = judged(readingsOf(parabola(T), stations, T / 10));
    expect(verdict).toEqual(['undecided']);
    expect(fairness).toBeGreaterThan(0.2);
    expect(fairness).toBeLessThan(0.8);
    expect(sections.some((s) => s.class === 'undecided')).toBe(true);
    expect(noisy(parabola(T), 1).verdict).toEqual(['undecided']);
    expect(noisy(parabola(-T), 1).verdict).toEqual(['undecided']);
  });

  it('is fair at 0.3 of the tolerance, and its one section is proven', () => {
    const { verdict, sections } = noisy(parabola(0.3 * T), 2);
    expect(verdict).toEqual(['fair']);
    expect(sections).toMatchObject([{ class: 'fair', proven: true }]);
  });

  it('is hook at twice the tolerance, rocker at twice the other way', () => {
    const hook = noisy(parabola(2 * T), 3);
    expect(hook.verdict).toEqual(['hook']);
    expect(Math.abs(hook.hollow.size - 2 * T)).toBeLessThan(3 * hook.hollow.u);
    expect(noisy(parabola(-2 * T), 3).verdict).toEqual(['rocker']);
  });

  it('is hook alone for a hollow with shoulders, and rocker alone for a hump with dips beside', () => {
    const hollow = noisy(dip(2 * T, 500, 1000), 4);
    expect(hollow.verdict).toEqual(['hook']);
    expect(hollow.told).toBe('hollows first');
    expect(hollow.sections.some((s) => s.leaning === 'rocker')).toBe(false);
    const hump = noisy(dip(-2 * T, 500, 1000), 4);
    expect(hump.verdict).toEqual(['rocker']);
    expect(hump.told).toBe('humps first');
  });

  it('is hook and rocker for a hollow aft and a hump forward that are both there', () => {
    const both = noisy((x) => dip(3 * T, 0, 700)(x) + dip(-3 * T, 800, 1500)(x), 5);
    expect(both.verdict).toEqual(['hook', 'rocker']);
  });

  it('is hook and rocker for a sine on which both accounts hold, each above the tolerance', () => {
    // Hollow and hump are 1.366 of the amplitude (a tangent from the far end), either account leaves
    // just the amplitude: at 0.8 T one is above T, the other below.
    const sine: Shape = (x) => 0.8 * T * Math.sin((2 * Math.PI * x) / 1500);
    const found = judged(readingsOf(sine, places(0, 1500, 31), 0.02));
    expect(found.told).toBe('both as they stand');
    expect(found.verdict).toEqual(['hook', 'rocker']);
    expect(found.hollow.size / (0.8 * T)).toBeCloseTo(1.366, 2);
    expect(found.hump.size / (0.8 * T)).toBeCloseTo(1.366, 2);
  });
});

it('more draws are made where a probability comes near the threshold, and only there', () => {
  // What a section leans to, unproven, is a count over the draws: of 200 at first, of 400 and 1200 where that is
  // too close to call.
  const whole = (p: number, draws: number) => Math.abs(p * draws - Math.round(p * draws)) < 1e-9;
  const hooked = (d: number) => {
    const noise = seededNormals(3);
    const { sections } = judged(readingsOf(parabola(d), stations, T / 10, { noise }));
    return sections.filter((s) => s.leaning === 'hook' && !s.proven).map((s) => s.probability);
  };
  const near = [1.14, 1.16, 1.18, 1.2, 1.22, 1.24].flatMap((times) => hooked(times * T));
  const closer = near.filter((p) => p > 0.91 && p < PROVEN);
  expect(closer.length).toBeGreaterThan(0);
  expect(closer.every((p) => whole(p, 1200))).toBe(true);
  expect(closer.some((p) => !whole(p, 400))).toBe(true);
  const far = hooked(T);
  expect(far.length).toBeGreaterThan(0);
  expect(far.every((p) => whole(p, 200))).toBe(true);
});

describe('the judged stretch', () => {
  // Straight to 1000 mm, then curving up to the forefoot, as bottoms do by design.
  const forefoot: Shape = (x) => (x > 1000 ? -30 * ((x - 1000) / 500) ** 2 : 0);
  const readings = readingsOf(forefoot, places(0, 1500, 31), 0.1);

  it('ends at the limit: what the bottom does beyond it by design is not judged', () => {
    const found = judged(readings, { ...question, limit: 950 });
    expect(found.verdict).toEqual(['fair']);
    expect(found.judged).toEqual([0, 950]);
    expect(found.profile[found.profile.length - 1].x).toBe(950);
    expect(judged(readings).verdict).toContain('rocker');
  });

  it('ends at the last reading where the limit lies farther forward: nothing is extrapolated', () => {
    const found = judged(readings, { ...question, limit: 4000 });
    expect(found.judged).toEqual([0, 1500]);
  });

  it('throws RangeError where no reading lies within the limit', () => {
    expect(() => judged(readings, { ...question, limit: 0 })).toThrow(RangeError);
  });

  it('is covered by sections without gap or overlap, neighbours of different class', () => {
    fc.assert(
      fc.property(anyReadings, fc.integer({ min: 700, max: 1500 }), (some, limit) => {
        const { sections, judged: stretch } = judged(some, { ...question, limit });
        expect(sections[0].from).toBe(stretch[0]);
        expect(sections[sections.length - 1].to).toBe(stretch[1]);
        sections.forEach((s, i) => {
          expect(s.to).toBeGreaterThan(s.from);
          expect(s.proven).toBe(s.class !== 'undecided');
          if (i === 0) return;
          expect(s.from).toBe(sections[i - 1].to);
          expect(s.leaning).not.toBe(sections[i - 1].leaning);
        });
      }),
      { seed: 165, numRuns: 15 },
    );
  });

  it('gives no tail angle where less than 600 mm lies ahead of the tail', () => {
    expect(judged(readings, { ...question, limit: 850 }).tail).toBeUndefined();
    expect(judged(readings, { ...question, limit: 900 }).tail).toBeDefined();
  });
});

describe('the profile', () => {
  it('is told against its own least-squares line, with the readings within its uncertainty', () => {
    const readings = readingsOf(parabola(3), stations, 0.15, { noise: seededNormals(6) });
    const { profile, reference } = judged(readings);
    const sums = profile.reduce(
      ([level, slope], { x, z }) => [level + z, slope + z * (x - reference.middle)],
      [0, 0],
    );
    expect(sums[0]).toBeCloseTo(0, 9);
    expect(sums[1] / 1500).toBeCloseTo(0, 9);
    // Back in the datum of the readings: height = reference line + z.
    const last = profile.length - 1;
    for (const [i, gap] of [
      [0, readings.gap[0]],
      [last, readings.gap[15]],
    ]) {
      const { x, z } = profile[i];
      const height = reference.level + reference.slope * (x - reference.middle) + z;
      expect(Math.abs(height + gap)).toBeLessThan(0.45);
    }
    expect(profile.every((p) => p.u > 0 && p.u < 0.5)).toBe(true);
  });
});
