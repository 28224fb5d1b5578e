import { expect, test } from 'vitest';
import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { draftOf, stampAll, type Draft } from '../../../src/survey/kinds/draft.ts';
import { sayInvented } from '../../../web/views/hullName.ts';
import { conditionDrafts, supportDraft, supportsIn } from '../../../web/views/surveyDrafts.ts';

const SURVEY = 'svrvey000001';
let clock = 0;
function stamped(drafts: readonly Draft[], survey = SURVEY): readonly Entry[] {
  const ids = drafts.map(() =>
    entryId({ hull: 'ha11ha11ha11', survey, time: (clock += 1), random: new Uint8Array(10) }),
  );
  const signature = { at: '2026-11-25T09:00:00.000Z', by: 'A. Tester', device: 'd', app: 't' };
  return stampAll(drafts, { ids, ...signature });
}
const condition = (about: string, said: string) => draftOf('condition', { about, said });

test('a condition takes the place of those of its name, however they are written, and of no other survey’s', () => {
  const [other] = stamped([condition('weather', 'rain')], 'svrvey000002');
  const [former, kept] = stamped([condition(' Weather', 'dry'), condition('tide', 'low')]);
  const drafts = conditionDrafts([other, former, kept], SURVEY, [
    { about: 'weather', said: 'sun' },
    { about: 'fuel', said: 'half' },
  ]);
  expect(drafts.map(({ body }) => body)).toEqual([
    { about: 'weather', said: 'sun' },
    { about: 'fuel', said: 'half' },
  ]);
  expect(drafts.map(({ strikes }) => strikes ?? [])).toEqual([[{ entry: former._id }], []]);
});

test('what the hull stands on is stated anew, or put right as the same support', () => {
  const body = { nth: 1, what: 'a trailer' };
  expect(supportDraft([], body, undefined)).toEqual(draftOf('support', body));
  const standing = stamped([draftOf('support', body)]);
  const [{ id }] = supportsIn(standing, SURVEY);
  const right = supportDraft(standing, { ...body, notes: 'four pads' }, id);
  expect(right.body).toMatchObject({ notes: 'four pads', sameAs: id });
  expect(right.strikes).toEqual([{ entry: id }]);
  expect(supportsIn(standing, 'svrvey000002')).toEqual([]);
});

test('a tag says that a hull is invented where its name does not', () => {
  expect(sayInvented('Marsh Heron', true)).toBe(true);
  expect(sayInvented('Marsh Heron (Invented)', true)).toBe(false);
  expect(sayInvented('Marsh Heron', undefined)).toBe(false);
});
