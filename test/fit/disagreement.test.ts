import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import norris from '../../fixtures/reference/nist_strd/Norris.json';
import { compared, type Comparison } from '../../src/fit/disagreement.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';
import { seededNormals } from './support.ts';

const reading = (x: readonly number[], gap: readonly number[], u = 0.1): PlacementReadings => ({
  x,
  gap,
  u: x.map(() => u),
});

function found(
  first: PlacementReadings,
  second: PlacementReadings,
  modes?: readonly ((x: number) => number)[],
): Comparison {
  const answer = compared(first, second, 1, modes);
  if (!answer.ok) throw new Error(answer.reason);
  return answer;
}

const stations = (count: number, step = 100) => Array.from({ length: count }, (_, i) => i * step);

describe('two placements that share stations', () => {
  // NIST Statistical Reference Datasets, Norris: its certified residual standard deviation, squared, times 34.
  it('leave the certified residual squares of Norris, where one reads its y and the other nothing', () => {
    const { y } = norris;
    // Some of its x are alike, and would be looks at one station: they are told apart by a hair.
    const x = norris.x.map((at, i) => at + i * 1e-9);
    const none = x.map(() => 0);
    const answer = compared(reading(x, none, Math.SQRT1_2), reading(x, y, Math.SQRT1_2), 1e-10);
    if (!answer.ok) throw new Error(answer.reason);
    expect(answer.dof).toBe(34);
    const certified = norris.certified.residual_sd ** 2 * 34;
    expect(Math.abs(answer.chiSquare / certified - 1)).toBeLessThan(1e-7);
  });

  it('agree whatever offset and tilt lie between them', () => {
    const x = stations(8);
    const gap = [0, 0.2, 0.9, 1.3, 0.4, 0.2, 0.7, 0.1];
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 40, noNaN: true }),
        fc.double({ min: -0.02, max: 0.02, noNaN: true }),
        (offset, tilt) => {
          const moved = gap.map((g, i) => g + offset + tilt * x[i]);
          const answer = found(reading(x, gap), reading(x, moved));
          expect(answer.chiSquare).toBeLessThan(1e-18);
          expect(answer.probability).toBeGreaterThan(0.999);
        },
      ),
      { seed: 4 },
    );
  });

  it('are refused where they share fewer than three: offset and tilt bring any two together', () => {
    const first = reading([0, 100, 200, 300], [0, 0, 0, 0]);
    const second = reading([200, 300, 400, 500], [3, 0, 0, 0]);
    expect(compared(first, second, 1)).toEqual({
      ok: false,
      reason: 'too few shared stations',
      n: 2,
      needed: 3,
    });
    // A second look at a shared station is no third station.
    const looked = reading([200, 200, 300, 400], [3, 9, 0, 0]);
    expect(compared(first, looked, 1)).toMatchObject({ ok: false, n: 2 });
  });

  it('are told from aft forward, in whatever order they were read', () => {
    const first = reading([300, 0, 200, 100], [0, 0, 0, 0]);
    const second = reading([100, 300, 0, 200], [0, 0.3, 0, 0]);
    expect(found(first, second).shared).toEqual([0, 100, 200, 300]);
  });

  it('count stations as one within the mark that is given, and no farther', () => {
    const first = reading([0, 100, 200, 300], [0, 0, 0, 0]);
    const near = reading([0.3, 100.3, 200.3, 300.3], [0, 0, 0, 0]);
    const { shared } = found(first, near);
    expect(shared.map((x) => Number(x.toFixed(9)))).toEqual([0.15, 100.15, 200.15, 300.15]);
    expect(compared(first, reading([2, 102, 202, 302], [0, 0, 0, 0]), 1)).toMatchObject({ n: 0 });
  });

  it('name the shared station that stands out and by how much: of three alike, half of it at the middle one', () => {
    // By hand: residuals of 0, d, 0 about their line are −d/3, 2d/3, −d/3; with variance v of a difference the middle one
    // has the variance 2v/3, and the squares are (2d²/3)/v.
    const answer = found(reading([0, 100, 200], [0, 0, 0]), reading([0, 100, 200], [0, 0.9, 0]));
    const v = 2 * 0.1 ** 2;
    expect(answer.dof).toBe(1);
    expect(answer.chiSquare).toBeCloseTo((2 * 0.9 ** 2) / 3 / v, 9);
    // All three stand out alike in their own uncertainty; the first is named.
    expect(answer.at).toBe(0);
    expect(answer.apart).toBeCloseTo(-0.3, 12);
    expect(answer.u).toBeCloseTo(Math.sqrt(v / 6), 12);
  });

  it('name the worst of several, with its sign: how much more the second reads there', () => {
    const x = stations(7);
    const gap = x.map(() => 0);
    const off = (at: number, size: number) => gap.map((g, i) => (i === at ? g + size : g));
    const answer = found(reading(x, gap), reading(x, off(3, 1.2)));
    expect(answer.at).toBe(300);
    // By hand: about the mean alone, since 3 is the middle: 1.2·6/7.
    expect(answer.apart).toBeCloseTo((1.2 * 6) / 7, 12);
    expect(answer.u).toBeCloseTo(Math.sqrt(0.02 * (6 / 7)), 12);
    const turned = found(reading(x, off(3, 1.2)), reading(x, gap));
    expect(turned.apart).toBeCloseTo(-answer.apart, 12);
    expect(turned.chiSquare).toBeCloseTo(answer.chiSquare, 9);
  });

  it('weigh looks at one station by how sure they are', () => {
    const x = [0, 100, 200, 300];
    const plain = reading(x, [0, 0, 0, 0]);
    const looks: PlacementReadings = {
      x: [0, 100, 100, 200, 300],
      gap: [0, 0.3, 0.6, 0, 0],
      u: [0.1, 0.1, 0.2, 0.1, 0.1],
    };
    // By hand: weights 100 and 25 make 0.36 with the variance 1/125.
    const averaged: PlacementReadings = {
      x,
      gap: [0, 0.36, 0, 0],
      u: [0.1, Math.sqrt(1 / 125), 0.1, 0.1],
    };
    expect(found(plain, looks).chiSquare).toBeCloseTo(found(plain, averaged).chiSquare, 9);
  });

  it('do not disagree by what is not known of their edges', () => {
    const x = stations(11);
    const bow = (at: number) => 1.2 * (1 - ((at - 500) / 500) ** 2);
    const [first, second] = [
      reading(
        x,
        x.map(() => 0),
      ),
      reading(x, x.map(bow)),
    ];
    expect(found(first, second).probability).toBeLessThan(1e-6);
    const allowed = found(first, second, [(at) => bow(at)]);
    expect(allowed.probability).toBeGreaterThan(0.4);
    // The mode takes up one way of being apart, and no other.
    const kinked = reading(
      x,
      x.map((at) => bow(at) + (at === 300 ? 1.5 : 0)),
    );
    expect(found(first, kinked, [(at) => bow(at)]).probability).toBeLessThan(1e-6);
  });

  // Reference: the chi-square distribution itself, and luck's own spread: 3,000 pairs at 5 % are 150 ± 12.
  it.each([3, 5, 12])(
    'are found to disagree by luck as often as the probability says, over %i shared stations',
    (count) => {
      const normal = seededNormals(20261128 + count);
      const x = stations(count);
      let below = 0;
      for (let k = 0; k < 3000; k++) {
        const [a, b] = [x, x].map((each) => each.map(() => 0.1 * normal()));
        if (found(reading(x, a), reading(x, b)).probability < 0.05) below++;
      }
      expect(Math.abs(below - 150)).toBeLessThan(4 * 12);
    },
  );
});
