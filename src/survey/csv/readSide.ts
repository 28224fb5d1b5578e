import type { Side } from '../survey.ts';

const sides: ReadonlyMap<string, Side> = new Map([
  ['port', 'port'],
  ['p', 'port'],
  ['starboard', 'starboard'],
  ['stbd', 'starboard'],
  ['s', 'starboard'],
  ['centre', 'centre'],
  ['center', 'centre'],
  ['c', 'centre'],
]);

/** The side that a cell or a head names, in any case; undefined where it names none. */
export function readSide(text: string): Side | undefined {
  return sides.get(text.trim().toLowerCase());
}
