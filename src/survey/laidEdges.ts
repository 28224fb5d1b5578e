import type { EdgeAssessment } from './edge/edgeAssessment.ts';
import type { Placement } from './survey.ts';

/** What was taken of the straightedges that these placements were laid with. Where two bear one name their
 *  lengths tell them apart. */
export function laidEdges(
  edges: readonly EdgeAssessment[],
  placements: readonly Pick<Placement, 'edge' | 'edgeLength'>[],
): readonly EdgeAssessment[] {
  return edges.filter(({ name, length }) =>
    placements.some(
      ({ edge, edgeLength }) =>
        edge === name &&
        (length === undefined || edgeLength === undefined || length === edgeLength),
    ),
  );
}
