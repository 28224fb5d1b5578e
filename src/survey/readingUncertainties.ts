import type { Repeatability } from './assessment.ts';
import { readingUncertainty, type UsableReading } from './usable.ts';

/** The standard uncertainty of one reading in its two parts, mm; their root of squares is `readingUncertainty`.
 *  Scatter found from repeats has the rounding in it: then one of the two is all of it and the other 0. */
export function readingUncertainties(
  reading: UsableReading,
  repeatability: Repeatability,
): { readonly rounding: number; readonly repeat: number } {
  const whole = readingUncertainty(reading, repeatability);
  const rounding = reading.division / Math.sqrt(12);
  if (repeatability.from === 'repeats') {
    return whole > rounding ? { rounding: 0, repeat: whole } : { rounding: whole, repeat: 0 };
  }
  return { rounding, repeat: Math.sqrt(Math.max(0, whole ** 2 - rounding ** 2)) };
}
