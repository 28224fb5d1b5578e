import type { WorkUnit } from '../survey/figures.ts';
import { showLength } from '../survey/units.ts';

/** The step that a person can work to, mm: 1/32 in, or 0.5 mm. House default. */
export const WORK_STEP: Readonly<Record<WorkUnit, number>> = { mm: 0.5, in: 25.4 / 32 };

/** How depths to fill and grind are rounded, in words. */
export const WORK_STEP_WORDS: Readonly<Record<WorkUnit, string>> = {
  mm: 'rounded to the nearest 0.5 mm',
  in: 'rounded to the nearest 1/32 in',
};

/** A depth of work: unsigned, with what it was before rounding. mm. */
export interface WorkDepth {
  readonly exact: number;
  readonly rounded: number;
}

/** A depth to the nearest step; halves up. `step`: mm, that of the unit (`WORK_STEP`) or the person's own. `most`:
 *  where given, rounding never takes it above that (a grind limit). Throws RangeError on a depth that is negative or not
 *  finite, and on a step that is not above 0. */
export function depthInSteps(mm: number, step: number, most = Infinity): WorkDepth {
  if (!(mm >= 0 && mm < Infinity)) throw new RangeError(`a depth of 0 or more, got ${mm}`);
  if (!(step > 0 && step < Infinity)) throw new RangeError(`a step above 0 expected, got ${step}`);
  const near = Math.floor(mm / step + 0.5 + 1e-9);
  const over = near * step > most + 1e-9 && mm <= most + 1e-9;
  return { exact: mm, rounded: (over ? near - 1 : near) * step };
}

/** A rounded depth as it is written, without its unit: "5/32", "2.5". */
export function showWorkDepth({ rounded }: WorkDepth, unit: WorkUnit): string {
  return unit === 'mm'
    ? showLength(rounded, { unit, decimals: rounded === 0 ? 0 : 1 })
    : showLength(rounded, { unit, denominator: 32 });
}
