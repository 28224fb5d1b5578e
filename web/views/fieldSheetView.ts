import { proposedVoids } from '../../src/survey/features.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { flatAcrossKeel } from '../../src/survey/flatAcrossKeel.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { exactLength } from '../../src/survey/exactText.ts';
import { startingStations } from '../../src/survey/startingStations.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { fieldSheetAcross, type FieldSheetAcross } from './fieldSheetAcross.ts';
import { acrossPages } from './acrossPages.ts';
import type { StatedLay } from './layView.ts';
import { inColumn } from './readingText.ts';
import { stationKey, walkingOrder } from './readingsView.ts';
import type { Paper } from './sheetChoices.ts';
import { goesForward, type Walk } from './walk.ts';

export interface FieldSheetFrom {
  readonly state: SurveyState;
  readonly hull: HullState;
  readonly unit: WorkUnit;
  readonly paper: Paper;
  /** How far forward lines are judged, mm: where no stations are planned they go so far. */
  readonly limit: number;
  /** Which side is walked first. */
  readonly first: 'port' | 'starboard';
  /** The order in which a person goes along the lines. */
  readonly walk: Walk;
  /** Placements across as stated, so that one which was laid says where it meets lines that are not read yet. */
  readonly across?: readonly StatedLay<'placement across'>[];
}

/** One page of the blank form: columns are lines, rows are stations, as in the wide file. */
export interface FieldSheetPage {
  readonly lines: readonly {
    readonly key: string;
    readonly name: string;
    readonly side: string;
    readonly offset: string;
    /** When it is walked and which way: "3: forward ↓", the arrow as its column is filled in. */
    readonly walked: string;
  }[];
  readonly rows: readonly {
    readonly station: string;
    /** Of each line: what of the hull may be in the way; empty where nothing is known of. */
    readonly cells: readonly string[];
  }[];
}

export interface FieldSheetView {
  readonly paper: Paper;
  readonly unit: WorkUnit;
  readonly hull: string;
  readonly date: string;
  readonly pages: readonly FieldSheetPage[];
  /** Whether the bottom is stated flat across the keel. */
  readonly flat: boolean;
  /** What is laid across the lines; on pages of their own. */
  readonly across: readonly (readonly FieldSheetAcross[])[];
}

const LINES_A_PAGE = 6;
/** What a page has room for under heads of three lines. */
const ROWS_A_PAGE: Readonly<Record<Paper, number>> = { A4: 18, Letter: 16 };

/** The blank form of a survey: its lines in walking order and its planned stations with any that were read besides. */
export function fieldSheetView(from: FieldSheetFrom): FieldSheetView {
  const { state, hull, unit, paper } = from;
  const lines = walkingOrder(linesOf(state, hull), from.first);
  const stations = stationsOf(from);
  const rowsAPage = evenly(stations.length, ROWS_A_PAGE[paper]);
  const columnsAPage = evenly(lines.length, LINES_A_PAGE);
  const pages: FieldSheetPage[] = [];
  for (let i = 0; i < Math.max(1, lines.length); i += columnsAPage) {
    for (let j = 0; j < stations.length; j += rowsAPage) {
      const columns = lines.slice(i, i + columnsAPage);
      const here = stations.slice(j, j + rowsAPage);
      const inTheWay = columns.map((line) =>
        proposedVoids(hull.features, { side: line.side, offset: line.offset.mm }, here),
      );
      pages.push({
        lines: columns.map(({ id, name, side, offset }, column) => ({
          key: id,
          name,
          side: side.toUpperCase(),
          offset: exactLength(offset.mm, unit),
          walked: walkedWords(from.walk, i + column),
        })),
        rows: here.map((station) => ({
          station: inColumn(station, unit),
          cells: inTheWay.map(
            (voids) => voids.find((each) => each.station === station)?.reason ?? '',
          ),
        })),
      });
    }
  }
  return {
    paper,
    unit,
    hull: hull.hull?.name ?? state.survey.hull ?? 'hull not named',
    date: state.survey.date ?? '',
    pages,
    flat: flatAcrossKeel(state.survey),
    across: acrossPages(
      fieldSheetAcross(
        { ...state, plan: { ...state.plan, stations } },
        linesOf(state, hull),
        from.limit,
        unit,
        from.across,
      ),
      paper,
    ),
  };
}

/** Stations stand in the order of the first line: of lines walked in turn, every other column is filled from below. */
function walkedWords(walk: Walk, nth: number): string {
  const forward = goesForward(walk, nth);
  const down = forward === goesForward(walk, 0);
  return `${nth + 1}: ${forward ? 'forward' : 'aft'} ${down ? '↓' : '↑'}`;
}

/** How many go on a page so that all pages are about as full; at least 1. */
function evenly(all: number, most: number): number {
  return Math.max(1, Math.ceil(all / Math.max(1, Math.ceil(all / most))));
}

function linesOf({ survey }: SurveyState, hull: HullState): readonly HullLine[] {
  if (hull.lines.length > 0) return hull.lines;
  return survey.lines.map(({ id, name, side, offset }) => ({
    id,
    ids: [id],
    name,
    side,
    offset: { mm: offset, text: `${Number(offset.toFixed(3))} mm` },
  }));
}

function stationsOf({ state, unit, limit, walk }: FieldSheetFrom): readonly Typed[] {
  const { plan, survey } = state;
  const done = survey.lines
    .flatMap(({ placements }) => placements)
    .flatMap(({ readings, voids, later }) => [...readings, ...voids, ...later])
    .map(({ station }) => station);
  const known = [...plan.stations, ...done];
  const all = known.length > 0 ? known : startingStations(limit, unit);
  const places = new Map(all.map((station) => [stationKey(station.mm), station]));
  return [...places.values()].sort((a, b) => (goesForward(walk, 0) ? a.mm - b.mm : b.mm - a.mm));
}
