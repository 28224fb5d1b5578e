import { equilibrium, type Equilibrium } from './equilibrium.ts';
import {
  limitBand,
  stabilityOf,
  type LimitBand,
  type NoBand,
  type Stability,
} from './porpoising.ts';
import type { NotTold, Running } from './running.ts';

/** A boat at one speed: how it runs, and where that stands against the porpoising limit. */
export interface AtSpeed {
  /** m/s */
  readonly speed: number;
  readonly runs: Equilibrium | NotTold;
  readonly limit: LimitBand | NoBand | NotTold;
  readonly stability: Stability;
}

/** Trim against speed, one state a speed; speeds in m/s, above 0. */
export function trimCurve(
  boat: Omit<Running, 'speed'>,
  speeds: readonly number[],
): readonly AtSpeed[] {
  return speeds.map((speed) => {
    const runs = equilibrium({ ...boat, speed });
    if (!runs.ok) return { speed, runs, limit: runs, stability: 'not told' };
    const limit = limitBand(boat.hull.deadrise, runs.loading);
    return { speed, runs, limit, stability: stabilityOf(runs.trim, limit) };
  });
}
