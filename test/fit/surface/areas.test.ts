import { describe, expect, it } from 'vitest';
import { areasOf } from '../../../src/fit/surface/areas.ts';
import { seededNormals } from '../support.ts';
import { fitted, STRETCH } from './changeSupport.ts';
import { FIVE, readingsOn, round, sumOf, type Surface } from './panelSupport.ts';

const T = { tolerance: 1.5, over: 1500 };
const found = (surface: Surface, u = 0.15, seed = 7) =>
  areasOf(fitted(readingsOn(surface, FIVE, u, seededNormals(seed))), STRETCH, T);
/** Whether a probability can be told by two hundred draws, and need not be by eight hundred. */
const byFew = (p: number) => Math.abs(p * 200 - Math.round(p * 200)) < 1e-9;

describe('areas of a panel', () => {
  it('are hollow and hump where both are proven, the surer first', () => {
    const both = found(sumOf(round(-4, [350, 300], [180, 120]), round(4, [1150, 600], [180, 120])));
    expect(both.verdict).toBe('hollow and hump');
    expect(
      both.areas
        .slice(0, 2)
        .map(({ kind, proven }) => [kind, proven])
        .sort(),
    ).toEqual([
      ['hollow', true],
      ['hump', true],
    ]);
    const probabilities = both.areas.map(({ probability }) => probability);
    expect(probabilities).toEqual([...probabilities].sort((a, b) => b - a));
  });

  it('come the larger first where they are equally sure', () => {
    const sure = (first: number, second: number) =>
      found(
        sumOf(round(first, [350, 300], [180, 120]), round(second, [1150, 600], [180, 120])),
        0.05,
      )
        .areas.filter(({ probability }) => probability === 1)
        .map(({ at }) => at.line);
    expect(sure(-3.5, -6).slice(0, 2)).toEqual([3, 1]);
    expect(sure(-6, -3.5).slice(0, 2)).toEqual([1, 3]);
  });

  it('are a hump alone where only that is proven', () => {
    expect(found(round(4, [600, 450], [220, 170])).verdict).toBe('hump');
  });

  it('are told and not proven near the tolerance, and the panel is then undecided', () => {
    const near = found(round(-1.9, [600, 450], [220, 170]), 0.25);
    expect(near.verdict).toBe('undecided');
    expect(near.areas[0]).toMatchObject({ kind: 'hollow', proven: false });
    expect(near.areas[0].probability).toBeGreaterThan(0.05);
    expect(near.areas[0].probability).toBeLessThan(0.975);
    expect(near.fairness).toBeLessThan(0.975);
  });

  it('are looked at in more draws where the first leave a verdict close, and only there', () => {
    const all = (seed: number) => {
      const { areas, fairness } = found(round(-1.9, [600, 450], [220, 170]), 0.2, seed);
      return [fairness, ...areas.map(({ probability }) => probability)];
    };
    const close = all(3);
    expect(close[1]).toBeGreaterThan(0.9);
    expect(close[1]).toBeLessThan(0.99);
    expect(close.every(byFew)).toBe(false);
    for (const seed of [5, 8]) {
      const clear = all(seed);
      expect(Math.max(...clear)).toBeLessThan(0.9);
      expect(clear.every(byFew)).toBe(true);
    }
  });

  it('reach half a place beyond their places, and take up what those stand for', () => {
    // A trough along the whole panel, on the middle line alone, which stands for 150 mm of the width.
    const trough: Surface = (_, y) => (y === 450 ? -4 : 0);
    const [area] = found(trough, 0.05).areas;
    expect(area).toMatchObject({ kind: 'hollow', lines: [2], y: [450, 450], x: [0, 1500] });
    expect(area.extent).toBeCloseTo(1500 * 150, 6);
    const dent = found(round(-4, [600, 450], [120, 60]), 0.05).areas[0];
    expect(dent.u).toBeLessThan(0.5);
    expect(dent.lines).toEqual([2]);
    expect(dent.extent).toBeCloseTo((dent.x[1] - dent.x[0]) * 150, 6);
    expect(dent.x[0]).toBeGreaterThan(350);
    expect(dent.x[1]).toBeLessThan(850);
    expect((dent.x[0] + dent.x[1]) / 2).toBeGreaterThan(560);
    expect((dent.x[0] + dent.x[1]) / 2).toBeLessThan(640);
    // Half way between two of the places, of which there are 36 steps over 1500 mm.
    const step = 1500 / 36;
    for (const end of dent.x) expect(Math.abs(((end / step) % 1) - 0.5)).toBeLessThan(1e-6);
  });
});
