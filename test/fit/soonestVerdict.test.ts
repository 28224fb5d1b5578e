import { describe, expect, it } from 'vitest';
import { chords } from '../../src/fit/departures.ts';
import { MOST_PAIRS, soonestVerdict, type CornerOf } from '../../src/fit/soonestVerdict.ts';
import { seededNormals } from './support.ts';

const T = 1.5;
const on = chords(0, 1500, 1500, { count: 36 });
const sickle = Float64Array.from(on.x, (x) => Math.sin((Math.PI * x) / 1500));
const none: CornerOf = () => ({ shift: 0, variance: 0 });

/** Mirrored pairs about a hollow of this depth that scatter in depth alone; counts how many were asked for. */
function pairsOf(depth: number, spread: number) {
  const normal = seededNormals(5);
  const offs = Array.from({ length: MOST_PAIRS }, () => spread * normal());
  const asked = { pairs: 0 };
  const pair = (k: number) => {
    asked.pairs = Math.max(asked.pairs, k + 1);
    return [1, -1].map((way) => sickle.map((v) => -(depth + way * offs[k]) * v));
  };
  return { pair, asked };
}

const verdict = (depth: number, spread: number, cornerOf = none) =>
  soonestVerdict(on, T, pairsOf(depth, spread).pair, cornerOf);

describe('the soonest verdict', () => {
  it('is hook, rocker or fair where draws keep far from the tolerance, and then takes few of them', () => {
    for (const [depth, word] of [
      [3, 'hook'],
      [-3, 'rocker'],
      [0.3, 'fair'],
    ] as const) {
      const { pair, asked } = pairsOf(depth, 0.05);
      expect(soonestVerdict(on, T, pair, none)).toEqual([word]);
      expect(asked.pairs).toBeLessThanOrEqual(10);
    }
  });

  it('is none where draws lie on both sides of the tolerance, and gives up soon', () => {
    const { pair, asked } = pairsOf(1.5, 0.4);
    expect(soonestVerdict(on, T, pair, none)).toEqual([]);
    expect(asked.pairs).toBeLessThanOrEqual(10);
  });

  it('takes all its draws where the probability comes near what is needed', () => {
    const { pair, asked } = pairsOf(1.5 + 2.1 * 0.2, 0.2);
    soonestVerdict(on, T, pair, none);
    expect(asked.pairs).toBe(MOST_PAIRS);
  });

  it('has to be borne out by what a corner would do to the size, as the verdict itself has', () => {
    const narrow =
      (shift: number, variance: number): CornerOf =>
      () => ({ shift, variance });
    expect(verdict(2, 0.1)).toEqual(['hook']);
    // A size that may be smaller by as much as it exceeds the tolerance proves no hook.
    expect(verdict(2, 0.1, narrow(-0.4, 0))).toEqual([]);
    expect(verdict(2, 0.1, narrow(0, 0.5 ** 2))).toEqual([]);
    expect(verdict(2, 0.1, narrow(0.4, 0.1 ** 2))).toEqual(['hook']);
    // One that may be larger proves nothing fair.
    expect(verdict(1, 0.1)).toEqual(['fair']);
    expect(verdict(1, 0.1, narrow(0.6, 0))).toEqual([]);
    expect(verdict(1, 0.1, narrow(0, 0.5 ** 2))).toEqual([]);
    expect(verdict(1, 0.1, narrow(-0.2, 0.1 ** 2))).toEqual(['fair']);
  });

  it('has a rocker borne out as a hook, its kind and place asked for', () => {
    const kinds: string[] = [];
    const of =
      (shift: number): CornerOf =>
      (kind, { at }) => {
        kinds.push(`${kind} ${at}`);
        return { shift, variance: 0 };
      };
    expect(verdict(-2, 0.1, of(0))).toEqual(['rocker']);
    expect(verdict(-2, 0.1, of(-0.4))).toEqual([]);
    expect(verdict(-1, 0.1, of(0))).toEqual(['fair']);
    expect(verdict(-1, 0.1, of(0.6))).toEqual([]);
    expect(new Set(kinds)).toEqual(new Set(['hump 750']));
  });

  it('asks of the corner where the largest departure of its kind lies, by the account that is taken', () => {
    const asked: Parameters<CornerOf>[] = [];
    verdict(2, 0.1, (...of) => {
      asked.push(of);
      return { shift: 0, variance: 0 };
    });
    const hollow = asked.filter(([kind]) => kind === 'hollow');
    expect(hollow.length).toBeGreaterThan(0);
    for (const [, place, told] of hollow) {
      expect(place).toMatchObject({ at: 750, from: 0, to: 1500 });
      expect(told).toBe('hollows first');
    }
    // Nothing stands proud of such a bottom: of a hump nothing is asked.
    expect(asked.filter(([kind]) => kind === 'hump')).toEqual([]);
  });
});
