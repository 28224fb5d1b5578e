import type { Side } from './survey.ts';
import { UNITS } from './units.ts';

const letters: Readonly<Record<Side, string>> = { port: 'P', starboard: 'S', centre: 'C' };

/** The name of a line that nobody named: its side's letter and its offset from the keel, bare in mm and with the
 *  unit in inches: "P450", "S17.5in". offset: mm, at least 0. */
export function lineName(side: Side, offset: number, workUnit: 'mm' | 'in'): string {
  const shown = Number((offset / UNITS[workUnit].mm).toFixed(3));
  return `${letters[side]}${shown}${workUnit === 'in' ? 'in' : ''}`;
}
