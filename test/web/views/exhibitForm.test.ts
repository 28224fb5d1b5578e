import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { draftOf, stamp } from '../../../src/survey/kinds/draft.ts';
import { exhibitAnswers, exhibitDrafts } from '../../../web/views/exhibitForm.ts';
import { entriesOf, idOf, SIGNATURE, SURVEY } from '../../survey/fold/samples.ts';

const FIRST = entriesOf([
  draftOf('survey', { workUnit: 'in', measured: 'hand', by: 'Jo' }),
  draftOf('condition', { about: 'weather', said: 'rain' }),
]);

function stateOf(entries: readonly Entry[]) {
  const stands = standing(bookOf(entries));
  const state = surveyOf(stands.standing, stands.struckRows, SURVEY);
  return { standing: stands.standing, state };
}

describe('what the exhibit asks for', () => {
  it('starts from what is stated, and states nothing where nothing is changed', () => {
    const { standing: stands, state } = stateOf(FIRST);
    const answers = exhibitAnswers(state);
    expect(answers).toEqual({ place: '', weather: 'rain', madeFor: '' });
    expect(exhibitDrafts(answers, state, stands)).toEqual({ drafts: [], strikes: [] });
  });

  it('puts the survey’s own facts right without losing any, and states what is new', () => {
    const { standing: stands, state } = stateOf(FIRST);
    const answers = { place: ' north shed ', weather: 'dry', madeFor: 'the owner' };
    const { drafts, strikes } = exhibitDrafts(answers, state, stands);
    expect(strikes).toEqual([]);
    const entries = drafts.map((draft, i) =>
      stamp(draft, { ...SIGNATURE, id: idOf(20 + i, 'survey') }),
    );
    const after = stateOf([...FIRST, ...entries]).state;
    expect(exhibitAnswers(after)).toEqual({ ...answers, place: 'north shed' });
    expect(after).toMatchObject({ by: 'Jo', survey: { workUnit: 'in' }, disagreements: [] });
  });

  it('strikes what is emptied', () => {
    const { standing: stands, state } = stateOf(FIRST);
    const emptied = { place: '', weather: '  ', madeFor: '' };
    expect(exhibitDrafts(emptied, state, stands)).toEqual({ drafts: [], strikes: [FIRST[1]._id] });
  });

  it('can state a place before the survey’s own entry has arrived', () => {
    const { standing: stands, state } = stateOf(FIRST.slice(1));
    const [draft] = exhibitDrafts({ ...exhibitAnswers(state), place: 'x' }, state, stands).drafts;
    expect(draft).toMatchObject({ kind: 'survey', body: { place: 'x', workUnit: 'mm' } });
  });
});
