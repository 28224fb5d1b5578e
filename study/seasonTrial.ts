import type { Movement } from '../src/fit/movement.ts';
import { movement } from '../src/fit/movement.ts';
import { fitReadings } from '../src/survey/fitReadings.ts';
import { FAMILIES } from './families.ts';
import { normalsOf } from './noise.ts';
import { truthOf, type Ground } from './truth.ts';

/** What is true of every pair of surveys: mm. Tolerance 1.5 mm over 1500 mm, as the house has it. */
export const GROUND: Ground = { length: 1500, tolerance: 1.5, over: 1500, tail: 300 };

/** How the two surveys of a line were read, mm. Stations need not coincide. */
export interface SeasonReading {
  readonly first: readonly number[];
  readonly second: readonly number[];
  /** Standard uncertainty of a reading as stated, and as it really is. */
  readonly stated: number;
  readonly real: number;
}

const evenly = (spacing: number, from = 0): readonly number[] =>
  Array.from(
    { length: Math.floor((GROUND.length - from) / spacing) + 1 },
    (_, i) => from + i * spacing,
  );

/** The same stations twice; and others the second time, neither spacing nor first station the same. */
export const STATIONS = {
  same: { first: evenly(125), second: evenly(125) },
  others: { first: evenly(125), second: evenly(100, 20) },
} as const;

/** One line of a hull surveyed twice: a shape of the study's families, of up to two tolerances and either sign, that
 *  grows by `growth` mm in a shape of its own, or not at all. `keys` make its readings. Undefined where a shape
 *  cannot be scaled to its size. */
export function seasonTrial(
  keys: readonly [seed: number, hull: number, line: number],
  growth: number,
  { first, second, stated, real }: SeasonReading,
): Movement | undefined {
  const normal = normalsOf(...keys, Math.round(1000 * growth));
  const [, hull, line] = keys;
  const place = (hull * 7 + line * 11) % FAMILIES.length;
  const size = (((hull * 5 + line * 3) % 8) / 4) * GROUND.tolerance;
  const base = size === 0 ? undefined : truthOf(FAMILIES[place].shape, size, GROUND);
  if (size > 0 && base === undefined) return undefined;
  const grown =
    growth === 0
      ? undefined
      : truthOf(FAMILIES[(place + 13 * (hull + 1)) % FAMILIES.length].shape, growth, GROUND);
  if (growth > 0 && grown === undefined) return undefined;
  const sign = hull % 2 === 0 ? 1 : -1;
  const way = (hull >> 1) % 2 === 0 ? 1 : -1;
  const before = (x: number): number => (base === undefined ? 0 : sign * base.height(x));
  const after = (x: number): number =>
    before(x) + (grown === undefined ? 0 : way * grown.height(x));
  const read = (x: readonly number[], height: (at: number) => number) => {
    const gap = x.map((at) => 25 + 0.002 * at - height(at) + real * normal());
    const profile = fitReadings(
      [{ x, gap, u: x.map(() => stated) }],
      GROUND.tolerance,
      GROUND.length,
    );
    if (!profile.ok) throw new Error(`${x.length} stations were refused: ${profile.reason}`);
    return { profile };
  };
  const found = movement(read(first, before), read(second, after), {
    over: GROUND.over,
    limit: GROUND.length,
    tail: GROUND.tail,
    tolerance: GROUND.tolerance,
    least: GROUND.tolerance / 4,
  });
  if (!found.ok) throw new Error(found.reason);
  return found;
}
