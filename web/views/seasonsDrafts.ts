import type { SurveyPair } from '../../src/seasons/acceptances.ts';
import { dayOf } from '../../src/seasons/season.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { DifferenceRow } from './seasonsPair.ts';

export type DraftRead =
  { readonly ok: true; readonly draft: Draft } | { readonly ok: false; readonly problem: string };

const LONGEST = 500;

/** What somebody states who accepts a difference knowingly: in just that, and for a reason. */
export function acceptanceDraft(
  { what, differs }: Pick<DifferenceRow, 'what' | 'differs'>,
  pair: SurveyPair,
  why: string,
): DraftRead {
  const reason = why.trim();
  if (reason === '') return refuse('Say why the two may be compared all the same.');
  if (reason.length > LONGEST)
    return refuse(`Found ${reason.length} characters, at most ${LONGEST}.`);
  return {
    ok: true,
    draft: draftOf('acceptance', { surveys: [...pair], what, differs, reason }),
  };
}

/** A line that nobody worked on between two surveys. `line`: the id by which placements refer to it. */
export function controlDraft(line: string, pair: SurveyPair, why: string): DraftRead {
  const reason = why.trim().slice(0, LONGEST);
  if (line === '') return refuse('Choose a line.');
  return {
    ok: true,
    draft: draftOf('control line', {
      line,
      surveys: [...pair],
      ...(reason !== '' && { reason }),
    }),
  };
}

/** Work done on the bottom. `lines`: ids of those that were worked; none: any may have been. */
export function repairDraft(
  date: string,
  what: string,
  lines: readonly string[],
  by: string,
): DraftRead {
  const day = dayOf(date);
  if (day === undefined) return refuse(`Found “${date.trim()}”, expected a day as 2026-03-14.`);
  if (what.trim() === '') return refuse('Say what was done.');
  return {
    ok: true,
    draft: draftOf('repair', {
      date: day,
      what: what.trim(),
      ...(lines.length > 0 && { lines: [...lines] }),
      ...(by.trim() !== '' && { by: by.trim() }),
    }),
  };
}

function refuse(problem: string): DraftRead {
  return { ok: false, problem };
}
