import type { Entry } from '../../src/book/entry.ts';
import { correctionOf, statementsOf } from '../../src/survey/fold/correctionOf.ts';
import { surveyKeyOf } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

/** What stands of one kind in a survey. */
function statedIn<K extends 'condition' | 'support'>(
  standing: readonly Entry[],
  survey: string,
  kind: K,
): readonly { readonly id: string; readonly body: BodyOf<K> }[] {
  const own = standing.filter((each) => each.kind === kind && surveyKeyOf(each._id) === survey);
  return readStanding(own)
    .of(kind)
    .map(({ id, body }) => ({ id, body }));
}

/** What the hull stands on in a survey, as stated. */
export function supportsIn(standing: readonly Entry[], survey: string) {
  return statedIn(standing, survey, 'support');
}

/** Conditions of a survey, in the place of those of the same name. */
export function conditionDrafts(
  standing: readonly Entry[],
  survey: string,
  bodies: readonly BodyOf<'condition'>[],
): readonly Draft[] {
  const stated = statedIn(standing, survey, 'condition');
  return bodies.map((body) => {
    const former = stated.filter((each) => each.body.about.trim().toLowerCase() === body.about);
    const ids = former.map(({ id }) => id);
    return ids.length === 0
      ? draftOf('condition', body)
      : correctionOf(standing, ids, 'condition', body);
  });
}

/** What the hull stands on: stated, or put right. `id`: the statement that is put right. */
export function supportDraft(
  standing: readonly Entry[],
  body: BodyOf<'support'>,
  id: string | undefined,
): Draft {
  if (id === undefined) return draftOf('support', body);
  const first = body.sameAs ?? id;
  return correctionOf(standing, statementsOf(standing, 'support', first), 'support', body);
}
