import { max, min } from 'd3';
import type { LineAssessment } from '../../src/survey/assessment.ts';
import { textSize, type DrawingSize } from './drawingSize.ts';
import { shownChords } from './profileChords.ts';

/** One scale for all lines of a survey, so that their pictures compare by eye. */
export interface ProfileScale {
  /** Stretch of the hull that is drawn, mm forward of the transom. */
  readonly from: number;
  readonly to: number;
  /** Drawing units a mm of height. */
  readonly across: number;
}

/** Room around the plot, in heights of text. */
export const ROOM = { left: 3.7, right: 0.9, top: 4.6, bottom: 5.9, inside: 1.7 } as const;

const TIMES = [1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 150, 200, 250, 300, 400];

/** The largest exaggeration of a short list with which every line fits its height.
 *  `limit`: how far forward lines are judged, mm. */
export function profileScale(
  lines: readonly LineAssessment[],
  { limit, tolerance }: { readonly limit: number; readonly tolerance: number },
  size: DrawingSize,
): ProfileScale {
  const stations = lines.flatMap(({ line, points }) => [
    ...points.map((p) => p.station),
    ...line.placements.flatMap(({ voids, later }) =>
      [...voids, ...later].map(({ station }) => station.mm),
    ),
  ]);
  const farthest = max(stations) ?? limit;
  const aftEnds = lines.flatMap(({ line }) => line.placements.flatMap((p) => p.aftEnd ?? []));
  const overhang = min([0, ...aftEnds]) as number;
  const length = Math.max(farthest, 100);
  const from = Math.max(overhang, -0.08 * length) - 0.025 * length;
  const to = length * 1.025;
  const em = textSize(size);
  const along = (size.width - (ROOM.left + ROOM.right) * em) / (to - from);
  const spans = lines.map((line) => {
    const [low, high] = extentOf(line, tolerance);
    return high - low;
  });
  const span = max([...spans, 2 * tolerance]) as number;
  const tall = size.height - (ROOM.top + ROOM.bottom + 2 * ROOM.inside) * em;
  const fitting = TIMES.filter((times) => span * along * times <= tall);
  return { from, to, across: along * (fitting[fitting.length - 1] ?? tall / span / along) };
}

/** Hollowest and proudest that is drawn of a line's judged stretch, mm against its reference. */
export function extentOf(line: LineAssessment, tolerance: number): readonly [number, number] {
  if (!line.outcome.ok) return [-tolerance, tolerance];
  const { judgement } = line.outcome;
  const heights = [
    ...judgement.profile.flatMap(({ z, u }) => [z - 2 * u, z + 2 * u]),
    ...line.points.flatMap(({ z, u, judged }) =>
      z === undefined || !judged ? [] : [z - 2 * u, z + 2 * u],
    ),
    ...shownChords(judgement).flatMap(({ ends, side }) =>
      ends.flatMap(({ z }) => [z, z + side * tolerance]),
    ),
  ];
  return [min(heights) as number, max(heights) as number];
}
