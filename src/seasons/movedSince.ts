import { assess } from '../survey/assess.ts';
import type { SurveyAssessment } from '../survey/assessment.ts';
import type { Survey } from '../survey/survey.ts';
import { compare } from './compare.ts';
import type { Comparison } from './comparison.ts';
import type { Repair } from './repair.ts';
import { dayOf } from './season.ts';
import type { AlikeWhat, Unlike } from './unlike.ts';

/** Whether a hull moved before its last survey, in a line of a list. */
export type MovedSince =
  /** Of the lines that could be compared with the survey of `since` some moved, by name; or none did; or at least one
   *  cannot be told. */
  | {
      readonly outcome: 'moved' | 'not moved' | 'cannot tell';
      readonly since: string;
      readonly lines: readonly string[];
      /** How many lines were compared. */
      readonly compared: number;
      /** Set where a line that nobody worked on moved too: the set-up changed, and nothing may be laid to the hull. */
      readonly setUpChanged?: true;
    }
  /** No earlier survey can be compared with it: what stands in the way of the latest of them; empty where they have no
   *  line or stretch in common. */
  | { readonly outcome: 'not compared'; readonly why: readonly AlikeWhat[] }
  | { readonly outcome: 'one survey only' };

/** What is known of a hull besides its surveys. */
export interface KnownBetween {
  readonly repairs: readonly Repair[];
  /** Which differences between two surveys somebody has accepted knowingly. */
  readonly accepted?: (
    first: Survey,
    second: Survey,
    unlike: readonly Unlike[],
  ) => readonly AlikeWhat[];
  /** Names of the lines that somebody named as untouched between two surveys. */
  readonly control?: (first: Survey, second: Survey) => readonly string[];
}

/** What the last survey of a hull, beside the latest earlier one that can be compared with it as things stand, says of
 *  its having moved. `surveys`: in any order; those without a date that can be read, and those without a reading, are
 *  left out. Undefined where none remain. `assessOf`: for assessments that are known already. */
export function movedSince(
  surveys: readonly Survey[],
  known: KnownBetween,
  assessOf: (survey: Survey) => SurveyAssessment = assess,
): MovedSince | undefined {
  const dated = surveys
    .flatMap((survey) => {
      const day = dayOf(survey.date);
      return day !== undefined && hasReadings(survey) ? [{ day, survey }] : [];
    })
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const last = dated.pop();
  if (last === undefined) return undefined;
  if (dated.length === 0) return { outcome: 'one survey only' };
  const second = assessOf(last.survey);
  let why: readonly AlikeWhat[] | undefined;
  for (const { day, survey } of dated.reverse()) {
    const comparison = compared(assessOf(survey), second, known);
    if (comparison.lines.some(({ outcome }) => outcome.ok)) return outcomeOf(comparison, day);
    why ??= inTheWay(comparison);
  }
  return { outcome: 'not compared', why: why ?? [] };
}

function compared(
  first: SurveyAssessment,
  second: SurveyAssessment,
  { repairs, accepted, control }: KnownBetween,
): Comparison {
  const named = control?.(first.survey, second.survey) ?? [];
  const options = { repairs, ...(named.length > 0 && { control: named }) };
  const comparison = compare(first, second, options);
  const accept = accepted?.(first.survey, second.survey, comparison.unlike) ?? [];
  return accept.length === 0 ? comparison : compare(first, second, { ...options, accept });
}

function outcomeOf({ lines, control }: Comparison, since: string): MovedSince {
  const told = lines.flatMap((line) => (line.outcome.ok ? [{ line, of: line.outcome }] : []));
  const moved = told.filter(({ of }) => of.outcome === 'moved');
  const names = (of: typeof moved) => [...new Set(of.map(({ line }) => line.second.line.name))];
  const all = { since, lines: names(moved), compared: names(told).length };
  if (control === 'moved') return { ...all, outcome: 'cannot tell', setUpChanged: true };
  if (moved.length > 0) return { ...all, outcome: 'moved' };
  const still = told.every(({ of }) => of.outcome === 'not moved');
  return { ...all, outcome: still ? 'not moved' : 'cannot tell' };
}

function inTheWay({ lines }: Comparison): readonly AlikeWhat[] {
  const said = lines.flatMap(({ outcome }) => (outcome.ok ? [] : outcome.unlike));
  return [...new Set(said)];
}

function hasReadings({ lines }: Survey): boolean {
  return lines.some(({ placements }) => placements.some(({ readings }) => readings.length > 0));
}
