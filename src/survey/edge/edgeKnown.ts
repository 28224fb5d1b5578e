import type { Edge, EdgeCheck, Placement } from '../survey.ts';

/** The name that an edge bears of which a file says more than its length, but no name. */
export const UNNAMED_EDGE = 'straightedge';

/** All that is known of the edge that a placement was laid with. Where two edges bear one name their lengths tell them
 *  apart. `name` is empty where the placement calls it nothing. */
export function edgeKnown(
  edges: readonly Edge[] | undefined,
  placement: Pick<Placement, 'edge' | 'edgeLength'>,
): Edge {
  const { edge: name, edgeLength } = placement;
  const known = edges?.find(
    (edge) => edge.name === name && (edge.length === undefined || edge.length === edgeLength),
  );
  const length = known?.length ?? edgeLength;
  return { name: name ?? '', ...known, ...(length !== undefined && { length }) };
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
