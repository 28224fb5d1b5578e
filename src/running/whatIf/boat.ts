import type { TailAngle } from '../../fit/tail.ts';
import type { Estimate } from '../estimate.ts';
import type { Flap, PlaningHull, Running, Thrust } from '../planing/running.ts';
import { tailFlap } from '../planing/tailFlap.ts';
import type { Water } from '../planing/water.ts';
import { statesOf, type LedgerItem, type LoadState } from '../weights/ledger.ts';

/** Beam (mm), deadrise, the place or arm of thrust (mm) and its angle, the angle at which tabs are set (degrees). */
export interface Doubt {
  readonly beam?: Estimate;
  readonly deadrise?: Estimate;
  readonly thrustArm?: Estimate;
  readonly thrustX?: Estimate;
  readonly thrustHeight?: Estimate;
  readonly thrustAngle?: Estimate;
  readonly tabAngle?: Estimate;
}

/** A boat of which is asked what a change would do. */
export interface WhatIfBoat {
  readonly hull: PlaningHull;
  /** What is known between bounds only; `hull`, `thrust` and `tabs` have its expectation. */
  readonly doubt?: Doubt;
  readonly water: Water;
  readonly items: readonly LedgerItem[];
  /** Of the bottom as measured: angle in degrees, positive turned down, and length in mm. Absent: taken as fair. */
  readonly tail?: TailAngle;
  /** As they are set, the same in every case. */
  readonly tabs?: readonly Flap[];
  readonly thrust?: Thrust;
  readonly friction?: NonNullable<Running['friction']>;
  readonly gravity?: number;
}

/** Of these the ones that are not known exactly. */
export function doubtOf(known: Doubt): Doubt {
  return Object.fromEntries(
    Object.entries(known as Readonly<Record<string, Estimate>>).filter(
      ([, each]) => !('value' in each) || 'u' in each,
    ),
  );
}

export const CASES = [
  'as now',
  'bottom made fair',
  'weight forward',
  'both',
  'as proposed',
] as const;
export type Case = (typeof CASES)[number];

/** What the weight is brought back to: as designed where the ledger states what changed since, else as proposed; none
 *  where it states no change. */
export function forwardState(items: readonly LedgerItem[]): LoadState | undefined {
  const states = statesOf(items);
  if (states.includes('as now')) return 'as designed';
  return states.includes('as proposed') ? 'as proposed' : undefined;
}

/** The cases that a boat gives: a bottom is made fair only where its tail was measured, weight brought forward only where
 *  another load is stated; what is proposed stands beside them where it is yet another, with the bottom as it is. */
export function casesOf({ items, tail }: WhatIfBoat): readonly Case[] {
  const forward = forwardState(items);
  return CASES.filter((one) => {
    if (one === 'bottom made fair') return tail !== undefined;
    if (one === 'weight forward') return forward !== undefined;
    if (one === 'both') return tail !== undefined && forward !== undefined;
    if (one === 'as proposed') {
      return forward === 'as designed' && statesOf(items).includes('as proposed');
    }
    return true;
  });
}

/** Which load a case has. */
export function stateIn(one: Case, items: readonly LedgerItem[]): LoadState {
  if (one === 'as proposed') return 'as proposed';
  const moved = one === 'weight forward' || one === 'both';
  return (moved ? forwardState(items) : undefined) ?? 'as now';
}

/** Which flaps a case has; `angle`: of the tail, degrees. */
export function flapsIn(
  one: Case,
  { tail, tabs = [] }: WhatIfBoat,
  angle: number,
): readonly Flap[] {
  const fair = one === 'bottom made fair' || one === 'both';
  return tail === undefined || fair ? tabs : [tailFlap({ angle, over: tail.over }), ...tabs];
}
