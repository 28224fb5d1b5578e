import { accounts, simplestAccount, type Accounts } from '../src/fit/account.ts';
import { chords } from '../src/fit/departures.ts';
import type { Shape } from './families.ts';

/** A shape of known departure, in mm. */
export interface Truth {
  readonly height: (x: number) => number;
  /** Hollow depth and hump height that count, mm; the larger is the departure that was asked for. */
  readonly hollow: number;
  readonly hump: number;
  /** Which is the larger; hollow where they are equal. */
  readonly larger: 'hollow' | 'hump';
  /** Degrees, positive turned towards the water. */
  readonly tailAngle: number;
}

/** What is true of every trial: mm. */
export interface Ground {
  readonly length: number;
  readonly tolerance: number;
  readonly over: number;
  readonly tail: number;
}

/** Steps to the line of the grid on which the truth is taken: six times as fine as the one that is judged. */
const STEPS = 600;

/** Scales a shape so that the larger departure that counts is exactly `departure` mm.
 *  Which account counts depends on the size, and the size on the account; but an account is always one of
 *  four sizes of the unscaled shape, so each is tried and the first that bears itself out is taken.
 *  Undefined where none does: at that departure the shape jumps from one account to another. */
export function truthOf(
  shape: Shape,
  departure: number,
  { length, tolerance, over, tail }: Ground,
): Truth | undefined {
  const on = chords(0, length, over, { count: STEPS });
  const all = accounts(
    Float64Array.from(on.x, (x) => shape(x / length)),
    on,
  );
  const found = Object.values(all.largest)
    .sort((a, b) => b - a)
    .filter((size) => size > 0)
    .map((size) => ({ scale: departure / size, ...countedAt(all, (tolerance * size) / departure) }))
    .find(({ scale, hollow, hump }) => {
      const larger = scale * Math.max(hollow, hump);
      return Math.abs(larger - departure) <= 1e-9 * departure;
    });
  if (!found) return undefined;
  const { scale } = found;
  const height = (x: number) => scale * shape(x / length);
  const hollow = scale * found.hollow;
  const hump = scale * found.hump;
  return {
    height,
    hollow,
    hump,
    larger: hollow >= hump * (1 - 1e-9) ? 'hollow' : 'hump',
    tailAngle: ((slope(height, tail, length) - slope(height, 0, tail)) * 180) / Math.PI,
  };
}

function countedAt(all: Accounts, tolerance: number): { hollow: number; hump: number } {
  const rounding = { left: 1e-9 * tolerance, size: 1e-9 * tolerance };
  const { hollow, hump } = simplestAccount(all, tolerance, rounding);
  return { hollow: hollow.reduce(higher), hump: hump.reduce(higher) };
}

const higher = (a: number, b: number): number => Math.max(a, b);

/** Least-squares slope over a stretch, 12/(q−p)³ ∫ (x − middle) z dx by the midpoint rule. */
function slope(height: (x: number) => number, p: number, q: number): number {
  const steps = 4000;
  const width = (q - p) / steps;
  const middle = (p + q) / 2;
  let moment = 0;
  for (let i = 0; i < steps; i++) {
    const x = p + (i + 0.5) * width;
    moment += (x - middle) * height(x) * width;
  }
  return (12 * moment) / (q - p) ** 3;
}
