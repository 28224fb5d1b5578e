import type { Entry } from '../../src/book/entry.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import { surveyKeyOf } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { CONDITION } from '../../src/survey/kinds/condition.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

/** What an exhibit says of the occasion and a survey's first questions do not ask. Empty: not stated. */
export interface ExhibitAnswers {
  readonly place: string;
  readonly weather: string;
  readonly madeFor: string;
}

export function exhibitAnswers({ place, survey }: SurveyState): ExhibitAnswers {
  const said = (about: string) => survey.conditions[about] ?? '';
  return {
    place: place ?? '',
    weather: said(CONDITION.weather),
    madeFor: said(CONDITION.madeFor),
  };
}

function withoutPlace(said: BodyOf<'survey'>): BodyOf<'survey'> {
  const { place, ...rest } = said;
  return place === undefined ? said : rest;
}

/** What has to be stated for the answers to stand: drafts for those that are new or changed, and the ids of entries
 *  to strike for those that were emptied. `standing`: the standing entries of the hull. */
export function exhibitDrafts(
  answers: ExhibitAnswers,
  state: SurveyState,
  standing: readonly Entry[],
): { readonly drafts: readonly Draft[]; readonly strikes: readonly string[] } {
  const before = exhibitAnswers(state);
  const read = readStanding(standing.filter(({ _id }) => surveyKeyOf(_id) === state.key));
  const drafts: Draft[] = [];
  const strikes: string[] = [];
  const place = answers.place.trim();
  if (place !== before.place) {
    const formers = read.of('survey');
    const said = formers.at(-1)?.body ?? {
      workUnit: state.survey.workUnit,
      measured: state.survey.kind,
    };
    const body = place === '' ? withoutPlace(said) : { ...said, place };
    drafts.push(
      formers.length === 0
        ? draftOf('survey', body)
        : correctionOf(
            standing,
            formers.map(({ id }) => id),
            'survey',
            body,
          ),
    );
  }
  for (const [about, now, then] of [
    [CONDITION.weather, answers.weather.trim(), before.weather],
    [CONDITION.madeFor, answers.madeFor.trim(), before.madeFor],
  ] as const) {
    if (now === then) continue;
    const formers = read.of('condition').filter(({ body }) => body.about === about);
    const ids = formers.map(({ id }) => id);
    if (now === '') strikes.push(...ids);
    else if (ids.length === 0) drafts.push(draftOf('condition', { about, said: now }));
    else drafts.push(correctionOf(standing, ids, 'condition', { about, said: now }));
  }
  return { drafts, strikes };
}
