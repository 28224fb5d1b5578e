import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';

import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { readTextCell, writeTextCell } from '../../../src/survey/csv/textCell.ts';
import { writeCsv } from '../../../src/survey/csv/writeCsv.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { anySurvey } from './anySurvey.ts';

function withoutSources(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutSources);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([key]) => key !== 'source');
  return Object.fromEntries(entries.map(([key, inner]) => [key, withoutSources(inner)]));
}

function readBack(survey: Survey): Survey {
  const read = readCsv(writeCsv(survey));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.survey;
}

function sample(name: string): Survey {
  const url = new URL(`../../../fixtures/samples/${name}`, import.meta.url);
  const read = readCsv(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.survey;
}

describe('writeCsv', () => {
  it('gives the same survey back, whatever stands in it', () => {
    fc.assert(
      fc.property(anySurvey, (survey) => {
        expect(withoutSources(readBack(survey))).toEqual(withoutSources(survey));
      }),
      { seed: 4180, numRuns: 150 },
    );
  });

  it.each([
    'inches-wide.csv',
    'metric-long.csv',
    'two-placements.csv',
    'season-2024.csv',
    'stories/moulded-wedge.csv',
    'stories/rocker-blocks.csv',
  ])('gives %s back the same', (name) => {
    const survey = sample(name);
    expect(withoutSources(readBack(survey))).toEqual(withoutSources(survey));
  });

  it('writes conditions above, the columns that are in use, and CRLF as RFC 4180 asks', () => {
    const text = writeCsv(sample('metric-long.csv'));
    const lines = text.split('\r\n');
    expect(lines.slice(0, 7)).toEqual([
      '# hull: Grey Teal (invented)',
      '# held: blocks',
      '# block: 20 mm',
      '# blocks at: 100 mm and 1400 mm',
      '# read to: 0.1 mm',
      'side,offset_mm,station_mm,gap_mm,line,placement,note,gap_typed',
      'port,300,0,20.1,P300,1,,"20,1"',
    ]);
    expect(lines.at(-1)).toBe('');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('writes every number raw, so that a spreadsheet takes none for a date or a text', () => {
    const text = writeCsv(sample('inches-wide.csv'));
    expect(text).toContain('\r\n# read to: 1/32 in\r\n');
    const table = text.slice(text.indexOf('side,'));
    const { data } = Papa.parse<Record<string, string>>(table, {
      header: true,
      skipEmptyLines: true,
    });
    expect(data).toHaveLength(83);
    for (const row of data) {
      for (const column of ['offset_in', 'station_in', 'gap_in']) {
        expect(row[column]).toMatch(/^-?\d+(\.\d+)?$/);
      }
    }
    expect(data[1]).toMatchObject({ station_in: '3', gap_in: '0.03125', gap_typed: '1/32' });
  });

  it('guards text that a spreadsheet would run, and leaves negative numbers alone', () => {
    const survey = sample('season-2024.csv');
    const [line] = survey.lines;
    const [placement] = line?.placements ?? [];
    const [reading] = placement?.readings ?? [];
    if (line === undefined || placement === undefined || reading === undefined) throw new Error();
    const changed: Survey = {
      ...survey,
      lines: [
        {
          ...line,
          placements: [
            {
              ...placement,
              readings: [{ ...reading, gap: { mm: -0.1, text: '-0.1' }, note: '=1+1' }],
            },
          ],
        },
      ],
    };
    expect(writeCsv(changed)).toContain("\r\nport,300,0,-0.1,P300,1,'=1+1\r\n");
    expect(withoutSources(readBack(changed))).toEqual(withoutSources(changed));
  });

  it('keeps a placement without readings, and a condition that has the name of a key of ours', () => {
    const survey = sample('season-2024.csv');
    const [line] = survey.lines;
    const [placement] = line?.placements ?? [];
    if (line === undefined || placement === undefined) throw new Error();
    const bare: Survey = {
      ...survey,
      conditions: { held: 'by two people' },
      lines: [{ ...line, placements: [{ ...placement, readings: [] }] }],
    };
    const back = readBack(bare);
    expect(back.lines).toEqual(bare.lines);
    expect(back.conditions).toEqual({ 'note on held': 'by two people' });
  });

  it('refuses lines, or placements of a line, that have one name', () => {
    const survey = sample('season-2024.csv');
    const [line] = survey.lines;
    if (line === undefined) throw new Error();
    expect(() => writeCsv({ ...survey, lines: [line, line] })).toThrow(RangeError);
    const twice = { ...line, placements: [...line.placements, ...line.placements] };
    expect(() => writeCsv({ ...survey, lines: [twice] })).toThrow(RangeError);
  });
});

describe('text cells', () => {
  it('never begin as a formula does, and read back the same', () => {
    const text = fc.string({
      unit: fc.constantFrom('=', '+', '-', '@', '＝', '\t', '\r', '\n', ';', '"', "'", 'a', ' '),
    });
    fc.assert(
      fc.property(text, (one) => {
        const cell = writeTextCell(one);
        expect(cell).not.toMatch(/(^|[;\t\r\n])["]*[=+\-@＝]/);
        expect(cell).not.toMatch(/^[\t\r\n]/);
        expect(readTextCell(cell)).toBe(cell === one ? one.trim() : one);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it('are guarded part by part, since another country’s spreadsheet parts cells at semicolons', () => {
    expect(writeTextCell('soft;=1+1')).toBe("soft;'=1+1");
    expect(writeTextCell('3 mm; -0.1 at the chine')).toBe('3 mm; -0.1 at the chine');
  });

  it('hide no formula behind a comma of a condition', () => {
    const hull = 'Plover (invented),=HYPERLINK("x");@SUM(1)';
    const survey: Survey = { ...sample('season-2024.csv'), hull, conditions: { sea: 'a;"-1+1' } };
    const text = writeCsv(survey);
    expect(text).toContain('"# hull: Plover (invented),=HYPERLINK(""x"");@SUM(1)"\r\n');
    expect(text).toContain('"# sea: a;""-1+1"\r\n');
    expect(withoutSources(readBack(survey))).toEqual(withoutSources(survey));
  });
});
