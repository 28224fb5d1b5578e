import {
  alikeEverywhereWords,
  changeWords,
  controlWords,
  relaxedWords,
  unlikeWords,
} from '../../src/seasons/changeWords.ts';
import { holding, type Acceptance } from '../../src/seasons/acceptances.ts';
import { compare } from '../../src/seasons/compare.ts';
import type { Comparison } from '../../src/seasons/comparison.ts';
import type { Repair } from '../../src/seasons/repair.ts';
import { dayOf } from '../../src/seasons/season.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { panelChanges, panelChangeWords } from '../../src/seasons/panelChange.ts';
import { toldPanel } from '../../src/seasons/told.ts';
import { overallWords } from './overallWords.ts';
import { changeCaption } from './surfaceCaption.ts';
import { onPaper, type SurfaceOnPaper } from './surfaceOnPaper.ts';
import { OF_A_CHANGE } from './surfaceView.ts';

/** A survey of the hull, as the exhibit's history lists it. */
export interface Season {
  readonly key: string;
  readonly date?: string;
  readonly place?: string;
  readonly by?: string;
  /** Absent where it was not judged here: a long log. */
  readonly assessment?: SurveyAssessment;
}

/** A repair as it was entered, and as `compare` takes it. */
export interface RepairSaid extends Repair {
  /** Names of the lines that were worked. */
  readonly names?: readonly string[];
  readonly by?: string;
  readonly inspector?: string;
  readonly notes?: string;
}

export interface HistoryFrom {
  /** Every survey of the hull, this one too; those of one day in the order in which they were begun. */
  readonly seasons: readonly Season[];
  /** Key of this one. */
  readonly own: string;
  readonly repairs: readonly RepairSaid[];
  readonly unit: WorkUnit;
  /** What people accepted of that survey and this one, and the lines that they named as untouched between them. */
  readonly between?: (other: string) => Between | undefined;
}

/** What people said of two surveys. */
export interface Between {
  readonly acceptances: readonly Acceptance[];
  readonly control: readonly string[];
}

export interface HistoryView {
  readonly surveys: readonly {
    readonly key: string;
    readonly date: string;
    readonly where: string;
    readonly verdicts: string;
    readonly own: boolean;
  }[];
  /** What changed since the survey before that can be compared with this one. */
  readonly change?: {
    readonly since: string;
    readonly words: readonly string[];
    /** What changed of each side as one surface, where both surveys tied its lines. */
    readonly surfaces: readonly SurfaceOnPaper[];
    readonly lines: readonly {
      readonly name: string;
      readonly word: string;
      readonly findings: string;
    }[];
  };
  /** Why nothing is compared, where nothing is. */
  readonly none?: string;
  readonly repairs: readonly string[];
}

/** The hull's surveys with their verdicts, what changed since the last that can be compared with this one, repairs. */
export function historyView({ seasons, own, repairs, unit, between }: HistoryFrom): HistoryView {
  const day = (season: Season) => dayOf(season.date);
  const ordered = [...seasons].sort((a, b) => byDay(day(a), day(b)));
  const compared = lastComparable(ordered, own, repairs, between);
  return {
    surveys: ordered.map(({ key, date, place, by, assessment }) => ({
      key,
      date: date ?? 'not dated',
      where: [place, by].filter((each) => each !== undefined && each !== '').join(', '),
      verdicts:
        assessment === undefined
          ? 'a long log: its verdict stands on its own exhibit'
          : verdictsSaid(assessment),
      own: key === own,
    })),
    ...(compared.is === 'compared' && { change: changeView(compared, unit) }),
    ...(compared.is === 'none' && { none: compared.why }),
    repairs: [...repairs].sort((a, b) => (a.date < b.date ? -1 : 1)).map(repairSaid),
  };
}

/** "Hook P18in; Fair P30in, S18in". */
function verdictsSaid(assessment: SurveyAssessment): string {
  const said = overallWords(assessment).map(({ word, lines }) => `${word}: ${lines.join(', ')}`);
  return said.length === 0 ? 'no readings' : said.join('; ');
}

type Found =
  | { readonly is: 'compared'; readonly date: string; readonly comparison: Comparison }
  | { readonly is: 'none'; readonly why: string };

/** The latest survey before this one of which a line at least can be compared. */
function lastComparable(
  ordered: readonly Season[],
  own: string,
  repairs: readonly Repair[],
  between: HistoryFrom['between'],
): Found {
  const here = ordered.findIndex(({ key }) => key === own);
  const now = ordered[here]?.assessment;
  const before = ordered
    .slice(0, Math.max(0, here))
    .filter((each) => each.assessment !== undefined);
  if (now === undefined || before.length === 0) {
    return { is: 'none', why: 'No earlier survey of this hull stands in this record.' };
  }
  if (dayOf(ordered[here].date) === undefined) {
    return { is: 'none', why: 'This survey has no date that can be set in order with the others.' };
  }
  let last: Comparison | undefined;
  for (const { key, assessment, date } of [...before].reverse()) {
    if (assessment === undefined || dayOf(date) === undefined) continue;
    const { acceptances = [], control = [] } = between?.(key) ?? {};
    const asked = { repairs, ...(control.length > 0 && { control }) };
    const plain = compare(assessment, now, asked);
    const accept = holding(plain.unlike, acceptances).held.map(({ what }) => what);
    const comparison = accept.length === 0 ? plain : compare(assessment, now, { ...asked, accept });
    if (comparison.lines.some(({ outcome }) => outcome.ok)) {
      return { is: 'compared', date: date ?? '', comparison };
    }
    last ??= comparison;
  }
  const why = last === undefined ? [] : unlikeWords(last.unlike);
  return {
    is: 'none',
    why: ['No earlier survey can be compared with this one.', ...why].join(' '),
  };
}

function changeView(
  { date, comparison }: Extract<Found, { is: 'compared' }>,
  unit: WorkUnit,
): NonNullable<HistoryView['change']> {
  const panels = panelChanges(comparison);
  return {
    since: date,
    words: [
      ...unlikeWords(comparison.unlike),
      controlWords(comparison),
      alikeEverywhereWords(comparison),
      relaxedWords(comparison),
      ...panels.map((change) => panelChangeWords(change, comparison, unit)),
    ].filter((words) => words !== ''),
    surfaces: onPaper(panels.map(toldPanel), unit, changeCaption, OF_A_CHANGE),
    lines: comparison.lines.map((change) => {
      const { word, findings, sight } = changeWords(change, comparison, unit);
      const { line, part, parts } = change.second;
      return {
        name: parts > 1 ? `${line.name}, part ${part}` : line.name,
        word,
        findings: [...findings, sight].filter((words) => words !== '').join(' '),
      };
    }),
  };
}

function repairSaid({ date, what, names, by, inspector, notes }: RepairSaid): string {
  return [
    `${date}: ${what}`,
    names === undefined || names.length === 0 ? 'lines not stated' : `lines ${names.join(', ')}`,
    ...(by === undefined ? [] : [`done by ${by}`]),
    ...(inspector === undefined ? [] : [`inspected by ${inspector}`]),
    ...(notes === undefined || notes === '' ? [] : [notes]),
  ].join('; ');
}

/** Surveys without a day that can be read stand first: nothing is told of them but that they were made. */
function byDay(a: string | undefined, b: string | undefined): number {
  if (a === b) return 0;
  if (a === undefined) return -1;
  if (b === undefined) return 1;
  return a < b ? -1 : 1;
}
