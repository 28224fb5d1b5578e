import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import type { WantedAcross } from '../../src/survey/panels/tiePlan.ts';
import { wantedWords } from '../../src/survey/panels/tieWords.ts';
import { exactLength } from '../../src/survey/exactText.ts';
import { acrossAnswers, readAcross } from './acrossForm.ts';
import { acrossName, acrossRows, stationsAcross } from './acrossView.ts';
import { inColumn } from './readingText.ts';
import { tieView } from './tieView.ts';

/** Rows for the straightedges that are laid across one panel: columns are its lines, from the keel outwards. */
export interface FieldSheetAcross {
  readonly key: string;
  /** "PORT". */
  readonly side: string;
  readonly lines: readonly {
    readonly key: string;
    readonly name: string;
    readonly offset: string;
  }[];
  readonly rows: readonly {
    /** How it lies; empty for one that is not planned. */
    readonly lies: string;
    /** On the diagonal the station on each line; else empty. */
    readonly cells: readonly string[];
  }[];
}

/** Rows left blank for placements that are not planned. */
const BLANK = 2;

/** What is laid across each panel and the least that still ties it, with room for more. Panels of fewer than three lines
 *  have none: nothing ties them. */
export function fieldSheetAcross(
  state: SurveyState,
  lines: readonly HullLine[],
  limit: number,
  unit: 'mm' | 'in',
): readonly FieldSheetAcross[] {
  return tieView({ hull: { lines }, state, stated: [], limit }).flatMap((plan, nth) => {
    if (plan.is === 'too few lines') return [];
    const ids = plan.lines.map(({ id }) => id);
    const own = lines.filter(({ id }) => ids.includes(id));
    const none = ids.map(() => '');
    const laid = plan.laid.flatMap(({ id }) => {
      const placement = state.survey.across?.find((each) => each.id === id);
      if (placement === undefined) return [];
      const rows = acrossRows({
        body: undefined,
        placement,
        lines: own,
        features: [],
        workUnit: unit,
      });
      return [{ lies: acrossName(placement, stationsAcross(rows), unit), cells: none }];
    });
    const planned = plan.missing.map((wanted) => ({
      lies: wantedWords(wanted, plan.lines, unit),
      cells: wanted.direction === 'diagonal' ? stationsOn(wanted) : none,
    }));
    const blank = Array.from({ length: BLANK }, () => ({ lies: '', cells: none }));
    return [
      {
        key: `${plan.side} ${nth}`,
        side: plan.side.toUpperCase(),
        lines: plan.lines.map(({ id, name, offset }) => ({
          key: id,
          name,
          offset: exactLength(offset, unit),
        })),
        rows: [...laid, ...planned, ...blank],
      },
    ];

    function stationsOn(wanted: WantedAcross): readonly string[] {
      const read = readAcross(acrossAnswers(plan.side, wanted, unit), own, unit);
      return read.ok
        ? read.where.crosses.map(({ station }) => `at ${inColumn(station, unit)}`)
        : none;
    }
  });
}
