import { describe, expect, it } from 'vitest';
import { sectionsOf } from '../../src/fit/sections.ts';

const x = [0, 100, 200, 300, 400, 500];
const T = 1;
const none = Float64Array.of(0, 0, 0, 0, 0, 0);
const hookAft = Float64Array.of(0, 2, 3, 2, 0, 0);
const hookAhead = Float64Array.of(0, 0, 0, 2, 3, 0);

/** `hooks` of 100 draws have the hollow given, the rest nothing. */
function drawn(hooks: number, hollow = hookAft) {
  const draws = Array.from({ length: 100 }, (_, k) => (k < hooks ? hollow : none));
  return { hollows: draws, humps: draws.map(() => none), typical: 'hollows first' as const };
}

describe('sections', () => {
  it('are a hook where every draw has one, fair elsewhere, meeting halfway between places', () => {
    const { sections, fairness } = sectionsOf(drawn(100), x, T, 0.975);
    expect(fairness).toBe(0);
    expect(sections.map((s) => [s.from, s.to, s.class, s.probability])).toEqual([
      [0, 50, 'fair', 1],
      [50, 350, 'hook', 1],
      [350, 500, 'fair', 1],
    ]);
  });

  it('swap hook and rocker when the hump is the departure', () => {
    const { hollows, humps, typical } = drawn(100);
    const { sections } = sectionsOf({ hollows: humps, humps: hollows, typical }, x, T, 0.975);
    expect(sections.map((s) => s.class)).toEqual(['fair', 'rocker', 'fair']);
  });

  it('are undecided, leaning to hook, where 97 of 100 draws have it, and proven with 98', () => {
    const short = sectionsOf(drawn(97), x, T, 0.975);
    expect(short.sections[1]).toMatchObject({ class: 'undecided', leaning: 'hook', proven: false });
    expect(sectionsOf(drawn(98), x, T, 0.975).sections[1]).toMatchObject({
      class: 'hook',
      proven: true,
    });
  });

  it('are undecided, leaning to fair, where a tenth of the draws have a hook', () => {
    const { sections, fairness } = sectionsOf(drawn(10), x, T, 0.975);
    expect(fairness).toBe(0.9);
    expect(sections).toEqual([
      { from: 0, to: 500, class: 'undecided', leaning: 'fair', proven: false, probability: 0.9 },
    ]);
  });

  it('are fair beside a hook whose end is blurred, since its peak lies in the hook', () => {
    const wide = Float64Array.of(0, 2, 3, 2, 1.2, 0);
    const { hollows, humps, typical } = drawn(100);
    const blurred = hollows.map((h, k) => (k < 30 ? wide : h));
    const { sections } = sectionsOf({ hollows: blurred, humps, typical }, x, T, 0.975);
    expect(sections.map((s) => [s.class, s.probability])).toEqual([
      ['fair', 1],
      ['hook', 1],
      ['fair', 1],
    ]);
  });

  it('are undecided where some draws have a second, lesser hook of their own', () => {
    const two = Float64Array.of(0, 1.5, 0, 2, 3, 0);
    const { hollows, humps, typical } = drawn(100, hookAhead);
    const some = hollows.map((h, k) => (k < 30 ? two : h));
    const { sections } = sectionsOf({ hollows: some, humps, typical }, x, T, 0.975);
    expect(sections.map((s) => [s.class, s.leaning, s.probability])).toEqual([
      ['undecided', 'fair', 0.7],
      ['hook', 'hook', 1],
      ['fair', 'fair', 1],
    ]);
  });

  it('are not fair where the hook wanders: wherever it is, it is above the tolerance', () => {
    const { humps, typical } = drawn(0);
    const hollows = humps.map((_, k) => (k % 2 === 0 ? hookAft : hookAhead));
    const { fairness, sections } = sectionsOf({ hollows, humps, typical }, x, T, 0.975);
    expect(fairness).toBe(0);
    expect(sections.some((s) => s.class === 'hook')).toBe(true);
  });

  it('reach to the ends of the line where a departure does', () => {
    for (const [hollow, classes] of [
      [Float64Array.of(0, 0, 0, 0, 2, 3), ['fair', 'hook']],
      [Float64Array.of(3, 2, 0, 0, 0, 0), ['hook', 'fair']],
      [Float64Array.of(3, 2, 2, 2, 2, 2), ['hook']],
    ] as const) {
      const { sections, fairness } = sectionsOf(drawn(100, hollow), x, T, 0.975);
      expect(fairness).toBe(0);
      expect(sections.map((s) => s.class)).toEqual(classes);
      expect(sections[0].from).toBe(0);
      expect(sections[sections.length - 1].to).toBe(500);
      expect(sectionsOf(drawn(10, hollow), x, T, 0.975).fairness).toBe(0.9);
    }
  });

  it('that are fair but for a lesser hook of some draws are undecided wherever in them it stands', () => {
    const spoiledBy = (main: readonly number[], extra: readonly number[]) => {
      const { humps, typical } = drawn(0);
      const hollows = humps.map((_, k) => Float64Array.from(k < 30 ? extra : main));
      const { sections } = sectionsOf({ hollows, humps, typical }, x, T, 0.975);
      return sections.map((s) => [s.leaning, s.probability]);
    };
    expect(spoiledBy([0, 0, 0, 2, 3, 0], [1.5, 0, 0, 2, 3, 0])).toEqual([
      ['fair', 0.7],
      ['hook', 1],
      ['fair', 1],
    ]);
    expect(spoiledBy([2, 3, 0, 0, 0, 0], [2, 3, 0, 0, 0, 1.5])).toEqual([
      ['hook', 1],
      ['fair', 0.7],
    ]);
  });

  it('lean to fair where half the draws do, and are proven by just the share asked for', () => {
    expect(sectionsOf(drawn(50), x, T, 0.975).sections[0]).toMatchObject({
      leaning: 'fair',
      to: 500,
    });
    expect(sectionsOf(drawn(51), x, T, 0.975).sections[1]).toMatchObject({ leaning: 'hook' });
    expect(sectionsOf(drawn(98), x, T, 0.98).sections[1]).toMatchObject({ proven: true });
    const { hollows, humps, typical } = drawn(50);
    const { sections } = sectionsOf({ hollows: humps, humps: hollows, typical }, x, T, 0.975);
    expect(sections).toHaveLength(1);
  });

  it('are of the larger of hollow and hump where both are above the tolerance', () => {
    const larger = hookAft.map((v) => 2 * v);
    const typical = 'both as they stand' as const;
    const both = (hollow: Float64Array, hump: Float64Array) =>
      sectionsOf(
        { hollows: [hollow, hollow], humps: [hump, hump], typical },
        x,
        T,
        0.975,
      ).sections.map((s) => s.class);
    expect(both(larger, hookAft)).toEqual(['fair', 'hook', 'fair']);
    expect(both(hookAft, larger)).toEqual(['fair', 'rocker', 'fair']);
    expect(both(hookAft, hookAft)).toEqual(['fair', 'hook', 'fair']);
  });

  it('take a departure of just the tolerance as fair', () => {
    const { fairness } = sectionsOf(drawn(100, Float64Array.of(0, 0, 1, 0, 0, 0)), x, T, 0.975);
    expect(fairness).toBe(1);
  });
});
