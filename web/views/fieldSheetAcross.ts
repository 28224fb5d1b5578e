import { panelName } from '../../src/survey/acrossSide.ts';
import { exactLength } from '../../src/survey/exactText.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import type { TiePlan, WantedAcross } from '../../src/survey/panels/tiePlan.ts';
import { wantedWords } from '../../src/survey/panels/tieWords.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { acrossAnswers, readAcross } from './acrossForm.ts';
import { acrossName, acrossRows, stationsAcross } from './acrossView.ts';
import type { StatedLay } from './layView.ts';
import { inColumn } from './readingText.ts';
import { tieView } from './tieView.ts';

export interface FieldSheetLine {
  readonly key: string;
  readonly name: string;
  /** "PORT". */
  readonly side: string;
  /** "450 mm from KEEL". */
  readonly where: string;
}

export interface FieldSheetRow {
  /** How it lies; empty for one that is not planned. */
  readonly lies: string;
  /** On the diagonal the station on each line; else empty. */
  readonly cells: readonly string[];
}

/** Rows for the straightedges that are laid across one panel: columns are its lines, from the keel outwards, or right across
 *  it from port to starboard; as many as fit beside one another. */
export interface FieldSheetAcross {
  readonly key: string;
  /** "PORT", "PORT TO STARBOARD, lines P600 to P100". */
  readonly side: string;
  readonly lines: readonly FieldSheetLine[];
  readonly rows: readonly FieldSheetRow[];
}

/** Rows left blank for placements that are not planned. */
const BLANK = 2;
/** Columns that are wide enough for STARBOARD and a figure by pencil. */
const LINES_A_TABLE = 6;

/** What is laid across each panel and the least that still ties it, with room for more. Panels of fewer than three lines
 *  have none: nothing ties them. */
export function fieldSheetAcross(
  state: SurveyState,
  lines: readonly HullLine[],
  limit: number,
  unit: 'mm' | 'in',
  stated: readonly StatedLay<'placement across'>[] = [],
): readonly FieldSheetAcross[] {
  const bodies = new Map(stated.map(({ id, body }) => [id, body]));
  return tieView({ hull: { lines }, state, stated, limit }).flatMap((plan, nth) => {
    if (plan.is === 'too few lines') return [];
    const own = lines.filter(({ id }) => plan.lines.some((line) => line.id === id));
    const rows = [
      ...plan.laid.flatMap(({ id }) => laidRow(id)),
      ...plan.missing.map((wanted) => plannedRow(wanted)),
      ...Array.from({ length: BLANK }, () => ({ lies: '', cells: plan.lines.map(() => '') })),
    ];
    return inTables(plan, rows, `${plan.side} ${nth}`, unit);

    function laidRow(id: string): readonly FieldSheetRow[] {
      const placement = state.survey.across?.find((each) => each.id === id);
      if (placement === undefined) return [];
      const found = acrossRows({
        body: bodies.get(id),
        placement,
        lines: own,
        features: [],
        workUnit: unit,
      });
      const met = new Map(found.map(({ line, station }) => [line, station]));
      return [
        {
          lies: acrossName(placement, stationsAcross(found), unit),
          cells: stationsIn(placement.direction === 'diagonal' ? met : new Map()),
        },
      ];
    }

    function plannedRow(wanted: WantedAcross): FieldSheetRow {
      const read = readAcross(acrossAnswers(plan.side, wanted, unit), own, unit);
      const met =
        read.ok && wanted.direction === 'diagonal'
          ? read.where.crosses.map(({ line, station }) => [line, station] as const)
          : [];
      return { lies: wantedWords(wanted, plan.lines, unit), cells: stationsIn(new Map(met)) };
    }

    function stationsIn(met: ReadonlyMap<string | undefined, Typed>): readonly string[] {
      return plan.lines.map(({ id }) => {
        const station = met.get(id);
        return station === undefined ? '' : `at ${inColumn(station, unit)}`;
      });
    }
  });
}

function inTables(
  { side, lines }: TiePlan,
  rows: readonly FieldSheetRow[],
  key: string,
  unit: 'mm' | 'in',
): readonly FieldSheetAcross[] {
  const tables = Math.ceil(lines.length / LINES_A_TABLE);
  const most = Math.ceil(lines.length / tables);
  return Array.from({ length: tables }, (_, t) => {
    const columns = lines.slice(t * most, (t + 1) * most);
    const [first, last] = [columns[0].name, columns[columns.length - 1].name];
    return {
      key: `${key} ${t}`,
      side: panelName(side) + (tables > 1 ? `, lines ${first} to ${last}` : ''),
      lines: columns.map(({ id, name, side: on, offset }) => ({
        key: id,
        name,
        side: on === 'centre' ? 'KEEL' : on.toUpperCase(),
        where: on === 'centre' ? 'on it' : `${exactLength(offset, unit)} from KEEL`,
      })),
      rows: rows.map(({ lies, cells }) => ({
        lies,
        cells: cells.slice(t * most, (t + 1) * most),
      })),
    };
  });
}
