import { expect, test } from 'vitest';
import { readFileSync } from 'node:fs';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { overallWords } from '../../../web/views/overallWords.ts';

const demo = readFileSync(new URL('../../../web/store/demo.csv', import.meta.url), 'utf8');

test('every line stands under its word once, the gravest word first', () => {
  const read = readCsv(demo);
  if (!read.ok) throw new Error('the demo does not read');
  expect(overallWords(assess(read.survey))).toEqual([
    { word: 'Hook', lines: ['P18in', 'P30in'] },
    { word: 'Undecided', lines: ['P6in', 'S30in'] },
    { word: 'Fair', lines: ['S6in', 'S18in'] },
  ]);
});

test('a survey without a reading has nothing at a glance', () => {
  const read = readCsv(demo);
  if (!read.ok) throw new Error('the demo does not read');
  expect(overallWords(assess({ ...read.survey, lines: [] }))).toEqual([]);
});
