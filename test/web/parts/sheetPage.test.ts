import { render } from 'svelte/server';
import { expect, test } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import FieldSheetPage from '../../../web/parts/FieldSheetPage.svelte';
import SheetPage from '../../../web/parts/SheetPage.svelte';
import type { SheetQuestion } from '../../../web/parts/sheetDesk.svelte.ts';
import { sheetWork } from '../../../web/views/sheetWork.ts';
import { NO_HULL, sampleSurvey, stateOf, wordsOf } from '../sheets/samples.ts';

/** A survey of which nothing more has to be asked. */
function whole(survey: Survey): Survey {
  return {
    ...survey,
    support: [{ what: 'stands', engine: 'hung', checkedBy: 'Yard hand' }],
    transomRadius: 0,
    conditions: {
      hauled: '2026-05-04 08:00',
      'days afloat before': '6',
      'last long-term support': 'trailer',
      'bunks ended at': '10 in',
      surface: 'bare',
      'tabs and pockets': 'none',
      sun: 'none',
      temperature: '18 C',
    },
  };
}

const props = (survey: Survey) => ({
  state: { ...stateOf(survey), place: 'North yard', by: 'Yard hand' },
  hull: NO_HULL,
  assessment: assess(survey),
  unit: survey.workUnit,
});

const sheetProps = (survey: Survey) => ({
  ...props(survey),
  reckoner: {
    of: ({ survey, asked }: SheetQuestion) => ({
      is: 'ready' as const,
      work: sheetWork(assess(survey), asked),
    }),
    ask: () => undefined,
  },
  standing: [],
  person: 'Yard hand',
  causesPage: '#/causes',
  rollout: '#/rollout',
  add: () => undefined,
  strike: () => undefined,
  other: () => undefined,
  begin: () => undefined,
});

test('the sheet is held back, and cannot be printed, while things are missing', () => {
  const { body } = render(SheetPage, { props: sheetProps(sampleSurvey('stories/one-side')) });
  expect(wordsOf(body)).toContain('No worksheet yet');
  expect(body).toMatch(/<button[^>]*disabled[^>]*>Print/);
});

test('the sheet shows what was asked at the haul-out once nothing is missing', () => {
  const { body } = render(SheetPage, {
    props: sheetProps(whole(sampleSurvey('stories/one-side'))),
  });
  const words = wordsOf(body);
  expect(body).not.toMatch(/<button[^>]*disabled[^>]*>Print/);
  for (const said of [
    'Place North yard',
    'Measured by Yard hand',
    'Stands on stands, engine hung, checked by Yard hand',
    'Transom edge sharp',
    'Days afloat before 6',
    'Bunks ended at 10 in',
  ]) {
    expect(words).toContain(said);
  }
});

test('the field sheet can be printed before anything is asked', () => {
  const asked = {
    ...props(sampleSurvey('stories/one-side')),
    standing: [],
    first: 'port',
    walk: 'forward',
  } as const;
  const { body } = render(FieldSheetPage, { props: asked });
  expect(wordsOf(body)).toContain('PORT, 12 in from KEEL');
  expect(body).not.toContain('style=');
});
