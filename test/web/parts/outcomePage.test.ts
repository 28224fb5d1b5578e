import { render } from 'svelte/server';
import { expect, test } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import { standing } from '../../../src/book/standing.ts';
import { assess } from '../../../src/survey/assess.ts';
import OutcomePage from '../../../web/parts/OutcomePage.svelte';
import { sampleSurvey, wordsOf } from '../sheets/samples.ts';

const outcome = (stale: boolean): string => {
  const survey = sampleSurvey('stories/one-side');
  return render(OutcomePage, {
    props: {
      survey: 'cdefghjkmnpq',
      hull: undefined,
      date: survey.date,
      assessment: assess(survey),
      stale,
      unit: survey.workUnit,
      stands: standing(bookOf([])),
      back: () => undefined,
    },
  }).body;
};

test('the outcome sheet prints', () => {
  const body = outcome(false);
  expect(body).not.toMatch(/<button[^>]*disabled[^>]*>Print/);
  expect(body).not.toMatch(/class="preview[^"]*noprint/);
});

test('the outcome sheet waits, and says for what, while a changed survey is judged anew', () => {
  const body = outcome(true);
  expect(body).toMatch(/<button[^>]*disabled[^>]*>Print/);
  expect(body).toMatch(/class="preview[^"]*noprint/);
  expect(wordsOf(body)).toContain('Printed once the changed survey is judged.');
});
