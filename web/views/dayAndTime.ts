/** How many minutes local time is ahead of UTC at an instant (milliseconds since 1970-01-01T00:00Z). */
export type ZoneOffset = (instant: number) => number;

export interface DayAndTime {
  /** Milliseconds since 1970-01-01T00:00Z. */
  readonly instant: number;
  /** "2026-03-14". */
  readonly day: string;
  /** "09:31". */
  readonly time: string;
}

/** An entry's time (ISO 8601 with a zone) as the clock on the wall had it. Throws RangeError where it is none. */
export function dayAndTime(at: string, offset: ZoneOffset): DayAndTime {
  const instant = Date.parse(at);
  if (!Number.isFinite(instant)) {
    throw new RangeError(`time: got ${JSON.stringify(at)}, expected ISO 8601 with a zone`);
  }
  const local = new Date(instant + offset(instant) * 60_000).toISOString();
  return { instant, day: local.slice(0, 10), time: local.slice(11, 16) };
}
