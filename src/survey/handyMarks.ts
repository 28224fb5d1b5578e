import type { WorkUnit } from './figures.ts';
import type { Typed } from './survey.ts';
import { showLength, UNITS } from './units.ts';

/** How finely a person marks a bottom: half inches, or centimetres. */
const STEP = { mm: 10, in: 0.5 } as const;

/** The mark nearest to a place along a line that a person can make, in their unit. */
export function handyMark(mm: number, unit: WorkUnit): Typed {
  const size = UNITS[unit].mm;
  const at = Math.round(mm / size / STEP[unit]) * STEP[unit];
  const text = showLength(
    at * size,
    unit === 'mm' ? { unit, decimals: 0 } : { unit, denominator: 2 },
  );
  return { mm: at * size, text: `${text} ${unit}` };
}

/** Marks between those that are there: halfway, and where those stand 140 mm apart or more at the quarters as well. None
 *  nearer than 12 mm to one that is there, nor to a place that is to be kept clear of. */
export function marksBetween(
  stations: readonly number[],
  unit: WorkUnit,
  clearOf: readonly number[] = [],
): readonly Typed[] {
  const there = [...stations].sort((a, b) => a - b);
  const marks = new Map<number, Typed>();
  for (let i = 1; i < there.length; i++) {
    const step = there[i] - there[i - 1];
    for (const part of step >= WIDE ? [0.25, 0.5, 0.75] : [0.5]) {
      const mark = handyMark(there[i - 1] + part * step, unit);
      const near = (x: number) => Math.abs(x - mark.mm) < APART - 1e-6;
      if (!there.some(near) && !clearOf.some(near)) marks.set(Math.round(mark.mm * 10), mark);
    }
  }
  return [...marks.values()].sort((a, b) => a.mm - b.mm);
}

const WIDE = 140;

/** Marks nearer than this are not worth two readings, mm. */
export const APART = 12;
