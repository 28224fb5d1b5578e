import type { Entry } from '../book/entry.ts';
import { correctionOf } from '../survey/fold/correctionOf.ts';
import { surveyKeyOf } from '../survey/fold/hullOf.ts';
import { readStanding } from '../survey/fold/readStanding.ts';
import { draftOf, type Draft } from '../survey/kinds/draft.ts';
import type { BodyOf } from '../survey/kinds/kinds.ts';

type Restated = 'gate' | 'cause' | 'complaint' | 'decision';

/** Ids of what stands of one thing that is said of a survey before the work: a gate or a cause by its name, the
 *  complaint, the owner's choice. */
export function saidOf(
  standing: readonly Entry[],
  surveyKey: string,
  kind: Restated,
  name?: string,
): readonly string[] {
  const read = readStanding(standing.filter(({ _id }) => surveyKeyOf(_id) === surveyKey));
  return read
    .of(kind)
    .filter(({ body }) => {
      if ('gate' in body) return body.gate === name;
      if ('cause' in body) return body.cause === name;
      return true;
    })
    .map(({ id }) => id);
}

/** A draft that says it, in the place of what was said of the same thing before. */
export function restate<K extends Restated>(
  standing: readonly Entry[],
  surveyKey: string,
  kind: K,
  body: BodyOf<K>,
): Draft {
  const name = 'gate' in body ? body.gate : 'cause' in body ? body.cause : undefined;
  const former = saidOf(standing, surveyKey, kind, name as string | undefined);
  return former.length === 0 ? draftOf(kind, body) : correctionOf(standing, former, kind, body);
}
