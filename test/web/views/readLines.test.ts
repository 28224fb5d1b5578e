import { expect, test } from 'vitest';
import { readLines } from '../../../web/views/readLines.ts';
import { sampleSurvey } from '../sheets/samples.ts';

test('what was read of each line is told before it is judged; a line without a reading is left out', () => {
  const survey = sampleSurvey('two-placements');
  const bare = { ...survey.lines[0], id: 'bare', placements: [] };
  const lines = readLines({ ...survey, lines: [...survey.lines, bare] });
  expect(lines.map(({ name }) => name)).toEqual(survey.lines.map(({ name }) => name));
  expect(lines[0].words).toBe('37 readings in 3 layings');
  const [first] = survey.lines[0].placements[0].readings;
  const one = { ...survey.lines[0].placements[0], readings: [first] };
  const single = { ...survey.lines[0], placements: [one] };
  expect(readLines({ ...survey, lines: [single] })[0].words).toBe('1 reading');
});
