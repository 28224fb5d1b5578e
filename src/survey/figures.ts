import { showLength } from './units.ts';

/** The unit a person works in. */
export type WorkUnit = 'mm' | 'in';

/** A measured size with what it may be out by, never more precise than it is: "2.1 mm ± 0.3 mm",
 *  "5/32 in ± 1/64 in". `u` is a standard uncertainty; what is shown is twice that (about 95 %),
 *  rounded up to a step, and the size is rounded to the same step. */
export function showMeasured(mm: number, u: number, unit: WorkUnit): string {
  const { size, spread } = measuredParts(mm, u, unit);
  return `${size} ${unit} ± ${spread} ${unit}`;
}

/** The same in parts, for tables that have the unit in their head. */
export function measuredParts(
  mm: number,
  u: number,
  unit: WorkUnit,
): { readonly size: string; readonly spread: string } {
  const spread = 2 * u;
  if (unit === 'mm') {
    const decimals = spread >= 1 ? 0 : spread >= 0.1 ? 1 : 2;
    const step = 10 ** -decimals;
    return {
      size: showLength(mm, { unit, decimals }),
      spread: showLength(stepsUp(spread, step) * step, { unit, decimals }),
    };
  }
  const denominator = [16, 32, 64].find((d) => spread >= 25.4 / d) ?? 64;
  const step = 25.4 / denominator;
  return {
    size: showLength(mm, { unit, denominator }),
    spread: showLength(stepsUp(spread, step) * step, { unit, denominator }),
  };
}

/** A spread in whole steps, rounded up and never none: nothing measured is exact. */
function stepsUp(spread: number, step: number): number {
  return Math.max(1, Math.ceil(spread / step - 1e-9));
}

/** A place along a line, to the nearest 10 mm or half inch: nobody marks closer than that. */
export function showPlace(mm: number, unit: WorkUnit): string {
  return `${barePlace(mm, unit)} ${unit}`;
}

/** "0 to 840 mm", "0 to 33 in". */
export function showStretch(from: number, to: number, unit: WorkUnit): string {
  return `${barePlace(from, unit)} to ${barePlace(to, unit)} ${unit}`;
}

function barePlace(mm: number, unit: WorkUnit): string {
  if (unit === 'mm') return showLength(Math.round(mm / 10) * 10, { unit, decimals: 0 });
  return showLength(mm, { unit, denominator: 2 });
}

/** A tolerance as set: "1.5 mm", "1/16 in" where the inch fraction is exact to a hundredth of a mm,
 *  else mm where it was plainly set in them, else decimal inches. */
export function showTolerance(mm: number, unit: WorkUnit): string {
  if (unit === 'in') {
    for (const denominator of [16, 32, 64]) {
      const nearest = (Math.round((mm / 25.4) * denominator) * 25.4) / denominator;
      if (Math.abs(nearest - mm) < 0.01) return `${showLength(mm, { unit, denominator })} in`;
    }
    const tenths = mm * 10;
    if (Math.abs(tenths - Math.round(tenths)) > 1e-6) {
      return `${showLength(mm, { unit, decimals: 3 })} in`;
    }
  }
  return `${Number(mm.toFixed(2))} mm`;
}

/** An angle with what it may be out by: "0.35° ± 0.10°", rounded alike; twice the standard uncertainty. */
export function showAngle(degrees: number, u: number): string {
  const decimals = 2 * u >= 1 ? 0 : 2 * u >= 0.1 ? 1 : 2;
  const step = 10 ** -decimals;
  const spread = (stepsUp(2 * u, step) * step).toFixed(decimals);
  return `${degrees.toFixed(decimals).replace(/^-(0(\.0+)?)$/, '$1')}° ± ${spread}°`;
}

/** A side and an offset in words: "port, 18 in from the keel". */
export function showLine(side: string, offset: number, unit: WorkUnit): string {
  if (side === 'centre' && offset === 0) return 'centre line';
  const place =
    unit === 'mm'
      ? `${showLength(offset, { unit, decimals: 0 })} mm`
      : `${showLength(offset, { unit, denominator: 4 })} in`;
  return `${side}, ${place} from the keel`;
}
