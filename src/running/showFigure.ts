import type { WorkUnit } from '../survey/figures.ts';
import { showLength } from '../survey/units.ts';
import type { Figure } from './weights/loads.ts';

/** A place or a shift of a centre of gravity with what it may be out by: "72.8 in ± 0.6 in", to a tenth of an inch or a
 *  whole mm and never finer. An exact figure stands alone. */
export function showPlaceFigure({ value, u }: Figure, unit: WorkUnit): string {
  const decimals = unit === 'in' ? 1 : 0;
  const shown = `${showLength(value, { unit, decimals })} ${unit}`.replace(/^-/, '−');
  const spread = Math.max(2 * u, unit === 'in' ? 2.54 : 1);
  return u > 0 ? `${shown} ± ${showLength(spread, { unit, decimals })} ${unit}` : shown;
}
