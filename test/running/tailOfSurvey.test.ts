import { expect, test } from 'vitest';
import { tailOfSurvey } from '../../src/running/tailOfSurvey.ts';
import { assess } from '../../src/survey/assess.ts';
import { sample } from '../survey/madeSurveys.ts';

// The invented survey whose bottom is not to blame; what `aftrun assess` says of its lines is in tern-reach.json.
test('the tail of a bottom is the mean of its lines, with the doubt that they share', () => {
  const { tail, lines, without } = tailOfSurvey(assess(sample('stories/not-to-blame.csv')));
  expect(lines).toHaveLength(4);
  expect(without).toEqual([]);
  expect(tail?.over).toBe(300);
  expect(tail?.angle).toBeCloseTo((0.31 + 0.58 + 0.3 + 0.52) / 4, 1);
  expect(tail?.u).toBeGreaterThan(0.08);
});

test('lines that are too short give none, and are named', () => {
  const survey = sample('stories/not-to-blame.csv');
  const short = {
    ...survey,
    lines: survey.lines.slice(0, 2).map((line) => ({
      ...line,
      placements: line.placements.map((placement) => ({
        ...placement,
        readings: placement.readings.filter(({ station }) => station.mm < 600),
      })),
    })),
  };
  const found = tailOfSurvey(assess(short));
  expect(found.tail).toBeUndefined();
  expect(found.without).toHaveLength(2);
});
