import type { Entry } from '../book/entry.ts';
import { readStanding, type Stated } from '../survey/fold/readStanding.ts';
import { differenceText } from './differenceText.ts';
import { ALIKE, type AlikeWhat, type Unlike } from './unlike.ts';

/** Keys of two surveys, in no order. */
export type SurveyPair = readonly [string, string];

export interface Acceptance extends Pick<Stated<'acceptance'>, 'id' | 'by' | 'at'> {
  readonly what: AlikeWhat;
  readonly differs: string;
  readonly reason: string;
}

/** What somebody accepted of two surveys, and still stands, in the order of the ids. What names no difference that is
 *  known here is passed over; it stays in the book. */
export function acceptancesBetween(
  standing: readonly Entry[],
  pair: SurveyPair,
): readonly Acceptance[] {
  return readStanding(standing)
    .of('acceptance')
    .flatMap(({ id, by, at, body }) => {
      const what = ALIKE.find((each) => each === body.what);
      if (what === undefined || !isPair(body.surveys, pair)) return [];
      return [{ id, by, at, what, differs: body.differs, reason: body.reason }];
    });
}

/** Which acceptances hold: those of a difference that is still the one that was accepted. The others lapse: somebody
 *  has to look again. */
export function holding(
  unlike: readonly Unlike[],
  acceptances: readonly Acceptance[],
): { readonly held: readonly Acceptance[]; readonly lapsed: readonly Acceptance[] } {
  const holds = ({ what, differs }: Acceptance) => differenceText(what, unlike) === differs;
  return {
    held: acceptances.filter(holds),
    lapsed: acceptances.filter((each) => !holds(each)),
  };
}

export function isPair(surveys: readonly string[], pair: SurveyPair): boolean {
  return pair.every((key) => surveys.includes(key)) && surveys.every((key) => pair.includes(key));
}
