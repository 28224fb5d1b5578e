import { notTold, type Flap, type NotTold } from './running.ts';

/** What flaps add, as their lift and its moment about the transom's bottom edge; drag follows with the trim. */
export interface FlapForces {
  /** N, positive upwards. */
  readonly lift: number;
  /** N·m about the transom, positive bow down. */
  readonly moment: number;
  /** Lift times flap angle summed, N·degree: `flapDrag` needs it. */
  readonly liftAngle: number;
}

const NONE: FlapForces = { lift: 0, moment: 0, liftAngle: 0 };

/** Lift 0.046 · chord · angle · span · b · ½ρV², acting 0.6 b + chord (1 − span) forward of the flap's trailing edge.
 *  A flap that does not stand off the bottom is none. Refuses speed coefficients outside 2 to 7 and angles beyond 15°.
 *  A chord beyond a tenth of the mean wetted length is for `restated` to shorten.
 *  beam: m; pressure: ½ρV² in Pa.
 *  Source: Savitsky and Brown (1976), Marine Technology 13(4), 381, from memory and not verified. Negative angles, a
 *  bottom turned up, are no part of it: an analogy that turns the sign. */
export function flapForces(
  flaps: readonly Flap[],
  beam: number,
  pressure: number,
  cv: number,
): ({ readonly ok: true } & FlapForces) | NotTold {
  const standing = flaps.filter(({ angle }) => angle !== 0);
  if (standing.length === 0) return { ok: true, ...NONE };
  if (cv < 2) return notTold('flapSlow');
  if (cv > 7) return notTold('flapFast');
  if (standing.some(({ angle }) => Math.abs(angle) > 15)) return notTold('flapAngle');
  let { lift, moment, liftAngle } = NONE;
  for (const flap of standing) {
    const chord = flap.chord / 1000;
    const part = LIFT * chord * flap.angle * flap.span * beam * pressure;
    lift += part;
    moment += part * (0.6 * beam + chord * (1 - flap.span) - flap.aft / 1000);
    liftAngle += part * flap.angle;
  }
  return { ok: true, lift, moment, liftAngle };
}

/** 0.0052 · lift · (trim + angle), N; same source. */
export function flapDrag({ lift, liftAngle }: FlapForces, trim: number): number {
  return 0.0052 * (lift * trim + liftAngle);
}

/** A flap no longer than a tenth of the mean wetted length (mm) with the same chord × angle, hence by the formulas of
 *  `flapForces` the same lift; its angle is what is held against their range. */
export function restated(flap: Flap, wettedLength: number): Flap {
  const most = 0.1 * wettedLength;
  if (flap.chord <= most) return flap;
  return { ...flap, chord: most, angle: (flap.angle * flap.chord) / most };
}

const LIFT = 0.046;
