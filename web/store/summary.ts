import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { standing } from '../../src/book/standing.ts';
import { assess } from '../../src/survey/assess.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../src/survey/fold/surveyOf.ts';
import { surveysOf } from '../../src/survey/fold/surveysOf.ts';
import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { verdictWord } from '../../src/survey/verdictWords.ts';

/** What the last survey of a hull says, line by line, counted by word: `Hook`, 2 lines. The gravest first. */
export interface VerdictCount {
  readonly word: string;
  readonly lines: number;
}

/** What the yard's list shows of a hull. */
export interface HullFacts {
  /** Absent until somebody has given a name. */
  readonly name?: string;
  readonly invented: boolean;
  readonly entries: number;
  readonly surveys: number;
  readonly lastSurvey?: { readonly key: string; readonly date?: string };
  /** Empty where there is no survey, or none of its lines has a reading. */
  readonly verdict: readonly VerdictCount[];
  /** Why there is no verdict although there is a survey that should have one. */
  readonly verdictFailure?: string;
}

/** How grave a word is: what must be seen in a list comes first. */
const GRAVITY = ['Hook and rocker', 'Hook', 'Rocker', 'Undecided', 'Too few readings', 'Fair'];

/** What the list shows of a hull, from its entries. */
export function factsOf(entries: readonly Entry[]): HullFacts {
  const { standing: standers, struckRows } = standing(bookOf(entries));
  const { hull } = hullOf(standers);
  const { surveys } = surveysOf(standers);
  // Those without a date come last in the list, and are the last survey only where none has one.
  const last = surveys.filter(({ date }) => date !== undefined).at(-1) ?? surveys.at(-1);
  const judged =
    last === undefined
      ? { verdict: [] }
      : verdictOf(surveyOf(standers, struckRows, last.key).survey);
  return {
    ...(hull !== undefined && { name: hull.name }),
    invented: hull?.invented === true,
    entries: entries.length,
    surveys: surveys.length,
    ...(last !== undefined && {
      lastSurvey: { key: last.key, ...(last.date !== undefined && { date: last.date }) },
    }),
    ...judged,
  };
}

/** "Hook on 2 of 6 lines; fair on 4." Empty where there is no verdict. */
export function verdictText(verdict: readonly VerdictCount[]): string {
  const all = verdict.reduce((sum, { lines }) => sum + lines, 0);
  const parts = verdict.map(({ word, lines }, place) => {
    if (lines === all) return `${word} on ${all === 1 ? 'its one line' : `all ${all} lines`}`;
    return place === 0
      ? `${word} on ${lines} of ${all} lines`
      : `${word.toLowerCase()} on ${lines}`;
  });
  return parts.length === 0 ? '' : `${parts.join('; ')}.`;
}

function verdictOf(survey: Survey): Pick<HullFacts, 'verdict' | 'verdictFailure'> {
  if (keptLogsOf(survey).length > 0) {
    return { verdict: [], verdictFailure: 'its log is read and judged when the survey is opened' };
  }
  try {
    const counts = new Map<string, number>();
    for (const { outcome, readings } of assess(survey).lines) {
      if (readings === 0) continue;
      const word = outcome.ok ? verdictWord(outcome.judgement) : 'Too few readings';
      const known = counts.get(word);
      counts.set(word, known === undefined ? 1 : known + 1);
    }
    const verdict = [...counts].map(([word, lines]) => ({ word, lines }));
    verdict.sort((a, b) => GRAVITY.indexOf(a.word) - GRAVITY.indexOf(b.word));
    return { verdict };
  } catch (error) {
    return { verdict: [], verdictFailure: error instanceof Error ? error.message : String(error) };
  }
}
