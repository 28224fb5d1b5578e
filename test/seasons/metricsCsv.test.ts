import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { METRIC_COLUMNS, metricsCsv } from '../../src/seasons/metricsCsv.ts';
import { assess } from '../../src/survey/assess.ts';
import { lineOf, placementOf, surveyOf } from '../survey/madeSurveys.ts';
import { assessed, hollowOf, readLine, surveyed } from './support.ts';

type Row = Record<(typeof METRIC_COLUMNS)[number], string>;

/** Read back by a general-purpose reader of RFC 4180. */
function rowsOf(csv: string): readonly Row[] {
  const { data, errors } = Papa.parse<Row>(csv, { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  return data;
}

describe('the figures of the seasons as CSV', () => {
  let csv = '';
  beforeAll(() => {
    csv = metricsCsv(['season-2024.csv', 'season-2025.csv', 'season-2026.csv'].map(assessed));
  });

  it('has a row for each survey, line and measure, and for port less starboard', () => {
    const rows = rowsOf(csv);
    expect(rows).toHaveLength(3 * (4 * 3 + 2 * 3));
    const own = rows.filter(({ against }) => against === '');
    const keys = own.map(({ date, line, measure }) => `${date} ${line} ${measure}`);
    expect(new Set(keys).size).toBe(36);
  });

  it('ends every record with CRLF and states each unit in a head', () => {
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(csv.split('\r\n')[0]).toBe(METRIC_COLUMNS.join(','));
    for (const head of METRIC_COLUMNS.filter((each) => /^(u_)?(size|angle)/.test(each))) {
      expect(head).toMatch(/_(mm|deg)$/);
    }
  });

  it('gives a standard uncertainty above nought beside every figure, and no figure without one', () => {
    for (const { size_mm, u_size_mm, angle_deg, u_angle_deg, not_given } of rowsOf(csv)) {
      expect([size_mm, angle_deg, not_given].filter((cell) => cell !== '')).toHaveLength(1);
      expect(u_size_mm !== '').toBe(size_mm !== '');
      expect(u_angle_deg !== '').toBe(angle_deg !== '');
      expect(Number(u_size_mm || u_angle_deg)).toBeGreaterThan(0);
    }
  });

  it('says of the hull that moved how deep it was each year', () => {
    const depths = rowsOf(csv)
      .filter(({ line, measure, against }) => `${line}${measure}${against}` === 'P700hollow')
      .map(({ size_mm }) => Number(size_mm));
    expect(depths[0]).toBeCloseTo(1.5, 0);
    expect(depths[2] - depths[0]).toBeGreaterThan(2.5);
  });
});

describe('a figure that cannot be given', () => {
  it('leaves its cells empty and says why', () => {
    const short = lineOf([placementOf([0, 300, 600], () => 1)]);
    const [first] = rowsOf(metricsCsv([assess(surveyOf([short]))]));
    expect(first).toMatchObject({ size_mm: '', u_size_mm: '', date: '', verdict: '' });
    expect(first.not_given).toMatch(/^3 of the \d stations/);
  });

  it('is a tail with too little forward of it', () => {
    const line = lineOf([placementOf([0, 100, 200, 300, 400, 500, 600], () => 1)]);
    const rows = rowsOf(metricsCsv([assess(surveyOf([line]))]));
    expect(rows.map(({ measure, not_given }) => [measure, not_given !== ''])).toEqual([
      ['hollow', false],
      ['hump', false],
      ['tail angle', true],
    ]);
  });
});

describe('a name in a cell', () => {
  it('that a spreadsheet would run is guarded, and one with a comma or a quote is quoted', () => {
    const line = readLine('P450', hollowOf(1), 1, { name: '=HYPERLINK("x"), outer' });
    const survey = surveyed('2026-05-01', [line], { hull: '@Plover\n(invented)' });
    const csv = metricsCsv([survey]);
    const [row] = rowsOf(csv);
    expect(row.line).toBe(`'=HYPERLINK("x"), outer`);
    expect(row.hull).toBe(`'@Plover (invented)`);
    expect(csv).toContain(`"'=HYPERLINK(""x""), outer"`);
  });
});
