import type { Entry } from '../../src/book/entry.ts';
import {
  acceptancesBetween,
  holding,
  type Acceptance,
  type SurveyPair,
} from '../../src/seasons/acceptances.ts';
import { UNLIKE_NAMES } from '../../src/seasons/changeWords.ts';
import { differenceText } from '../../src/seasons/differenceText.ts';
import { matchLines, type MatchedLine } from '../../src/seasons/matchLines.ts';
import type { Repair } from '../../src/seasons/repair.ts';
import { ALIKE, type AlikeWhat, type Unlike } from '../../src/seasons/unlike.ts';
import { unlikeBetween } from '../../src/seasons/unlikeBetween.ts';
import type { Survey } from '../../src/survey/survey.ts';

/** One thing in which two surveys differ, and what somebody said to that. */
export interface DifferenceRow {
  readonly what: AlikeWhat;
  /** "what the hull stood on". */
  readonly name: string;
  /** What each says. */
  readonly differs: string;
  /** Names of the lines that it keeps from being compared; all where absent. */
  readonly lines?: readonly string[];
  readonly accepted?: Acceptance;
  /** Accepted when the surveys differed in something else: looked at again, or struck. */
  readonly lapsed: readonly Acceptance[];
}

/** Two surveys before any of their readings is judged: what can be said at once. */
export interface PairState {
  readonly matched: readonly MatchedLine[];
  readonly differences: readonly DifferenceRow[];
  /** Names of what one survey or both say nothing of. */
  readonly silent: readonly string[];
  /** Names of what is alike. */
  readonly alike: readonly string[];
  readonly accept: readonly AlikeWhat[];
}

export function seasonsPair(
  first: Survey,
  second: Survey,
  asked: {
    readonly pair: SurveyPair;
    readonly standing: readonly Entry[];
    readonly repairs: readonly Repair[];
    readonly within: number;
  },
): PairState {
  const { matched } = matchLines(first.lines, second.lines, asked.within);
  const unlike = unlikeBetween(first, second, { matched, repairs: asked.repairs, accept: [] });
  const acceptances = acceptancesBetween(asked.standing, asked.pair);
  const { held, lapsed } = holding(unlike, acceptances);
  const silent = ALIKE.filter((what) =>
    unlike.some((each) => each.what === what && each.known === 'not stated'),
  );
  const differences = ALIKE.flatMap((what): readonly DifferenceRow[] => {
    const differs = differenceText(what, unlike);
    if (differs === undefined) return [];
    const lines = linesOf(unlike.filter((each) => each.what === what && each.known === 'differs'));
    const accepted = held.find((each) => each.what === what);
    return [
      {
        what,
        name: UNLIKE_NAMES[what],
        differs,
        ...(lines !== undefined && { lines }),
        ...(accepted !== undefined && { accepted }),
        lapsed: lapsed.filter((each) => each.what === what),
      },
    ];
  });
  const named = [...silent, ...differences.map(({ what }) => what)];
  return {
    matched,
    differences,
    silent: silent.map((what) => UNLIKE_NAMES[what]),
    alike: ALIKE.filter((what) => what !== 'repair' && !named.includes(what)).map(
      (what) => UNLIKE_NAMES[what],
    ),
    accept: [...new Set(held.map(({ what }) => what))],
  };
}

function linesOf(unlike: readonly Unlike[]): readonly string[] | undefined {
  if (unlike.some(({ lines }) => lines === undefined)) return undefined;
  return [...new Set(unlike.flatMap(({ lines }) => lines ?? []))];
}

/** What is accepted of each survey with the last one that has a date, by key: for trends, which only tell of surveys
 *  that are alike with it. `surveys`: in order of time, those with a date. */
export function acceptedWithLast(
  surveys: readonly { readonly key: string; readonly survey: Survey }[],
  standing: readonly Entry[],
  within: number,
): Readonly<Record<string, readonly AlikeWhat[]>> {
  const last = surveys.at(-1);
  if (last === undefined) return {};
  return Object.fromEntries(
    surveys.slice(0, -1).map(({ key, survey }) => {
      const asked = { pair: [key, last.key] as const, standing, repairs: [], within };
      return [key, seasonsPair(survey, last.survey, asked).accept];
    }),
  );
}
