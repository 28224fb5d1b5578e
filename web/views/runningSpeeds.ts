import { SPEED_UNITS, type SpeedUnit } from '../../src/running/speedUnits.ts';

/** Speeds in m/s that are looked at, ascending: every whole 2 of the unit between the two, and the two themselves; wider
 *  apart where that would be more than 16. Throws RangeError where they do not run upwards. */
export function speedsBetween(from: number, to: number, unit: SpeedUnit): readonly number[] {
  if (!(from > 0 && to > from)) {
    throw new RangeError(`speeds that run upwards expected, got ${from} to ${to}`);
  }
  const size = SPEED_UNITS[unit];
  const [first, last] = [from / size, to / size];
  const step = [2, 3, 5, 10, 20].find((each) => (last - first) / each <= 15) ?? (last - first) / 15;
  const whole: number[] = [];
  for (let at = Math.ceil(first / step + 1e-9) * step; at < last - 1e-9; at += step) whole.push(at);
  return [first, ...whole, last].map((speed) => speed * size);
}

/** What is looked at where nobody says otherwise, m/s. House default, no source. */
export const SPEEDS = { from: 16 * SPEED_UNITS.kn, to: 40 * SPEED_UNITS.kn } as const;
