import type { SupportEvent } from './survey.ts';

/** One statement of what stands under the hull. */
export interface StatedSupport extends SupportEvent {
  /** Id by which placements refer to it. */
  readonly id: string;
  /** Which standing of the haul-out it is, counting from 1. */
  readonly nth: number;
}

export interface SupportTimeline {
  /** In the order in which the hull stood on them. */
  readonly events: readonly SupportEvent[];
  /** Place in `events` of a statement, by its id; undefined where it is not among them. */
  readonly periodOf: (id: string) => number | undefined;
  /** Place in `events` of what stood at a time (ISO 8601 with a zone); undefined where that cannot be told: a time
   *  without a zone, a support whose time nobody wrote, or before the first. */
  readonly periodAt: (time: string) => number | undefined;
}

const ZONED = /^\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d)$/;

/** The standings of a hull in turn. Two statements of the same `nth` are two periods, since nobody has said that they
 *  are one: what was laid on either is not tied to the other. They follow the times written, then their ids. */
export function supportTimeline(stated: readonly StatedSupport[]): SupportTimeline {
  const ordered = [...stated].sort(
    (a, b) => a.nth - b.nth || byInstant(a.at, b.at) || (a.id < b.id ? -1 : 1),
  );
  const places = new Map(ordered.map((support, place) => [support.id, place]));
  const starts = ordered.map((support) => instantOf(support.at));
  return {
    events: ordered.map(({ what, at, engine, checkedBy }) => ({
      what,
      ...(at !== undefined && { at }),
      ...(engine !== undefined && { engine }),
      ...(checkedBy !== undefined && { checkedBy }),
    })),
    periodOf: (id) => places.get(id),
    periodAt: (time) => {
      const instant = instantOf(time);
      if (instant === undefined || !starts.every(isLaterThanLast)) return undefined;
      const place = starts.findLastIndex((start) => start !== undefined && start <= instant);
      return place === -1 ? undefined : place;
    },
  };
}

/** Milliseconds of a time that is the same everywhere; a time without a zone depends on the reader's. */
function instantOf(time: string | undefined): number | undefined {
  if (time === undefined || !ZONED.test(time)) return undefined;
  const instant = Date.parse(time);
  return Number.isNaN(instant) ? undefined : instant;
}

function isLaterThanLast(
  start: number | undefined,
  place: number,
  starts: readonly (number | undefined)[],
): boolean {
  if (start === undefined) return false;
  const last = place === 0 ? undefined : starts[place - 1];
  return last === undefined || start >= last;
}

/** Times that cannot be compared stand after those that can. */
function byInstant(a: string | undefined, b: string | undefined): number {
  const [first, second] = [instantOf(a), instantOf(b)];
  if (first === undefined) return second === undefined ? 0 : 1;
  return second === undefined ? -1 : first - second;
}
