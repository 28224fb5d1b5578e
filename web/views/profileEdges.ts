import type { LineAssessment } from '../../src/survey/assessment.ts';
import type { Placement } from '../../src/survey/survey.ts';
import { rounded } from './drawingSize.ts';

/** A straightedge as it was laid, at the height where its readings put it, the block's height taken off. */
export interface DrawnEdge {
  readonly key: string;
  readonly path: string;
  /** Its ends, where the record says where they lay; else the line only spans its stations. */
  readonly ends: string;
  /** Outlines of the blocks between it and the hull, on the edge's water side since their height is taken off. */
  readonly blocks: string;
  readonly words: string;
}

interface Mapping {
  readonly x: (mm: number) => number;
  readonly y: (z: number) => number;
  readonly shown: (mm: number) => boolean;
  readonly em: number;
}

/** Every placement's edge. A reading's gap reaches from the surface to the edge, so height and gap of a placement's
 *  readings add up to one straight line. */
export function drawnEdges(
  { points }: LineAssessment,
  placements: readonly Placement[],
  { x, y, shown, em }: Mapping,
): readonly DrawnEdge[] {
  return placements.flatMap((placement) => {
    const own = points.flatMap((p) =>
      p.z === undefined || p.placement !== placement.id
        ? []
        : [{ station: p.station, z: p.z + p.gap }],
    );
    const first = own[0];
    const last = own[own.length - 1];
    if (!first || last.station - first.station < 1e-6) return [];
    const tilt = (last.z - first.z) / (last.station - first.station);
    const zAt = (station: number) => first.z + tilt * (station - first.station);
    const { aftEnd, edgeLength, blocksAt, held, name, repeat } = placement;
    const aft = aftEnd ?? first.station;
    const fore =
      aftEnd === undefined || edgeLength === undefined ? last.station : aftEnd + edgeLength;
    const stroke = (at: number) =>
      shown(at)
        ? `M${x(at)},${rounded(y(zAt(at)) - 0.35 * em)}V${rounded(y(zAt(at)) + 0.35 * em)}`
        : '';
    const known = [
      ...(aftEnd === undefined ? [] : [aft]),
      ...(aftEnd === undefined || edgeLength === undefined ? [] : [fore]),
    ];
    const side = rounded(0.5 * em);
    const blocks = held === 'blocks' ? (blocksAt ?? []) : [];
    return [
      {
        key: placement.id,
        path: `M${x(aft)},${y(zAt(aft))}L${x(fore)},${y(zAt(fore))}`,
        ends: known.map(stroke).join(''),
        blocks: blocks
          .filter(shown)
          .map(
            (at) =>
              `M${rounded(x(at) - side / 2)},${rounded(y(zAt(at)))}h${side}v${side}h${-side}Z`,
          )
          .join(''),
        words: `Straightedge, placement ${name}${repeat > 1 ? `, laid again (${repeat})` : ''}, ${
          held === 'blocks' ? 'on blocks' : 'resting on the hull'
        }`,
      },
    ];
  });
}
