import type { WorkUnit } from './figures.ts';
import { UNITS } from './units.ts';

/** A standard or expanded uncertainty for a table: two digits and no more (GUM 7.2.6), never finer than a
 *  thousandth of a mm or of a degree or a ten-thousandth of an inch, with its unit: "0.13 mm", "0.005 in",
 *  "0.025°", "under 0.001 mm". `value`: mm, or degrees with '°'. */
export function smallFigure(value: number, unit: WorkUnit | '°'): string {
  const size = unit === '°' ? value : value / UNITS[unit].mm;
  const decimals = decimalsOf(size, unit);
  const least = 10 ** -decimals;
  const text =
    size > 0 && size < least / 2 ? `under ${least.toFixed(decimals)}` : size.toFixed(decimals);
  return unit === '°' ? `${text}°` : `${text} ${unit}`;
}

function decimalsOf(size: number, unit: WorkUnit | '°'): number {
  const finest = unit === 'in' ? 4 : 3;
  if (!(size > 0)) return finest - 1;
  const rounded = Number(size.toPrecision(2));
  return Math.min(finest, Math.max(0, 1 - Math.floor(Math.log10(rounded))));
}
