import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { BodyOf } from '../survey/kinds/kinds.ts';
import type { Typed } from '../survey/survey.ts';
import { SAME_STATION } from '../survey/usable.ts';
import { verdictWord } from '../survey/verdictWords.ts';
import { hookOrRocker } from './hookOrRocker.ts';
import type { LinePlan, WorkPlan } from './plan/plan.ts';
import type { WorkDepth } from './workStep.ts';

/** What the control line says: an untouched line read before and after. `moved`: the set-up or the hull has changed, and
 *  the work cannot be judged. From a comparison of the two surveys (src/seasons). */
export type ControlSays = 'steady' | 'moved' | 'cannot tell' | 'none read';

/** One station of the sheet, after the work. */
export type StationCheck = {
  readonly station: Typed;
  /** What the sheet asked for. */
  readonly fill: Typed;
  readonly grind: Typed;
} & (
  | { readonly is: 'in' }
  | { readonly is: 'left'; readonly fillLeft: WorkDepth; readonly grindLeft: WorkDepth }
  | { readonly is: 'not read' }
);

export interface LineCheck {
  /** Id of the line. */
  readonly line: string;
  readonly name: string;
  /** `fair` is proven, or it is not fair. */
  readonly now: 'fair' | 'not fair' | 'undecided' | 'not read';
  readonly word: string;
  readonly stations: readonly StationCheck[];
}

export interface WorkCheck {
  readonly control: ControlSays;
  readonly lines: readonly LineCheck[];
  /** `repaired`: every worked line is proven fair, and the control line was read and has not moved. */
  readonly outcome: 'repaired' | 'some left' | 'not told';
  readonly words: readonly string[];
}

const CONTROL: Readonly<Record<ControlSays, string>> = {
  steady: 'The control line reads as it did: the set-up is the same.',
  moved:
    'The control line has changed, and nobody worked on it: the set-up or the hull has. Nothing may be called repaired; set up as before and read again.',
  'cannot tell':
    'No change of the control line is proven; a small one cannot be ruled out with this gauge and these stations.',
  'none read':
    'No control line was read: read one that was not worked before anything is called repaired.',
};

/** Holds a survey made after the work against the worksheet: station by station what is in and what is left, whether
 *  fair is now proven, and whether the control line lets that be said at all. `remainder`: the plan of the work made
 *  from that survey, asked as the sheet was; a station is in where it has nothing left to fill or grind, or where its
 *  line is proven fair. */
export function checkWork(
  sheet: BodyOf<'sheet'>,
  now: SurveyAssessment,
  remainder: WorkPlan,
  control: ControlSays,
): WorkCheck {
  const worked = new Map<string, typeof sheet.figures>();
  for (const figure of sheet.figures) {
    worked.set(figure.line, [...(worked.get(figure.line) ?? []), figure]);
  }
  const lines = [...worked].map(([line, figures]): LineCheck => {
    const read = now.lines.filter((each) => each.line.id === line);
    const left = remainder.lines.filter((each) => each.line.id === line);
    const state = stateOf(read);
    return {
      line,
      name: figures[0].name,
      now: state,
      word: read.map(({ outcome }) => wordOf(outcome)).join(', ') || 'not read',
      stations: figures.map(({ station, fill, grind }) => ({
        station,
        fill,
        grind,
        ...checkStation(station, state, read, left),
      })),
    };
  });
  const fair = lines.filter((line) => line.now === 'fair').length;
  const outcome =
    control === 'moved' || control === 'none read'
      ? 'not told'
      : fair === lines.length
        ? 'repaired'
        : 'some left';
  return {
    control,
    lines,
    outcome,
    words: [
      CONTROL[control],
      ...lines.map(({ name, now: state, word, stations }) => {
        const count = stations.filter(({ is }) => is === 'left').length;
        if (state === 'fair') return `${name}: fair, proven.`;
        if (state === 'not read') return `${name}: not read yet.`;
        const rest =
          count === 0 ? 'measure closer' : `${count} of ${stations.length} stations have work left`;
        return `${name}: ${word.toLowerCase()}; ${rest}.`;
      }),
      ...(outcome === 'repaired' ? ['Repaired: every worked line is proven fair.'] : []),
    ],
  };
}

function stateOf(read: readonly LineAssessment[]): LineCheck['now'] {
  const verdicts = read.flatMap(({ outcome }) => (outcome.ok ? [outcome.judgement.verdict] : []));
  if (verdicts.length === 0) return 'not read';
  if (verdicts.some(hookOrRocker)) {
    return 'not fair';
  }
  const all = verdicts.length === read.length && verdicts.every((v) => v.includes('fair'));
  return all ? 'fair' : 'undecided';
}

function wordOf(outcome: LineAssessment['outcome']): string {
  return outcome.ok ? verdictWord(outcome.judgement) : 'too few readings';
}

function checkStation(
  station: Typed,
  state: LineCheck['now'],
  read: readonly LineAssessment[],
  left: readonly LinePlan[],
):
  | { readonly is: 'in' | 'not read' }
  | { readonly is: 'left'; readonly fillLeft: WorkDepth; readonly grindLeft: WorkDepth } {
  const here = read.some(({ points }) =>
    points.some((point) => Math.abs(point.station - station.mm) < SAME_STATION / 2),
  );
  if (!here) return { is: 'not read' };
  if (state === 'fair') return { is: 'in' };
  const work = left
    .flatMap((plan) => (plan.is === 'planned' ? plan.stations : []))
    .find((each) => Math.abs(each.station - station.mm) < SAME_STATION / 2);
  if (work?.is !== 'worked') return { is: 'in' };
  const { fill, grind } = work;
  if (fill.rounded === 0 && grind.rounded === 0) return { is: 'in' };
  return { is: 'left', fillLeft: fill, grindLeft: grind };
}
