import type { Repeatability } from './assessment.ts';
import { readingSpread } from './usable.ts';
import type { UsableColumns } from './usableColumns.ts';

/** The standard uncertainty of one reading in its two parts, mm; their root of squares is what the fit was
 *  given. Scatter found from repeats has the rounding in it: then one of the two is all of it and the
 *  other 0. */
export function readingUncertainties(
  columns: UsableColumns,
  i: number,
  repeatability: Repeatability,
): { readonly rounding: number; readonly repeat: number } {
  const division = divisionOf(columns, i);
  const weight = columns.readings?.[i].reading.weight ?? columns.weight?.[i];
  const whole = readingSpread(division, weight, repeatability);
  const rounding = division / Math.sqrt(12);
  if (repeatability.from === 'repeats') {
    return whole > rounding ? { rounding: 0, repeat: whole } : { rounding: whole, repeat: 0 };
  }
  return { rounding, repeat: Math.sqrt(Math.max(0, whole ** 2 - rounding ** 2)) };
}

/** Division of the gauge that a reading was read with, mm. */
export function divisionOf({ readings, division, placement }: UsableColumns, i: number): number {
  const found = readings === undefined ? division : readings[i].division;
  if (found === undefined) {
    throw new RangeError(`placement ${placement.name}: readings or a division expected`);
  }
  return found;
}
