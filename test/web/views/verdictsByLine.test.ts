import { expect, test } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { lineVerdict } from '../../../web/views/verdictsByLine.ts';
import { lineOf, placementOf, surveyOf } from '../../survey/madeSurveys.ts';
import { viewOf } from '../sheets/samples.ts';

const stations = (from: number, to: number) =>
  Array.from({ length: (to - from) / 75 + 1 }, (_, i) => from + 75 * i);
/** Wobbles by less than the gauge's division, so that the fit has something to fit. */
const wobble = (x: number) => 3 + 0.05 * Math.sin(x / 40);

/** Two layings that share 600 to 900 mm, the second pressed there by 1.5 mm. */
const pressed = (name: string, by: number) =>
  lineOf(
    [
      placementOf(stations(0, 900), wobble, { id: `${name}/1` }),
      placementOf(
        stations(600, 1500),
        (x) => wobble(x) - (x < 900 ? by * Math.sin((Math.PI * (x - 600)) / 300) : 0),
        { id: `${name}/2`, name: '2' },
      ),
    ],
    { id: name, name },
  );
const survey = surveyOf([pressed('P450', 1.5), pressed('P700', 0)], { repeatability: 0.1 });

test('the end of a line says which of its placements contradict each other, and of other lines nothing', () => {
  const all = assess(survey);
  const [one, other] = all.lines.map((line) => lineVerdict(line, all, 'known').amiss);
  expect(one).toHaveLength(1);
  expect(one[0]).toMatch(/^P450: placement 1 and placement 2 contradict each other/);
  expect(other).toEqual([]);
});

test('what would decide a line is left out while it is worked out, and empty where it could not be', () => {
  const all = assess(survey);
  const [line] = all.lines;
  expect(lineVerdict(line, all, 'working')).not.toHaveProperty('steps');
  expect(lineVerdict(line, all, 'failed').steps).toEqual([]);
});

test('the worksheet says it beside what the readings suggest', () => {
  const said = viewOf(survey).remarks.filter((words) => words.includes('contradict each other'));
  expect(said).toHaveLength(1);
  expect(said[0]).toContain('P450');
});
