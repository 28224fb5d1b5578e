import type { Edge, EdgeCheck, Placement } from '../survey.ts';

/** The edges of a survey by the name that placements call them by, and all that is known of one. */
export function edgeKnown(edges: readonly Edge[] | undefined, placement: Placement): Edge {
  const known = edges?.find(({ name }) => name === placement.edge);
  const length = known?.length ?? placement.edgeLength;
  return {
    name: placement.edge ?? '',
    ...known,
    ...(length !== undefined && { length }),
  };
}

const DAY = /^\d{4}-\d{2}-\d{2}/;

/** The check that speaks for a survey: the last that was made by its day, else the first made after it, else the last
 *  that is stated. Days as in 2026-03-01; others cannot be set in order and come before all that can. */
export function checkFor(
  checks: readonly EdgeCheck[] | undefined,
  day: string | undefined,
): EdgeCheck | undefined {
  if (checks === undefined || checks.length === 0) return undefined;
  const ordered = checks
    .map((check, place) => ({ check, place, on: DAY.exec(check.date ?? '')?.[0] ?? '' }))
    .sort((a, b) => (a.on === b.on ? a.place - b.place : a.on < b.on ? -1 : 1));
  const survey = DAY.exec(day ?? '')?.[0];
  if (survey === undefined) return ordered.at(-1)?.check;
  const before = ordered.filter(({ on }) => on <= survey);
  return (before.at(-1) ?? ordered[0]).check;
}
