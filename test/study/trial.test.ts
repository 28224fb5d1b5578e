import { mean, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../src/fit/judge.ts';
import { MEASURES, rateOf } from '../../study/measures.ts';
import { normalsOf } from '../../study/noise.ts';
import { cellsOf, NOISES, type Cell } from '../../study/plan.ts';
import { held } from '../../study/trial.ts';
import type { Truth } from '../../study/truth.ts';

const T = 1.5;
const truth = (hollow: number, hump: number): Truth => ({
  height: () => 0,
  hollow: hollow * T,
  hump: hump * T,
  larger: hollow >= hump ? 'hollow' : 'hump',
  tailAngle: 0.4,
});
const told = (verdict: readonly Verdict[], { size = 2.4 * T, angle = 0.4 } = {}) => {
  const place = { u: 0.1, at: 700, from: 0, to: 1500 };
  return {
    verdict,
    hollow: { size, ...place },
    hump: { size: 0, ...place },
    tail: { angle, u: 0.05, over: 300 },
  };
};

describe('a verdict held against the truth', () => {
  it('is right when it names the larger departure and nothing within the tolerance', () => {
    expect(held(told(['hook']), truth(2.4, 1), T).labelRight).toBe(true);
    expect(held(told(['hook', 'rocker']), truth(2.4, 1), T).labelRight).toBe(false);
    expect(held(told(['rocker']), truth(2.4, 1), T).labelRight).toBe(false);
    expect(held(told(['undecided']), truth(2.4, 1), T).labelRight).toBe(false);
  });

  it('must name the lesser departure from 1.5 tolerances, and may from one', () => {
    for (const verdict of [['hook'], ['hook', 'rocker']] as const) {
      expect(held(told(verdict), truth(2.4, 1.2), T).labelRight).toBe(true);
    }
    expect(held(told(['hook']), truth(2.4, 1.6), T).labelRight).toBe(false);
    expect(held(told(['hook', 'rocker']), truth(2.4, 1.6), T).labelRight).toBe(true);
  });

  it('has found the departure by its kind; by either where they are equal', () => {
    expect(held(told(['rocker']), truth(1.5, 1.2), T).found).toBe(false);
    expect(held(told(['rocker']), truth(1.2, 1.5), T).found).toBe(true);
    expect(held(told(['rocker']), truth(1.5, 1.5), T).found).toBe(true);
  });

  it('holds the truth within 1.96 standard uncertainties and not beyond', () => {
    const within = held(told(['hook'], { size: 2.4 * T + 0.19, angle: 0.31 }), truth(2.4, 0), T);
    const beyond = held(told(['hook'], { size: 2.4 * T + 0.2, angle: 0.3 }), truth(2.4, 0), T);
    expect([within.depthCovered, within.tailCovered]).toEqual([true, true]);
    expect([beyond.depthCovered, beyond.tailCovered]).toEqual([false, false]);
  });
});

describe('the errors of readings', () => {
  it('are standard normal to the accuracy of 40,000', () => {
    const normal = normalsOf(1, 2, 3);
    const values = Array.from({ length: 40_000 }, normal);
    expect(Math.abs(mean(values))).toBeLessThan(4 / 200);
    expect(Math.abs(standardDeviation(values) - 1)).toBeLessThan(4 / Math.sqrt(80_000));
    const beyond = values.filter((v) => Math.abs(v) > 1.96).length / values.length;
    expect(Math.abs(beyond - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 40_000));
  });

  it('come again for the same keys, and are others for any other', () => {
    const first = (...keys: number[]) => normalsOf(...keys)();
    expect(first(5, 7)).toBe(first(5, 7));
    expect(new Set([first(5, 7), first(7, 5), first(5, 8), first(4, 7), first(5)]).size).toBe(5);
  });
});

describe('the study', () => {
  const family = { name: 'parabola', shape: (s: number) => s * (s - 1) };

  it('gives the same trials for the same seed, half as many off the tolerance as at it', () => {
    const part = { overs: [1500], noises: NOISES.slice(0, 1) };
    const cells = cellsOf(family, 12, 3, part);
    expect(cellsOf(family, 12, 3, part)).toEqual(cells);
    expect(cells).toHaveLength(4);
    for (const { depth, trials } of cells) expect(trials).toHaveLength(depth === 1 ? 12 : 6);
  });

  it('refuses runs that do not go round spacings and signs', () => {
    expect(() => cellsOf(family, 10, 3)).toThrow(RangeError);
    expect(() => cellsOf(family, 0, 3)).toThrow(RangeError);
    expect(() => cellsOf(family, 12, 0.5)).toThrow(RangeError);
  });

  it('counts each family alike, and names the one that fares worst', () => {
    const [measure] = MEASURES;
    const noise = NOISES[0].key;
    const trialOf = (hookOrRocker: boolean) => ({
      hookOrRocker,
      fair: false,
      found: false,
      labelRight: false,
      depthCovered: true,
      tailCovered: true,
      scatterTold: false,
      spacing: 100,
    });
    const cell = (name: string, calls: readonly boolean[], depth: Cell['depth'] = 1): Cell => ({
      family: name,
      over: 1500,
      depth,
      noise,
      trials: calls.map(trialOf),
    });
    const cells = [
      cell('a', [true, false]),
      cell('b', [false, false, false, false]),
      cell('a', [true, true], 2.4),
    ];
    expect(rateOf(measure, cells, noise)).toEqual({
      mean: 25,
      worst: { rate: 50, family: 'a' },
      trials: 6,
    });
    expect(() => rateOf(measure, cells, 'T/5')).toThrow(RangeError);
  });
});
