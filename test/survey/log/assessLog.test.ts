import { describe, expect, test } from 'vitest';
import { assess, type AssessOptions } from '../../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../../src/survey/assessment.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { readLog } from '../../../src/survey/log/readLog.ts';
import { madeLog, type MadeLog } from './madeLogs.ts';

function both(text: string, options: AssessOptions = {}): [SurveyAssessment, SurveyAssessment] {
  const log = readLog(new TextEncoder().encode(text));
  const csv = readCsv(text);
  if (!log?.ok || !csv.ok) throw new Error('both readers expected to take it');
  return [assess(log.survey, options), assess(csv.survey, options)];
}

/** Everything that is told of a line, to compare as numbers. */
function told({ lines, repeatability }: SurveyAssessment) {
  return {
    repeatability,
    lines: lines.map(({ outcome, readings, stations, part, parts }) => {
      if (!outcome.ok) return { outcome, readings, stations, part, parts };
      const { judgement, spacing, readingUncertainty, division, systematic } = outcome;
      const { verdict, sections, ...figures } = judgement;
      return {
        readings,
        stations,
        part,
        parts,
        verdict,
        sections: sections.map(({ class: is, proven }) => ({ is, proven })),
        figures: numbersIn([figures, sections, spacing, readingUncertainty, division, systematic]),
      };
    }),
  };
}

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (ArrayBuffer.isView(value)) return Array.from(value as Float64Array);
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

function expectSame([log, csv]: [SurveyAssessment, SurveyAssessment]): void {
  const [a, b] = [told(log), told(csv)];
  const close = (found: unknown, expected: unknown): void => {
    const [x, y] = [numbersIn(found), numbersIn(expected)];
    expect(x.length).toBe(y.length);
    x.forEach((value, i) => expect(Math.abs(value - y[i])).toBeLessThan(1e-6));
  };
  close(a, b);
  expect(a.lines.map(({ figures: _, ...words }) => words)).toEqual(
    b.lines.map(({ figures: _, ...words }) => words),
  );
  expect(log.remarks).toEqual(csv.remarks);
}

describe('a log is judged as the same readings one by one', () => {
  const made = (log: MadeLog) => madeLog(log);

  test('5,000 rows, each a station of its own', () => {
    const [log, csv] = both(made({ rows: 5000 }));
    expectSame([log, csv]);
    expect(log.lines[0].outcome).toMatchObject({ ok: true, judgement: { verdict: ['hook'] } });
    expect(log.lines[0].logged).toBe(5000);
  });

  test('5,000 rows, ten a station, averaged with their weight', () => {
    expectSame(both(made({ rows: 5000, each: 10 })));
  });

  test('300 rows on blocks of two heights, read as the last leaf, with an edge that may bow', () => {
    const head = [
      '# kind: log',
      '# read to: 0.1 mm',
      '# reads: last leaf',
      '# held: blocks',
      '# block: 1 mm',
      '# blocks at: 100 mm and 1400 mm',
      '# edge length: 1600 mm',
      '# aft end: -50 mm',
    ];
    expectSame(both(made({ rows: 300, head }), { edgeBound: 0.3 }));
  });

  test('two placements tied by shared stations, and two that nothing ties', () => {
    const row = (placement: number, x: number) =>
      `p,450,${placement},${x},${(0.5 + 0.3 * placement + 0.0002 * x * placement + Math.sin(x / 200) / 3).toFixed(2)}`;
    const upTo = (placement: number, from: number, to: number) =>
      Array.from({ length: (to - from) / 5 + 1 }, (_, i) => row(placement, from + 5 * i));
    const file = (rows: readonly string[]) =>
      `# kind: log\n# read to: 0.01 mm\nside,offset_mm,placement,station_mm,gap_mm\n${rows.join('\n')}`;
    expectSame(both(file([...upTo(1, 0, 900), ...upTo(2, 600, 1500)])));
    expectSame(both(file([...upTo(1, 0, 700), ...upTo(2, 800, 1500)])));
  });

  test('with a limit, and too few stations', () => {
    expectSame(both(made({ rows: 2000 }), { limit: 900, over: 600, tolerance: 0.5 }));
    expectSame(both(made({ rows: 30, each: 10 })));
  });

  test('a log whose kept file has not been read is refused, never judged as if it were not there', () => {
    const log = readLog(new TextEncoder().encode(made({ rows: 100 })));
    if (!log?.ok) throw new Error('a log expected');
    const lines = log.survey.lines.map((line) => ({
      ...line,
      placements: line.placements.map((p) => ({ ...p, log: { count: 100 } })),
    }));
    expect(() => assess({ ...log.survey, lines })).toThrow(
      'a log of 100 readings whose kept file was read is expected',
    );
  });
});
