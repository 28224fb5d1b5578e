import type { AcrossSide, Line } from '../survey.ts';

type Where = Pick<Line, 'side' | 'offset'>;

/** Where a line lies athwart, mm: on one side, from the keel outwards; right across the keel, from the keel to starboard,
 *  and to port below 0. */
export function placeAthwart(of: AcrossSide, { side, offset }: Where): number {
  return of === 'both' && side === 'port' ? -offset : offset;
}

/** Whether a straightedge that lies on a side, or on both right across the keel, can cross a line. A line off the keel that
 *  says neither port nor starboard is on none. */
export function canCross(of: AcrossSide, { side, offset }: Where): boolean {
  if (of !== 'both') return side === of;
  return side !== 'centre' || offset === 0;
}

/** From the keel outwards; right across the keel from port to starboard. */
export function fromInside(of: AcrossSide): (a: Where, b: Where) => number {
  return (a, b) => placeAthwart(of, a) - placeAthwart(of, b);
}
