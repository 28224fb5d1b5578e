import { describe, expect, it } from 'vitest';
import { fitProfile } from '../../src/fit/posterior.ts';
import { scatterBeyondStated } from '../../src/fit/scatter.ts';
import { slipIn } from '../../src/fit/slip.ts';
import { seededNormals } from './support.ts';

const FLOOR = 15;
const U = 0.15;
const x = Array.from({ length: 16 }, (_, i) => 100 * i);
const u = x.map(() => U);

type Shape = (x: number) => number;
const hollow: Shape = (at) => 4 * Math.max(0, Math.cos((Math.PI * (at - 600)) / 1200));
const wedge: Shape = (at) => Math.max(0, 300 - at) / 75;

function readings(shape: Shape, seed: number, times = 1) {
  const scatter = seededNormals(seed);
  return { x, gap: x.map((at) => shape(at) + times * U * scatter()), u };
}

describe('a slip of the pen', () => {
  it.each([
    ['straight', () => 0],
    ['hollow', hollow],
    ['wedge-tailed', wedge],
  ] as [string, Shape][])('on a %s bottom is found, and sound readings are not', (_, shape) => {
    for (let seed = 1; seed <= 40; seed++) {
      const sound = readings(shape, seed);
      expect(slipIn([sound], FLOOR)).toBeUndefined();
      const at = 1 + (seed % 14);
      const gap = sound.gap.map((g, i) => (i === at ? g + 3 : g));
      const found = slipIn([{ ...sound, gap }], FLOOR);
      expect(found).toMatchObject({ placement: 0, index: at });
      expect(Math.abs((found?.expected ?? NaN) - sound.gap[at])).toBeLessThan(1);
    }
  });

  it('is told by another look at the same station', () => {
    const sound = readings(hollow, 7);
    const placement = {
      x: [...x, 500],
      gap: [...sound.gap, sound.gap[5] + 4],
      u: [...u, U],
    };
    expect(slipIn([placement], FLOOR)).toMatchObject({ placement: 0, index: 16 });
  });

  it('is told in the placement that it was made in, which has a line of its own', () => {
    const first = readings(hollow, 3);
    const scatter = seededNormals(4);
    const again = { x, gap: x.map((at) => hollow(at) + 2 + 0.001 * at + U * scatter()), u };
    const gap = again.gap.map((g, i) => (i === 9 ? g - 3 : g));
    const found = slipIn([first, { ...again, gap }], FLOOR);
    expect(found).toMatchObject({ placement: 1, index: 9 });
    expect(Math.abs((found?.expected ?? NaN) - again.gap[9])).toBeLessThan(0.5);
    const third = { x, gap: gap.map((g, i) => g - 6 + 0.003 * x[i]), u };
    const last = slipIn([first, again, third], FLOOR);
    expect(last).toMatchObject({ placement: 2, index: 9 });
    const wanted = again.gap[9] - 6 + 0.003 * x[9];
    expect(Math.abs((last?.expected ?? NaN) - wanted)).toBeLessThan(0.5);
  });

  it('is found in whatever order the readings come, and wherever stations count from', () => {
    const laid = (at: number) => hollow(at) + 7 - 0.002 * at;
    const scatter = seededNormals(21);
    const sound = x.map((at) => laid(at) + U * scatter());
    // Every fifth row of the sheet first; the slip stands in row 9.
    const order = [0, 5, 10, 15, 3, 8, 13, 1, 6, 11, 4, 9, 14, 2, 7, 12];
    for (const start of [-3000, 0, 5000]) {
      const found = slipIn(
        [
          {
            x: order.map((i) => start + x[i]),
            gap: order.map((i, row) => sound[i] + (row === 9 ? 3 : 0)),
            u,
          },
        ],
        FLOOR,
      );
      expect(found).toMatchObject({ placement: 0, index: 9 });
      expect(Math.abs((found?.expected ?? NaN) - laid(x[order[9]]))).toBeLessThan(0.5);
      const none = { x: order.map((i) => start + x[i]), gap: order.map((i) => sound[i]), u };
      expect(slipIn([none], FLOOR)).toBeUndefined();
    }
  });

  it('at an outermost station is told by another look there', () => {
    const sound = readings(hollow, 6);
    for (const end of [0, 15]) {
      const looks = {
        x: [...x, x[end]],
        gap: [...sound.gap, sound.gap[end] + 4],
        u: [...u, U],
      };
      const found = slipIn([looks], FLOOR);
      expect([end, 16]).toContain(found?.index);
    }
  });

  it('that lies farthest off is told first, wherever it stands among others', () => {
    const sound = readings(hollow, 8);
    for (const [near, far] of [
      [4, 10],
      [10, 4],
    ]) {
      const gap = sound.gap.map((g, i) => (i === far ? g + 6 : i === near ? g + 3 : g));
      expect(slipIn([{ ...sound, gap }], FLOOR)).toMatchObject({ index: far });
      // Struck, it no longer hides the other.
      const keep = (values: readonly number[]) => values.filter((_, i) => i !== far);
      const rest = { x: keep(x), gap: keep(gap), u: keep(u) };
      const index = near < far ? near : near - 1;
      expect(slipIn([rest], FLOOR)).toMatchObject({ index });
    }
  });

  it('is told with an uncertainty that covers what stood there before', () => {
    let covered = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const sound = readings(hollow, seed);
      const gap = sound.gap.map((g, i) => (i === 8 ? g + 5 : g));
      const found = slipIn([{ ...sound, gap }], FLOOR);
      if (!found) throw new Error('a slip expected');
      // Of the fitted curve alone; the reading's own scatter comes on top.
      const off = Math.abs(found.expected - sound.gap[8]) / Math.hypot(found.u, U);
      if (off < 2) covered++;
      expect(found.u).toBeGreaterThan(U / 10);
      expect(found.u).toBeLessThan(3 * U);
    }
    expect(covered).toBeGreaterThanOrEqual(36);
  });

  it('is looked for in 500 readings, and no longer in more: those are logs', () => {
    const log = (count: number) => {
      const places = Array.from({ length: count }, (_, i) => 3 * i);
      const gap = places.map((at, i) => hollow(at) + (i === 77 ? 5 : 0));
      return { x: places, gap, u: places.map(() => U) };
    };
    expect(slipIn([log(500)], FLOOR)).toMatchObject({ index: 77 });
    expect(slipIn([log(501)], FLOOR)).toBeUndefined();
    const half = { x: [1500, 1503], gap: [0, 0], u: [U, U] };
    expect(slipIn([log(499), half], FLOOR)).toBeUndefined();
  });

  it('is not told of a placement that fewer readings leave undetermined', () => {
    const sound = readings(() => 0, 2);
    const few = { x: [300, 300, 300], gap: [0, 0, 9], u: [U, U, U] };
    expect(slipIn([few], FLOOR)).toBeUndefined();
    expect(slipIn([sound, few], FLOOR)).toBeUndefined();
    expect(slipIn([], FLOOR)).toBeUndefined();
  });

  it('is not looked for at an outermost station, since nothing is extrapolated', () => {
    const sound = readings(() => 0, 5);
    const gap = sound.gap.map((g, i) => (i === 15 ? g + 9 : g));
    expect(slipIn([{ ...sound, gap }], FLOOR)?.index).not.toBe(15);
  });
});

describe('scatter beyond what was stated', () => {
  const told = (times: number): number =>
    Array.from({ length: 60 }, (_, seed) => {
      const profile = fitProfile([readings(() => 0, 100 + seed, times)], FLOOR);
      if (!profile.ok) throw new Error(profile.reason);
      return scatterBeyondStated(profile);
    }).filter((probability) => probability > 0.6).length / 60;

  it('is hardly ever told where there is none, and mostly where it is twice as stated', () => {
    expect(told(1)).toBeLessThan(0.05);
    expect(told(2)).toBeGreaterThan(0.5);
  });
});

describe('the floor of the roughness', () => {
  it('speaks of the judged stretch: readings far ahead of it do not smooth what lies within', () => {
    const near = readings(hollow, 11);
    const far = { x: [...x, 20_000], gap: [...near.gap, 0], u: [...u, U] };
    const alone = fitProfile([near], FLOOR);
    const both = fitProfile([far], FLOOR, 1500);
    if (!alone.ok || !both.ok) throw new Error('a profile expected');
    const scale = (20_000 / 1500) ** 1.5;
    expect(both.components[0].roughness).toBeCloseTo(FLOOR * scale, 6);
    expect(alone.components[0].roughness).toBe(FLOOR);
  });

  it('refuses a stretch that is none', () => {
    expect(() => fitProfile([readings(hollow, 1)], FLOOR, 0)).toThrow(RangeError);
  });
});
