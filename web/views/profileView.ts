import { area, line as lineShape } from 'd3';
import type {
  LineAssessment,
  ReadingPoint,
  SurveyAssessment,
} from '../../src/survey/assessment.ts';
import { showAngle, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { TailAngle } from '../../src/fit/tail.ts';
import { textSize, rounded, type DrawingSize } from './drawingSize.ts';
import { hatchPath, type Box } from './hatch.ts';
import { drawnChords, type DrawnChord } from './profileChords.ts';
import { drawnEdges, type DrawnEdge } from './profileEdges.ts';
import { extentOf, ROOM, type ProfileScale } from './profileScale.ts';
import { profileStops, type ProfileStop } from './profileStops.ts';
import { placementsIn, profileTable, stationText, surfaceAt } from './profileTable.ts';
import { heightTicks, stationTicks, type Tick } from './profileTicks.ts';
import { profileWords, type ProfileWords } from './profileWords.ts';
import { readingMark } from './readingMark.ts';
import { thinned } from './thinned.ts';
import { drawnSection, type DrawnSection } from './sectionMarks.ts';

export interface DrawnReading {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  /** Ends of the bar: twice the standard uncertainty either way. */
  readonly high: number;
  readonly low: number;
  readonly judged: boolean;
  /** 1, or which further look at the same lay. */
  readonly look: number;
  /** Outline of its mark, one shape a placement. */
  readonly mark: string;
}

/** A station without a reading: void, or put off. */
export interface DrawnUnread {
  readonly key: string;
  readonly x: number;
  readonly state: 'void' | 'later';
  readonly words: string;
}

/** A line's profile as it is drawn: transom left, bow right, the water side down, for port and starboard alike.
 *  Places are in the drawing's own unit. */
export interface ProfileView extends ProfileWords {
  readonly width: number;
  readonly height: number;
  readonly em: number;
  readonly plot: Box;
  readonly unit: WorkUnit;
  /** "×40": how much heights are exaggerated against lengths. */
  readonly times: string;
  /** "1/16 in over 60 in". */
  readonly toleranceWords: string;
  readonly stations: readonly Tick[];
  readonly heights: readonly Tick[];
  /** Height of the straight line that heights are told from. */
  readonly level: number;
  readonly transom: number;
  /** Absent where the line could not be fitted. */
  readonly fit?: { readonly path: string; readonly band: string; readonly hull: string };
  readonly readings: readonly DrawnReading[];
  readonly unread: readonly DrawnUnread[];
  readonly chords: readonly DrawnChord[];
  readonly edges: readonly DrawnEdge[];
  readonly sections: readonly DrawnSection[];
  readonly tail?: { readonly from: number; readonly to: number; readonly label: string };
  /** The limit of the straight run, and the strokes over what lies ahead of it. */
  readonly limit?: { readonly x: number; readonly label: string; readonly hatch: string };
  /** Readings that lie above or below what is drawn: arrowheads at its edge. */
  readonly offPicture: readonly {
    readonly key: string;
    readonly mark: string;
    readonly words: string;
  }[];
  /** What stands in the picture's place where nothing could be fitted. */
  readonly instead?: string;
  readonly stops: readonly ProfileStop[];
}

export interface ProfileViewOptions {
  readonly size: DrawingSize;
  readonly scale: ProfileScale;
  readonly unit: WorkUnit;
  /** Stretch shown, mm; all of the scale where absent. Heights keep their scale. */
  readonly zoom?: readonly [number, number] | undefined;
}

export function profileView(
  line: LineAssessment,
  survey: Pick<SurveyAssessment, 'tolerance' | 'limit'>,
  { size, scale, unit, zoom = [scale.from, scale.to] }: ProfileViewOptions,
): ProfileView {
  const tolerance = survey.tolerance.gap;
  const toleranceWords = `${showTolerance(tolerance, unit)} over ${showTolerance(survey.tolerance.over, unit)}`;
  const em = textSize(size);
  const plot: Box = {
    x: ROOM.left * em,
    y: ROOM.top * em,
    width: size.width - (ROOM.left + ROOM.right) * em,
    height: size.height - (ROOM.top + ROOM.bottom) * em,
  };
  const along = plot.width / (zoom[1] - zoom[0]);
  const [low, high] = extentOf(line, tolerance);
  const centre = (low + high) / 2;
  const half = plot.height / 2 / scale.across;
  const x = (mm: number) => rounded(plot.x + (mm - zoom[0]) * along);
  // Proud is positive and towards the water, which is down.
  const y = (z: number) => rounded(plot.y + plot.height / 2 + (z - centre) * scale.across);
  const shown = (mm: number) => mm >= zoom[0] - 1e-9 && mm <= zoom[1] + 1e-9;
  const clip = (mm: number) => Math.min(Math.max(mm, zoom[0]), zoom[1]);
  const inside = ({ z }: ReadingPoint) => z !== undefined && Math.abs(z - centre) <= half;

  const judgement = line.outcome.ok ? line.outcome.judgement : undefined;
  const profile = judgement?.profile ?? [];
  const placements = placementsIn(line);
  const table = profileTable(line, unit);
  const pictured = thinned(line, shown, plot.width / em);
  const limit = line.line.limit ?? survey.limit.mm;
  const tickAt = (ticks: readonly Tick[], place: (mm: number) => number) =>
    ticks.map(({ at, label }) => ({ at: place(at), label }));

  return {
    ...profileWords(line, toleranceWords, unit),
    width: size.width,
    height: size.height,
    em,
    plot,
    unit,
    times: `×${Number((scale.across / along).toPrecision(3))}`,
    toleranceWords,
    stations: tickAt(stationTicks(zoom[0], zoom[1], (3 * em) / along, unit), x),
    heights: tickAt(
      heightTicks(centre - 0.97 * half, centre + 0.97 * half, (1.7 * em) / scale.across, unit),
      y,
    ),
    level: y(0),
    transom: x(0),
    ...(judgement && { fit: drawnFit() }),
    readings: pictured.flatMap((point, i) => drawnReading(point, i)),
    unread: table.rows.flatMap(({ key, station, stationText: text, state, remark }) =>
      state === 'read' || !shown(station)
        ? []
        : [{ key, x: x(station), state, words: `${text} ${unit}: ${remark}` }],
    ),
    chords: judgement ? drawnChords(judgement, { x, y, plot, em, tolerance, unit }) : [],
    edges: drawnEdges(line, placements, { x, y, shown, em }),
    sections: (judgement?.sections ?? []).flatMap((section) => {
      const [from, to] = [x(clip(section.from)), x(clip(section.to))];
      const strip = { y: rounded(plot.y + plot.height + 0.3 * em), height: rounded(1.4 * em) };
      return to > from
        ? [drawnSection(section, { x: from, width: rounded(to - from), ...strip }, em)]
        : [];
    }),
    ...(judgement?.tail && drawnTail(judgement.tail, judgement.judged[0])),
    ...(shown(limit) && { limit: drawnLimit() }),
    offPicture: pictured.flatMap((point, i) => drawnOff(point, i)),
    ...(!line.outcome.ok && {
      instead: `${line.outcome.n} of the ${line.outcome.needed} stations that a profile needs`,
    }),
    stops: profileStops(table, { x, y, shown, surface: (mm) => surfaceAt(profile, mm)?.z }),
  };

  function drawnFit(): NonNullable<ProfileView['fit']> {
    type Point = (typeof profile)[number];
    const at = (p: Point) => x(p.x);
    const path = lineShape<Point>(at, (p) => y(p.z))(profile);
    const band = area<Point>(
      at,
      (p) => y(p.z - 2 * p.u),
      (p) => y(p.z + 2 * p.u),
    )(profile);
    const hull = area<Point>(at, rounded(plot.y), (p) => y(p.z))(profile);
    return { path: path ?? '', band: band ?? '', hull: hull ?? '' };
  }

  function drawnReading(point: ReadingPoint, i: number): DrawnReading[] {
    const { station, z, u, judged, look, placement, source } = point;
    if (z === undefined || !shown(station) || !inside(point)) return [];
    const at = { x: x(station), y: y(z) };
    const shape = placements.findIndex(({ id }) => id === placement);
    return [
      {
        key: `${source}/${i}`,
        ...at,
        high: y(z - 2 * u),
        low: y(z + 2 * u),
        judged,
        look,
        mark: readingMark(Math.max(shape, 0), at.x, at.y, 0.26 * em),
      },
    ];
  }

  function drawnOff(point: ReadingPoint, i: number): ProfileView['offPicture'] {
    const { station, z, gapText, source } = point;
    if (z === undefined || !shown(station) || inside(point)) return [];
    const down = z > centre;
    const [tip, back] = down ? [plot.y + plot.height, -0.6 * em] : [plot.y, 0.6 * em];
    const half = rounded(0.35 * em);
    return [
      {
        key: `${source}/${i}`,
        mark: `M${x(station)},${rounded(tip)}l${-half},${rounded(back)}h${2 * half}Z`,
        words: `${stationText(station, unit)} ${unit}: gap as typed ${gapText}, off the picture`,
      },
    ];
  }

  function drawnTail({ angle, u, over }: TailAngle, start: number): Pick<ProfileView, 'tail'> {
    const [from, to] = [x(clip(start)), x(clip(start + over))];
    if (to <= from) return {};
    const told = Math.abs(angle) >= 2 * u;
    const way = !told ? '' : angle > 0 ? ' towards the water' : ' away from the water';
    return { tail: { from, to, label: `tail ${showAngle(Math.abs(angle), u)}${way}` } };
  }

  function drawnLimit(): NonNullable<ProfileView['limit']> {
    const at = x(limit);
    const beyond = { ...plot, x: at, width: rounded(plot.x + plot.width - at) };
    return {
      x: at,
      label: `limit ${stationText(limit, unit)} ${unit}`,
      hatch: hatchPath(beyond, 0.9 * em, 'rising'),
    };
  }
}
