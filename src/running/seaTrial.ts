/** At what speed something was seen to begin, on a trial. */
export interface TrialBegins {
  /** m/s */
  readonly speed: number;
  /** Standard uncertainty, m/s: of the speed read, and of when it was called. */
  readonly u: number;
}

export interface TrialChange {
  /** After less before, m/s. */
  readonly change: number;
  readonly u: number;
  /** At 95 %: it begins later, sooner, or no difference can be told. */
  readonly says: 'later' | 'sooner' | 'cannot be told';
}

/** A trial before and one after a change. What else differed between them, sea, load, trim, is for a person to weigh.
 *  Throws RangeError on a speed that is none, or an uncertainty of 0 or less: nobody calls a speed exactly. */
export function compareTrials(before: TrialBegins, after: TrialBegins): TrialChange {
  for (const { speed, u } of [before, after]) {
    if (!(speed > 0 && speed < Infinity))
      throw new RangeError(`a speed above 0 expected, got ${speed}`);
    if (!(u > 0 && u < Infinity)) throw new RangeError(`an uncertainty above 0 expected, got ${u}`);
  }
  const change = after.speed - before.speed;
  const u = Math.hypot(before.u, after.u);
  if (Math.abs(change) <= 1.96 * u) return { change, u, says: 'cannot be told' };
  return { change, u, says: change > 0 ? 'later' : 'sooner' };
}
