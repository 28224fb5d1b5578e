import { speedOf } from './quantity.ts';

/** Speeds in m/s, ascending, from "16 to 40 kn" or "20, 25, 30 kn"; undefined where it says none.
 *  A step of 2 of the unit from one to the other, both included; or the speeds themselves. */
export function readSpeeds(text: string): number[] | undefined {
  const parts = /^(.*\d)\s*([a-z/]+)$/i.exec(text.trim());
  if (parts === null) return undefined;
  const [, numbers, unit] = parts;
  const range = numbers.split(/\s+to\s+/);
  const stated = (range.length === 2 ? range : numbers.split(',')).map((one) => one.trim());
  const speeds = stated.map((one) => speedOf(one, unit));
  const told = speeds.filter((speed) => speed !== undefined);
  if (told.length < speeds.length || told.some((speed) => !(speed > 0))) return undefined;
  if (range.length !== 2) return told.sort((a, b) => a - b);
  const [from, to] = range.map(Number);
  if (!(from < to) || to - from > 200) return undefined;
  const steps = Math.ceil((to - from) / 2 - 1e-9);
  return Array.from({ length: steps + 1 }, (_, i) =>
    speedOf(String(Math.min(to, from + 2 * i)), unit),
  ).filter((speed) => speed !== undefined);
}
