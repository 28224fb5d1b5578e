import { max } from 'd3';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { Side } from '../../src/survey/survey.ts';
import { sectionMarks, type SectionMark } from './sheetSections.ts';
import { rounded } from './drawingSize.ts';

/** The aft bottom as the glass tech lies under it: seen from below, the bow up, so that PORT is on the right.
 *  Lengths in mm on paper, one scale both ways. */
export interface PlanDrawing {
  readonly width: number;
  readonly height: number;
  readonly keel: number;
  readonly transom: number;
  readonly forward: number;
  /** Where the chines lie; `measured` is false where nobody stated the beam and the outline is only a frame. */
  readonly chines: readonly [starboard: number, port: number];
  readonly measured: boolean;
  readonly limit: number;
  readonly lines: readonly {
    readonly key: string;
    readonly name: string;
    readonly x: number;
    readonly labelY: number;
    /** From forward to aft on paper: y grows towards the transom. */
    readonly sections: readonly SectionMark[];
    /** Ends of the stretch that was read. */
    readonly read?: readonly [number, number];
  }[];
  readonly features: readonly {
    readonly key: string;
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }[];
}

const WIDE = 92;
const TALL = 72;
const TO_PORT = { port: 1, centre: 0, starboard: -1 } as const;
const ROOM = { top: 6, bottom: 9, side: 9 } as const;
/** Height of a row of names, and about how wide a letter of them is. */
const ROW = 5;
const LETTER = 2.1;

export function sheetPlan(
  { lines, limit }: SurveyAssessment,
  hull: HullState | undefined,
): PlanDrawing {
  const beam = hull?.hull?.beamAtChine?.mm;
  const outermost = max([200, ...lines.map(({ line }) => line.offset)]) as number;
  const half = Math.max(beam === undefined ? 0 : beam / 2, outermost * (beam ? 1.02 : 1.2));
  const farthest = max([
    limit.mm,
    ...lines.flatMap(({ points }) => points.map((p) => p.station)),
  ]) as number;
  const length = farthest * 1.04;
  const keel = WIDE / 2;
  const widest = (WIDE - 2 * ROOM.side) / (2 * half);
  // As close as names may come, with four rows of them.
  const closest = Math.min(widest, (TALL - ROOM.top - 4 * ROW - ROOM.bottom) / length);
  const rows = nameRows(
    lines.map(({ line }) => ({
      name: line.name,
      x: TO_PORT[line.side] * line.offset * closest,
    })),
  );
  const head = ROOM.top + ROW * Math.max(2, ...rows.map((row) => row + 1));
  const scale = Math.min(widest, (TALL - head - ROOM.bottom) / length);
  const height = rounded(head + ROOM.bottom + length * scale);
  const transom = height - ROOM.bottom;
  const across = (side: Side, offset: number) => rounded(keel + TO_PORT[side] * offset * scale);
  const up = (station: number) => rounded(transom - station * scale);
  const chine = beam === undefined ? half : beam / 2;
  return {
    width: WIDE,
    height,
    keel,
    transom,
    forward: head,
    chines: [across('starboard', chine), across('port', chine)],
    measured: beam !== undefined,
    limit: up(limit.mm),
    lines: lines.map(({ line, part, outcome, points }, i) => {
      const stations = points.map((p) => p.station);
      const judgement = outcome.ok ? outcome.judgement : undefined;
      return {
        key: `${line.id}/${part}`,
        name: line.name,
        x: across(line.side, line.offset),
        labelY: head - 2 - rows[i] * ROW,
        sections: sectionMarks(judgement?.sections ?? [], up),
        ...(stations.length > 0 && {
          read: [up(Math.min(...stations)), up(Math.max(...stations))] as const,
        }),
      };
    }),
    features: (hull?.features ?? []).flatMap(({ id, side, offsetFrom, offsetTo, ...f }) => {
      const sides: readonly Side[] =
        side === 'both' || side === 'centre' ? ['port', 'starboard'] : [side];
      return sides.map((on) => {
        const [a, b] = [across(on, offsetFrom.mm), across(on, offsetTo.mm)].sort((p, q) => p - q);
        const [top, foot] = [
          Math.max(head, up(f.stationTo.mm)),
          Math.min(transom, up(f.stationFrom.mm)),
        ];
        const tall = Math.max(0.6, foot - top);
        return { key: `${id}/${on}`, x: a, y: top, width: Math.max(0.6, b - a), height: tall };
      });
    }),
  };
}

/** On which row over the plan each name stands, so that neighbours' names do not touch; the lines in any order. */
function nameRows(
  lines: readonly { readonly name: string; readonly x: number }[],
): readonly number[] {
  const ends: number[] = [];
  const rows = lines.map(() => 0);
  for (const i of lines.map((_, at) => at).sort((a, b) => lines[a].x - lines[b].x)) {
    const { name, x } = lines[i];
    const reach = (name.length * LETTER) / 2 + 0.5;
    const free = ends.findIndex((end) => end <= x - reach);
    rows[i] = free === -1 ? ends.length : free;
    ends[rows[i]] = x + reach;
  }
  return rows;
}
