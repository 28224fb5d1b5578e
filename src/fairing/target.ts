import type { LineAssessment } from '../survey/assessment.ts';
import type { WorkUnit } from '../survey/figures.ts';
import type { Typed } from '../survey/survey.ts';
import { departureSpread } from './departureSpread.ts';
import { heightAt } from './heightAt.ts';
import {
  heightOn,
  straightReference,
  type ReferenceKind,
  type StraightLine,
} from './straightReference.ts';
import { stationsOf, type StationKnown } from './stationsOf.ts';
import { workDepth, type WorkDepth } from './workStep.ts';

export interface TargetOptions {
  readonly reference: ReferenceKind;
  /** Deepest that may be ground off, mm: the person's own figure. Without it nothing is ground. */
  readonly grindLimit?: number;
  readonly unit: WorkUnit;
  /** The tolerance's gap, mm. */
  readonly tolerance: number;
  /** Stations that were to be read: those that were not are listed as unread. */
  readonly planned?: readonly Typed[];
}

/** What is to be done along a line so that it is straight: lengths in mm. */
export type FairingTarget =
  | {
      readonly ok: true;
      readonly reference: ReferenceKind;
      readonly line: StraightLine;
      /** The stretch it is drawn over: nothing is said outside it. */
      readonly over: readonly [number, number];
      readonly stations: readonly StationTarget[];
    }
  | {
      readonly ok: false;
      readonly reason: 'too few readings';
      readonly stations: readonly StationTarget[];
    };

/** One station of a line, from the transom forward. Only a station that was read, within the judged stretch of a line
 *  that could be fitted, has figures. */
export type StationTarget = { readonly station: number; readonly text: string } & (
  | { readonly is: 'figured'; readonly figure: StationFigure }
  | { readonly is: 'not judged' }
  | { readonly is: 'void' | 'put off'; readonly reason: string }
  | { readonly is: 'unread' }
);

export interface StationFigure {
  /** How far the surface lies from the reference, unsigned, with its standard uncertainty where it has one. */
  readonly departure: {
    readonly size: number;
    readonly u?: number;
    readonly way: 'hollow' | 'proud';
  };
  readonly fill: WorkDepth;
  readonly grind: Grind;
}

/** A depth to grind off; or none, because the surface stands higher than the stated limit allows to take off, or
 *  because nobody stated how deep may be ground. */
export type Grind =
  | { readonly is: 'depth'; readonly depth: WorkDepth }
  | { readonly is: 'over the limit' | 'not without a stated limit' };

/** Departure, fill and grind at each station of a line against a straight reference over its judged stretch.
 *  Touching the high spots there is nothing to grind; against the best straight line a grind figure needs a stated
 *  limit. Fill and grind are separate and unsigned, rounded to the person's work unit; the departure is not rounded.
 *  Nothing is extrapolated. Throws RangeError on a grind limit or tolerance that is not above 0. */
export function fairingTarget(line: LineAssessment, options: TargetOptions): FairingTarget {
  for (const name of ['grindLimit', 'tolerance'] as const) {
    const value = options[name];
    if (value !== undefined && !(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a length above 0 expected, got ${value}`);
    }
  }
  const places = stationsOf(line, options.planned ?? []);
  if (!line.outcome.ok) {
    const stations = places.map((place) => withoutFigure(place));
    return { ok: false, reason: line.outcome.reason, stations };
  }
  const { profile, judged } = line.outcome.judgement;
  const x = profile.map((point) => point.x);
  const z = profile.map((point) => point.z);
  const reference = straightReference(options.reference, { x, z });
  const figured = places.filter(
    ({ read, station }) => read && station >= judged[0] - 1e-6 && station <= judged[1] + 1e-6,
  );
  const at = figured.map(({ station }) => Math.min(judged[1], Math.max(judged[0], station)));
  const spread = departureSpread(line, options.reference, options.tolerance, at);
  const stations = places.map((place): StationTarget => {
    const i = figured.indexOf(place);
    if (i === -1) return withoutFigure(place);
    const height = heightAt(profile, at[i]) - heightOn(reference, at[i]);
    const { station, text } = place;
    return { station, text, is: 'figured', figure: figureOf(height, spread?.[i], options) };
  });
  return { ok: true, reference: options.reference, line: reference, over: judged, stations };
}

function figureOf(height: number, u: number | undefined, options: TargetOptions): StationFigure {
  const { unit, reference } = options;
  // The hull of the profile's places may be passed by a hair between two of them.
  const proud = reference === 'touching the high spots' ? 0 : Math.max(0, height);
  const hollow = Math.max(0, -height);
  return {
    departure: {
      size: Math.max(proud, hollow),
      ...(u !== undefined && { u }),
      way: proud > 0 ? 'proud' : 'hollow',
    },
    fill: workDepth(hollow, unit),
    grind: grindOf(proud, options),
  };
}

function grindOf(proud: number, { reference, grindLimit, unit }: TargetOptions): Grind {
  if (reference === 'touching the high spots') return { is: 'depth', depth: workDepth(0, unit) };
  if (grindLimit === undefined) return { is: 'not without a stated limit' };
  if (proud > grindLimit) return { is: 'over the limit' };
  return { is: 'depth', depth: workDepth(proud, unit, grindLimit) };
}

function withoutFigure({ station, text, read, said }: StationKnown): StationTarget {
  if (read) return { station, text, is: 'not judged' };
  return said === undefined ? { station, text, is: 'unread' } : { station, text, ...said };
}
