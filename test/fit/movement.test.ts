import { standardDeviation } from 'simple-statistics';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Surveyed } from '../../src/fit/differenceDraws.ts';
import { differenceDraws } from '../../src/fit/differenceDraws.ts';
import {
  angleOver,
  movement,
  type Movement,
  type MovementQuestion,
} from '../../src/fit/movement.ts';
import { heightsAt } from '../../src/fit/functionals.ts';
import { fitProfile, meanCoefficients } from '../../src/fit/posterior.ts';
import { responseTo } from '../../src/fit/responseTo.ts';
import { places, readingsOf, seededNormals, type Shape } from './support.ts';

const QUESTION: MovementQuestion = {
  over: 1500,
  limit: 1500,
  tail: 300,
  tolerance: 1.5,
  least: 0.375,
};
const twelve = places(0, 1500, 13);
const others = places(20, 1480, 16);

/** Hollow of a depth, rounded, from a place to another. */
const hollowOf =
  (depth: number, from: number, to: number): Shape =>
  (x) =>
    x <= from || x >= to ? 0 : -depth * Math.sin((Math.PI * (x - from)) / (to - from)) ** 2;

function read(
  shape: Shape,
  {
    x = twelve,
    u = 0.1,
    seed,
    tilt = 0,
  }: { readonly x?: number[]; readonly u?: number; readonly seed: number; readonly tilt?: number },
): Surveyed {
  const readings = readingsOf(shape, x, u, { offset: 3, tilt, noise: seededNormals(seed) });
  const profile = fitProfile([readings], 10 * QUESTION.tolerance, QUESTION.limit);
  if (!profile.ok) throw new Error(profile.reason);
  return { profile };
}

function moved(first: Surveyed, second: Surveyed, more: Partial<MovementQuestion> = {}): Movement {
  const found = movement(first, second, { ...QUESTION, ...more });
  if (!found.ok) throw new Error(found.reason);
  return found;
}

const wavy: Shape = (x) => Math.sin(x / 240);

describe('a line that did not move', () => {
  it('is called so when a survey is compared with itself', () => {
    const survey = read(wavy, { seed: 1 });
    const found = moved(survey, survey);
    expect(found.class).toBe('not moved');
    expect(found.sections).toHaveLength(1);
    expect(Math.max(...found.difference.map(({ z }) => Math.abs(z)))).toBeLessThan(0.02);
  });

  it('is called so from other stations and other readings', () => {
    const found = moved(read(wavy, { seed: 2 }), read(wavy, { seed: 3, x: others }));
    expect(found.class).toBe('not moved');
    expect(found.compared).toEqual([20, 1480]);
  });

  it('is not called still where a change that matters could hide', () => {
    const found = moved(read(wavy, { seed: 4, u: 0.5 }), read(wavy, { seed: 5, u: 0.5 }));
    expect(found.class).toBe('cannot tell');
    expect(found.visible).toBeGreaterThan(QUESTION.tolerance);
  });
});

describe('a line that moved', () => {
  const before = read(wavy, { seed: 6 });
  const after = read((x) => wavy(x) + hollowOf(2, 300, 1000)(x), { seed: 7, x: others });
  let found: Movement;
  beforeAll(() => {
    found = moved(before, after);
  });

  it('is called so, inwards, where it went hollow and by how much', () => {
    expect(found.class).toBe('moved');
    const section = found.sections.find((s) => s.class === 'moved');
    expect(section).toMatchObject({ way: 'in' });
    expect(section?.from).toBeGreaterThan(250);
    expect(section?.to).toBeLessThan(1050);
    expect(Math.abs(found.inward.size - 2)).toBeLessThan(2.5 * found.inward.u);
    expect(Math.abs(found.inward.at - 650)).toBeLessThan(120);
  });

  it('turns every sign, and changes no other bit, when the surveys are exchanged', () => {
    const back = moved(after, before);
    const turned = { in: 'out', out: 'in', none: 'none' } as const;
    expect(back.class).toBe(found.class);
    expect(back.threshold).toBe(found.threshold);
    expect(back.visible).toBe(found.visible);
    expect(back.stillness).toBe(found.stillness);
    expect(back.outward).toEqual(found.inward);
    expect(back.inward).toEqual(found.outward);
    expect(back.sections).toEqual(found.sections.map((s) => ({ ...s, way: turned[s.way] })));
    expect(back.tail).toEqual({ ...found.tail, angle: -Number(found.tail?.angle) });
    expect(back.difference).toEqual(found.difference.map((p) => ({ ...p, z: -p.z })));
  });

  it('reads the same whatever straight line either survey carries', () => {
    const tilted = read((x) => wavy(x) + hollowOf(2, 300, 1000)(x), {
      seed: 7,
      x: others,
      tilt: 0.01,
    });
    const other = moved(before, tilted);
    expect(other.sections.map((s) => [s.class, s.way])).toEqual(
      found.sections.map((s) => [s.class, s.way]),
    );
    expect(other.inward.size).toBeCloseTo(found.inward.size, 6);
    expect(other.threshold).toBeCloseTo(found.threshold, 6);
  });

  it('says that a tail turned down, and by how much', () => {
    const wedge: Shape = (x) => Math.max(0, 2.1 * (1 - x / 300));
    const down = moved(
      read(() => 0, { seed: 8 }),
      read(wedge, { seed: 9 }),
    );
    expect(down.class).toBe('moved');
    expect(down.tail?.proven).toBe(true);
    expect(down.tail?.angle).toBeGreaterThan(0);
    // 2.1 mm over 300 mm are 0.40 degrees; the least-squares slopes of a corner read it whole.
    expect(Math.abs(Number(down.tail?.angle) - 0.401)).toBeLessThan(3 * Number(down.tail?.u));
  });

  it('is not called so for less than the least change that counts, however fine the readings', () => {
    const fine = { u: 0.01 };
    const small = (x: number) => hollowOf(0.3, 300, 1000)(x);
    const [one, two] = [read(() => 0, { seed: 10, ...fine }), read(small, { seed: 11, ...fine })];
    expect(moved(one, two).class).toBe('not moved');
    expect(moved(one, two, { least: 0.1 }).class).toBe('moved');
  });
});

describe('an error that is not the same in both', () => {
  const bow = (survey: Surveyed, x: readonly number[], size: number): Surveyed => {
    const plain = [{ x, gap: x.map(() => 0), u: x.map(() => 0.1) }];
    const shape = responseTo(survey.profile, plain, (_, i) => size * (x[i] / 750 - 1) ** 2);
    return { ...survey, systematic: [{ name: 'a bow', shape, distribution: 'normal' }] };
  };

  it('is felt by threshold and uncertainty, so that it is not taken for movement', () => {
    const [one, two] = [read(() => 0, { seed: 12 }), read(hollowOf(1.2, 0, 1500), { seed: 13 })];
    const known = moved(one, two);
    const unknown = moved(bow(one, twelve, 1), bow(two, twelve, 1));
    expect(known.class).toBe('moved');
    expect(unknown.class).toBe('cannot tell');
    expect(unknown.threshold).toBeGreaterThan(2 * known.threshold);
    expect(unknown.inward.u).toBeGreaterThan(2 * known.inward.u);
  });
});

describe('draws of two profiles', () => {
  it('owe nothing to one another: of like surveys their deviations are not correlated', () => {
    const [one, two] = [read(wavy, { seed: 14 }), read(wavy, { seed: 15 })];
    const means = [one, two].map(({ profile }) => meanCoefficients(profile));
    const pairs = differenceDraws(one, two)(0, 400);
    const at = 20;
    let [xx, yy, xy] = [0, 0, 0];
    for (const { first, second } of pairs) {
      const [a, b] = [first[at] - means[0][at], second[at] - means[1][at]];
      xx += a * a;
      yy += b * b;
      xy += a * b;
    }
    // 400 pairs: a correlation of 0.15 is three standard deviations of none.
    expect(Math.abs(xy / Math.sqrt(xx * yy))).toBeLessThan(0.15);
  });

  it('can be carried on: the first pairs are the same, however many follow in stages', () => {
    const [one, two] = [read(wavy, { seed: 16 }), read(wavy, { seed: 17 })];
    const draws = differenceDraws(one, two);
    expect(draws(0, 10)).toEqual(draws(0, 10));
    expect(draws(0, 10)[0].first).toEqual(draws(0, 20)[0].first);
  });
});

describe('what cannot be compared', () => {
  it('is refused where the two have no stretch in common', () => {
    const aft = read(() => 0, { seed: 18, x: places(0, 600, 6) });
    const fore = read(() => 0, { seed: 19, x: places(700, 1500, 6) });
    expect(movement(aft, fore, QUESTION)).toEqual({ ok: false, reason: 'no common stretch' });
  });

  it('throws RangeError on a question that is not one', () => {
    const survey = read(wavy, { seed: 20 });
    expect(() => movement(survey, survey, { ...QUESTION, least: 0 })).toThrow(
      new RangeError('least: a positive number expected'),
    );
    expect(() => movement(survey, survey, { ...QUESTION, tolerance: NaN })).toThrow(RangeError);
  });
});

describe('a change near the least that counts', () => {
  const flat: Shape = () => 0;
  /** Draws are counted: 100 pairs make shares of 1/200, 200 pairs 1/400, 600 pairs 1/1200. */
  const sharesOf = (draws: number, share: number) =>
    Math.abs(share * draws - Math.round(share * draws)) < 1e-9;
  const [one, two] = [
    read(flat, { seed: 21, u: 0.05 }),
    read(hollowOf(0.5, 100, 1400), { seed: 22, u: 0.05 }),
  ];

  it('is not called movement while the draws do not prove that it exceeds it', () => {
    const sure = moved(one, two, { least: 0.2 });
    const open = moved(one, two, { least: 0.46 });
    const section = open.sections.find((s) => s.way === 'in');
    expect(sure.class).toBe('moved');
    expect(open.class).toBe('not moved');
    expect(section?.class).toBe('not moved');
    expect(section?.probability).toBeGreaterThan(0.5);
    expect(section?.probability).toBeLessThan(0.975);
    expect(open.stillness).toBe(1);
  });

  it('cannot be told from none where the change that matters is no larger', () => {
    const found = moved(one, two, { least: 0.46, tolerance: 0.46 });
    expect(found.class).toBe('cannot tell');
    expect(found.sections.find((s) => s.way === 'in')?.class).toBe('cannot tell');
    expect(found.sections.some((s) => s.class === 'moved')).toBe(false);
    expect(found.stillness).toBeLessThan(0.5);
  });

  it('is what sections say of their own stretch: that nothing moved beside it stays so', () => {
    const dent = read(hollowOf(1.5, 900, 1400), { seed: 23, u: 0.05 });
    const found = moved(one, dent, { tolerance: 1 });
    const still = found.sections.filter((s) => s.way === 'none');
    expect(found.sections.filter((s) => s.class === 'moved')).toHaveLength(1);
    expect(still.some((s) => s.class === 'not moved' && s.probability > 0.975)).toBe(true);
    expect(found.stillness).toBeLessThan(0.025);
  });

  it('has more draws made of it, and a plain one the first hundred pairs', () => {
    const plain = moved(one, two, { least: 0.2 });
    const section = plain.sections.find((s) => s.way === 'in');
    expect(sharesOf(200, Number(section?.probability))).toBe(true);
    const shares = [0.4, 0.42, 0.44, 0.46, 0.48, 0.5].flatMap((least) =>
      moved(one, two, { least }).sections.flatMap((s) => (s.way === 'in' ? [s.probability] : [])),
    );
    const finer = shares.filter((share) => !sharesOf(200, share));
    expect(finer.length).toBeGreaterThan(0);
    expect(finer.every((share) => share > 0.8 && share < 0.999)).toBe(true);
    for (const share of shares) expect(sharesOf(1200, share)).toBe(true);
  });
});

describe('how small a change would have been seen', () => {
  it('is the threshold and 1.645 standard uncertainties of the least known place off the ends’ chord', () => {
    const [one, two] = [read(wavy, { seed: 24 }), read(wavy, { seed: 25, u: 0.2 })];
    const found = moved(one, two);
    const x = places(0, 1500, 51);
    const [before, after] = [heightsAt(one.profile, x), heightsAt(two.profile, x)];
    // Other draws than those that were judged with.
    const off = differenceDraws(one, two)(2000, 2600).map(({ first, second }) => {
      const z = before(first).map((v, i) => after(second)[i] - v);
      return z.map((v, i) => v - z[0] - ((z[50] - z[0]) * i) / 50);
    });
    const deviations = x.map((_, i) => standardDeviation(off.map((z) => z[i])));
    const sure = (found.visible - found.threshold) / 1.645;
    expect(Math.abs(sure / Math.max(...deviations) - 1)).toBeLessThan(0.12);
  });

  it('is said of the stretch that both read, whether or not a tail can be told', () => {
    const short = { x: places(100, 800, 8) };
    const found = moved(read(wavy, { seed: 26, ...short }), read(wavy, { seed: 27, ...short }));
    expect(found.tail).toBeUndefined();
    expect(found.class).toBe('not moved');
    expect(found.compared).toEqual([100, 800]);
    expect(found.visible).toBeGreaterThan(found.threshold);
  });
});

it('an angle raises a surface by a height over a length, in degrees', () => {
  expect(angleOver(1, 1)).toBeCloseTo(45, 12);
  expect(angleOver(3, 300)).toBeCloseTo(0.5729, 4);
});
