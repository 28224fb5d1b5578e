import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/judge.ts';
import { fitProfile } from '../../src/fit/posterior.ts';
import { outlook, type NewReadings } from '../../src/fit/preposterior.ts';
import { rowsOf } from '../../src/fit/readingRows.ts';

const T = 1.5;
const question = { tolerance: T, over: 1500, limit: 1500, tail: 300 };

function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

function lineWith(depth: number, width: number, u: number, spacing: number, seed: number) {
  const normal = normals(seed);
  const x = Array.from({ length: Math.round(1500 / spacing) + 1 }, (_, i) => i * spacing);
  const gap = x.map((at) => {
    const off = Math.abs(at - 750) / (width / 2);
    return (off < 1 ? depth * Math.cos((Math.PI / 2) * off) ** 2 : 0) + u * normal();
  });
  const readings = { x, gap, u: x.map(() => u) };
  const profile = fitProfile([readings], 10 * T);
  if (!profile.ok) throw new Error(profile.reason);
  return { profile, readings };
}

/** The act carried out: truths from the posterior, readings simulated of them, refitted and judged. */
function carriedOut(
  { profile, readings }: ReturnType<typeof lineWith>,
  act: NewReadings,
  times: number,
): number {
  const rows = rowsOf(profile);
  const draws = rows.draws(200, 200 + times);
  const normal = normals(77);
  let decided = 0;
  for (let k = 0; k < times; k++) {
    const { unknowns, noise } = draws[2 * k];
    const [offset, tilt] = act.placement === undefined ? [normal(), normal()] : [0, 0];
    const gap = act.x.map(
      (x, i) =>
        -rows.at(rows.row(x, 0), unknowns) +
        act.u[i] * noise * normal() +
        offset +
        (tilt * x) / 1500,
    );
    const all =
      act.placement === undefined
        ? [readings, { x: act.x, gap, u: act.u }]
        : [
            {
              x: [...readings.x, ...act.x],
              gap: [...readings.gap, ...gap],
              u: [...readings.u, ...act.u],
            },
          ];
    const after = fitProfile(all, 10 * T);
    if (!after.ok) throw new Error(after.reason);
    if (!judge(after, question).verdict.includes('undecided')) decided++;
  }
  return decided / times;
}

const again = (x: readonly number[], u: number): NewReadings => ({ x, u: x.map(() => u) });

describe('what more readings would do to an open verdict', () => {
  // Reference: the act itself, simulated 60 times, refitted and judged; that is known to ± 0.13 at two standard errors,
  // and 24 truths are drawn here, to ± 0.2.
  it('is foretold as often as carrying the act out and judging anew decides it', () => {
    const lines = [
      lineWith(1.9, 800, 0.3, 100, 11),
      lineWith(1.2, 900, 0.5, 125, 12),
      lineWith(-1.8, 700, 0.3, 150, 13),
      lineWith(0.6, 800, 0.5, 100, 14),
    ];
    const off: number[] = [];
    for (const line of lines) {
      const view = outlook(line.profile, question);
      for (const act of [again(line.readings.x, 0.15), again(line.readings.x, 0.3)]) {
        off.push(view.chances([act]).decided - carriedOut(line, act, 60));
      }
    }
    const mean = off.reduce((sum, value) => sum + value, 0) / off.length;
    const spread = Math.sqrt(off.reduce((sum, value) => sum + value * value, 0) / off.length);
    expect(Math.abs(mean)).toBeLessThan(0.12);
    expect(spread).toBeLessThan(0.22);
  }, 120_000);

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
