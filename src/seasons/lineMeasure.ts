import type { Judgement } from '../fit/judge.ts';

/** What one line's judgement is followed by. */
export const LINE_MEASURES = ['hollow', 'hump', 'tail angle'] as const;
export type LineMeasure = (typeof LINE_MEASURES)[number];

/** A figure with its standard uncertainty: mm, or degrees for the tail angle. */
export interface Sized {
  readonly value: number;
  readonly u: number;
}

/** A measure of a judged line; absent where the line is too short to have a tail. A size that no draw shows is not
 *  known exactly: no size is known better than the best known height. */
export function measureOf(
  { hollow, hump, tail, profile }: Judgement,
  measure: LineMeasure,
): Sized | undefined {
  if (measure === 'tail angle') return tail && { value: tail.angle, u: tail.u };
  const { size, u } = measure === 'hollow' ? hollow : hump;
  return { value: size, u: Math.max(u, Math.min(...profile.map((place) => place.u))) };
}

/** The same of two lines that stand alike: port less starboard. Nothing is common to their readings' errors. */
export function portLessStarboard(
  port: Judgement,
  starboard: Judgement,
  measure: LineMeasure,
): Sized | undefined {
  const [one, other] = [measureOf(port, measure), measureOf(starboard, measure)];
  if (one === undefined || other === undefined) return undefined;
  return { value: one.value - other.value, u: Math.hypot(one.u, other.u) };
}
