import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import type { Survey } from '../../../src/survey/survey.ts';

// Invented surveys: fixtures/samples/README.md.
function sample(name: string) {
  return readCsv(
    readFileSync(new URL(`../../../fixtures/samples/${name}`, import.meta.url), 'utf8'),
  );
}

function surveyOf(name: string): Survey {
  const read = sample(name);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  expect(read.warnings).toEqual([]);
  return read.survey;
}

function shape({ lines }: Survey): string[] {
  return lines.flatMap((line) =>
    line.placements.map(
      ({ id, readings, voids }) =>
        `${id} ${line.side} ${line.offset}: ${readings.length}+${voids.length}`,
    ),
  );
}

describe('sample surveys', () => {
  it('reads the wide form in inches: six lines, one of them a reading short', () => {
    const survey = surveyOf('inches-wide.csv');
    expect(survey).toMatchObject({ hull: 'Marsh Heron (invented)', workUnit: 'in', kind: 'hand' });
    const offsets = [152.4, 457.2, 762];
    expect(survey.lines.map(({ name, side, offset }) => [name, side, offset])).toEqual([
      ...offsets.map((offset, i) => [`P${[6, 18, 30][i]}in`, 'port', offset]),
      ...offsets.map((offset, i) => [`S${[6, 18, 30][i]}in`, 'starboard', offset]),
    ]);
    expect(survey.lines.map(({ placements }) => placements[0]?.readings.length)).toEqual([
      14, 14, 14, 13, 14, 14,
    ]);
    const placement = survey.lines[1]?.placements[0];
    expect(placement).toMatchObject({ held: 'resting', edgeLength: 1524, division: 0.79375 });
    expect(placement?.readings[2]).toEqual({
      station: { mm: 152.4, text: '6' },
      gap: { mm: 2.38125, text: '3/32' },
      look: 1,
      source: 'row 9 P18in',
    });
  });

  it('reads semicolons, decimal commas, a byte order mark and blocks', () => {
    const read = sample('metric-long.csv');
    expect(read.recognised).toMatchObject({
      form: 'long',
      delimiter: ';',
      decimal: ',',
      units: { offset: 'mm', station: 'mm', gap: 'mm' },
      assumed: [],
      counts: { rows: 64, readings: 64, blank: 0, lines: 4, placements: 4 },
    });
    const survey = surveyOf('metric-long.csv');
    expect(shape(survey)).toEqual([
      'P300/1/1 port 300: 16+0',
      'P700/1/1 port 700: 16+0',
      'S300/1/1 starboard 300: 16+0',
      'S700/1/1 starboard 700: 16+0',
    ]);
    const placement = survey.lines[1]?.placements[0];
    expect(placement).toMatchObject({
      held: 'blocks',
      block: 20,
      blocksAt: [100, 1400],
      division: 0.1,
    });
    expect(placement?.readings[8]).toEqual({
      station: { mm: 800, text: '800' },
      gap: { mm: 19.6, text: '19,6' },
      look: 1,
      note: 'at the strake end, read beside it',
      source: 'row 31',
    });
  });

  it('keeps placements and repeats of one line apart, and a void with its reason', () => {
    const survey = surveyOf('two-placements.csv');
    expect(shape(survey)).toEqual([
      'P400/1/1 port 400: 12+1',
      'P400/1/2 port 400: 12+1',
      'P400/2/1 port 400: 13+0',
      'S400/1/1 starboard 400: 12+1',
      'S400/1/2 starboard 400: 12+1',
      'S400/2/1 starboard 400: 13+0',
    ]);
    const [first, , third] = survey.lines[0]?.placements ?? [];
    expect(first?.voids).toEqual([
      { station: { mm: 500, text: '500' }, reason: 'through-hull', source: 'row 10' },
    ]);
    expect([first?.aftEnd, third?.aftEnd, third?.edgeLength, third?.division]).toEqual([
      0, 900, 1200, 0.25,
    ]);
  });

  it('names every faulty row by row, column, what stood there and what was expected', () => {
    const read = sample('faulty-long.csv');
    expect(read).toMatchObject({
      ok: false,
      faults: [
        { row: 4, column: 'gap_mm', found: 'o.8', expected: 'a length, millimetres such as 2.4' },
        {
          row: 6,
          column: 'station_mm',
          found: '300',
          expected:
            'each station once in line P300, placement 1 (row 5 has 1.1 there), or a look number for a second look',
        },
        {
          row: 7,
          column: 'station_mm',
          found: '-400',
          expected: '0 or more: stations count forward from the transom',
        },
        { row: 8, column: 'side', found: 'prt', expected: 'port, starboard or centre' },
        { row: 11, column: 'gap_mm', found: '45', expected: 'at most 30 mm' },
        { row: 12, column: 'column 5', found: 'extra', expected: '4 cells, as the header has' },
      ],
      needs: [],
      recognised: { assumed: ['held: resting'], counts: { rows: 14, blank: 1 } },
    });
    const kept = read.ok ? undefined : read.partial.lines[0]?.placements[0]?.readings;
    expect(kept?.map(({ station }) => station.mm)).toEqual([0, 100, 300, 700, 1000, 1100, 1200]);
  });

  it.each([
    ['season-2024.csv', 4, 56],
    ['season-2025.csv', 4, 56],
    ['season-2026.csv', 4, 56],
    ['stories/bowed-edge.csv', 4, 56],
    ['stories/bunk-hook-hour-3.csv', 2, 24],
    ['stories/bunk-hook-after-six-days-afloat.csv', 2, 24],
    ['stories/bunk-hook-next-year-longer-bunks.csv', 2, 24],
    ['stories/moulded-wedge.csv', 4, 64],
    ['stories/not-to-blame.csv', 4, 56],
    ['stories/one-side.csv', 4, 60],
    ['stories/rocker-blocks.csv', 1, 16],
  ])('reads %s whole: %i lines, %i readings', (name, lines, readings) => {
    const survey = surveyOf(name);
    expect(survey.lines).toHaveLength(lines);
    const all = survey.lines.flatMap((line) => line.placements.flatMap((each) => each.readings));
    expect(all).toHaveLength(readings);
  });

  it('keeps support as an event, the date, and the radius of the transom', () => {
    expect(surveyOf('stories/bunk-hook-hour-3.csv')).toMatchObject({
      date: '2025-10-02',
      support: [{ what: 'trailer, bunks end 10 in forward of the transom' }],
      conditions: {},
    });
    expect(surveyOf('stories/rocker-blocks.csv').transomRadius).toBe(10);
  });
});
