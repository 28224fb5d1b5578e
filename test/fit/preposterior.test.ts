import { describe, expect, it } from 'vitest';
import { fitProfile } from '../../src/fit/posterior.ts';
import { outlook } from '../../src/fit/preposterior.ts';
import { again, lineWith, question, T } from './outlookSupport.ts';

describe('what more readings would do to an open verdict', () => {
  const open = lineWith(1.7, 800, 0.4, 150, 22);

  it('is never less for readings that are surer, within what few draws can tell', () => {
    const view = outlook(open.profile, question);
    const chances = [0.8, 0.4, 0.2, 0.05].map((u) => view.chances([again(open.readings.x, u)]));
    for (let i = 1; i < chances.length; i++) {
      expect(chances[i].decided).toBeGreaterThanOrEqual(chances[i - 1].decided - 0.1);
    }
    expect(chances[3].decided).toBeGreaterThan(chances[0].decided);
  });

  it('is nothing where nothing is read, and the same each time it is asked', () => {
    const view = outlook(open.profile, question);
    expect(view.chances([]).decided).toBe(0);
    const act = [again(open.readings.x, 0.2)];
    expect(view.chances(act)).toEqual(outlook(open.profile, question).chances(act));
  });

  it('is mirrored with the readings: what would prove a hook would prove a rocker', () => {
    const { x, gap, u } = open.readings;
    const turned = fitProfile([{ x, gap: gap.map((g) => -g), u }], 10 * T);
    if (!turned.ok) throw new Error(turned.reason);
    const act = [again(x, 0.2)];
    const [up, down] = [outlook(open.profile, question), outlook(turned, question)];
    const [one, other] = [up.chances(act), down.chances(act)];
    expect(one.hook).toBeGreaterThan(0);
    expect(other.rocker).toBe(one.hook);
    expect(other.fair).toBe(one.fair);
  });

  it('is more where a bend of the whole profile is found out as well', () => {
    const bow = Float64Array.from(
      { length: open.profile.basis.size },
      (_, j) => 2 * Math.sin((Math.PI * j) / (open.profile.basis.size - 1)),
    );
    const view = outlook(open.profile, question, (pairs) =>
      Array.from({ length: 2 * pairs }, (_, k) => {
        const amount = (k % 2 === 0 ? 1 : -1) * (((Math.floor(k / 2) * 0.618) % 1) * 2 - 1);
        return bow.map((v) => v * amount);
      }),
    );
    const act = [again(open.readings.x, 0.1)];
    expect(view.chances(act, true).decided).toBeGreaterThan(view.chances(act).decided);
  });

  it('chooses stations where they tell most: near the departure, apart from one another', () => {
    const view = outlook(open.profile, question);
    const between = open.readings.x.slice(1).map((at) => at - 75);
    const chosen = view.mostTelling(between, 0.4, 0, 3, 150);
    expect(chosen).toHaveLength(3);
    for (const [i, at] of chosen.entries()) {
      expect(between).toContain(at);
      for (const other of chosen.slice(0, i))
        expect(Math.abs(at - other)).toBeGreaterThanOrEqual(150);
    }
    expect(view.mostTelling([], 0.4, 0, 3, 150)).toEqual([]);
  });

  it('refuses a place outside the readings: nothing is extrapolated', () => {
    const view = outlook(open.profile, question);
    expect(() => view.chances([{ x: [1600], u: [0.1], placement: 0 }])).toThrow(RangeError);
  });
});
