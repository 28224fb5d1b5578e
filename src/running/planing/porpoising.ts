import { celano } from './celano.ts';
import { CHART_READING, figure18 } from './figure18.ts';

/** The trim at which porpoising begins, as far as it is known: two accounts that differ, and the band over both. */
export interface LimitBand {
  readonly ok: true;
  /** Degrees: below `low` neither account lets the boat porpoise, above `high` both do. */
  readonly low: number;
  readonly high: number;
  /** Read from Savitsky's chart; absent off the chart. */
  readonly figure18?: number;
  /** By Celano's form; absent outside its range. */
  readonly celano?: number;
}

export interface NoBand {
  readonly ok: false;
  readonly reason: string;
}

/** How far Celano's form lies below figure 18 at the most where both speak (deadrise 10° and 20°, √(CL/2) 0.13 to 0.30):
 *  it reaches this far up where it speaks alone, degrees. */
const CELANO_BELOW = 1.1;

/** The band by deadrise (degrees) and √(CL/2): figure 18 with what its reading may be out by, and Celano's form. For
 *  prismatic hulls that run trimmed; a boat whose speed, deadrise or load lies off both is not told. */
export function limitBand(deadrise: number, loading: number): LimitBand | NoBand {
  const chart = figure18(deadrise, loading);
  const form = celano(deadrise, loading);
  if (chart === undefined && form === undefined) {
    if (loading < 0.13)
      return { ok: false, reason: 'too fast or light for the limit (√(CL/2) below 0.13)' };
    if (loading > 0.3)
      return { ok: false, reason: 'too slow or heavy for the limit (√(CL/2) above 0.30)' };
    return { ok: false, reason: 'no limit is known for a deadrise outside 0° to 25°' };
  }
  const lows = [
    ...(chart === undefined ? [] : [chart - CHART_READING]),
    ...(form === undefined ? [] : [form]),
  ];
  const highs = [
    ...(chart === undefined ? [] : [chart + CHART_READING]),
    ...(form === undefined ? [] : [chart === undefined ? form + CELANO_BELOW : form]),
  ];
  return {
    ok: true,
    low: Math.min(...lows),
    high: Math.max(...highs),
    ...(chart !== undefined && { figure18: chart }),
    ...(form !== undefined && { celano: form }),
  };
}

export type Stability = 'stable' | 'near the limit' | 'beyond it' | 'not told';

/** Where a trim (degrees) stands against the band; `u` is its standard uncertainty, and twice that counts as doubt. */
export function stabilityOf(trim: number, band: LimitBand | NoBand, u = 0): Stability {
  if (!band.ok) return 'not told';
  if (trim + 2 * u < band.low) return 'stable';
  return trim - 2 * u > band.high ? 'beyond it' : 'near the limit';
}
