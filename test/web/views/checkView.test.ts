import { describe, expect, it } from 'vitest';
import { workPlan } from '../../../src/fairing/plan/workPlan.ts';
import { assess } from '../../../src/survey/assess.ts';
import type { Line, Survey } from '../../../src/survey/survey.ts';
import { checkTables, remainderPlan, workCheck } from '../../../web/views/checkView.ts';
import { FIRST_CHOICES } from '../../../web/views/sheetChoices.ts';
import { firstSettings, saysTheSame, sheetBody } from '../../../web/views/sheetSettings.ts';
import { sampleSurvey } from '../sheets/samples.ts';

/** Read with a fine gauge, so that what the control line says is known. */
const FINE = { tolerance: 25.4 / 16, over: 1524, resolution: 0.1, repeatability: 0.1 } as const;
const survey = sampleSurvey('stories/one-side');
const options = { ...FIRST_CHOICES.plan, unit: survey.workUnit } as const;

const before = assess(survey, FINE);
const plan = workPlan(before, options);
const sheet = {
  id: 'sheet',
  at: '',
  by: '',
  body: sheetBody(plan, firstSettings(undefined, 'in'), {
    unit: 'in',
    number: 1,
    date: '2026-05-21',
  }),
};

/** The survey after the work: gaps of some lines made what `gap` says. */
function after(changed: (line: Line, station: number, gap: number) => number): Survey {
  return {
    ...survey,
    lines: survey.lines.map((line) => ({
      ...line,
      placements: line.placements.map((placement) => ({
        ...placement,
        readings: placement.readings.map((reading) => {
          const mm = changed(line, reading.station.mm, reading.gap.mm);
          return { ...reading, gap: { mm, text: `${mm} mm` } };
        }),
      })),
    })),
  };
}

function checked(now: Survey) {
  const assessment = assess(now, FINE);
  const remainder = remainderPlan(sheet, assessment, options);
  return { remainder, check: workCheck(sheet, before, assessment, remainder) };
}
const filled = (share: number) => (line: Line, station: number, gap: number) => {
  const figure = sheet.body.figures.find(
    (each) => each.line === line.id && Math.abs(each.station.mm - station) < 0.5,
  );
  return figure === undefined ? gap : Math.max(0, gap - share * figure.fill.mm);
};

describe('work held against its sheet', () => {
  it('is repaired when every worked line is proven fair and the control line has not moved', () => {
    expect(sheet.body.figures.map(({ name }) => name)).toContain('P30in');
    const { check, remainder } = checked(after(filled(1)));
    expect(['steady', 'cannot tell']).toContain(check.control);
    expect(check.outcome).toBe('repaired');
    expect(check.lines.map(({ now }) => now)).toEqual(['fair']);
    expect(check.lines.flatMap(({ stations }) => stations).every(({ is }) => is === 'in')).toBe(
      true,
    );
    expect(remainder.lines.every(({ is }) => is !== 'planned')).toBe(true);
    const rows = checkTables(check, 'in').flatMap((table) => table.rows);
    expect([...new Set(rows.map(({ now }) => now))]).toEqual(['nothing left']);
  });

  it('says station by station what is left, and plans that alone', () => {
    const { check, remainder } = checked(after(filled(0.4)));
    expect(check.outcome).toBe('some left');
    const rows = checkTables(check, 'in').flatMap((table) => table.rows);
    expect(rows.some(({ now }) => /^fill .* in more$/.test(now))).toBe(true);
    expect(remainder.lines.map(({ line }) => line.name)).toEqual(['P30in']);
  });

  it('calls nothing repaired where the control line has changed', () => {
    const bent = after((line, station, gap) =>
      line.name.startsWith('S')
        ? gap + 5 * Math.sin((Math.PI * station) / 1300)
        : filled(1)(line, station, gap),
    );
    const { check } = checked(bent);
    expect(check.control).toBe('moved');
    expect(check.outcome).toBe('not told');
    expect(check.words.join(' ')).toContain('Nothing may be called repaired');
  });

  it('says what was not read, and that a control line is missing', () => {
    const now = after((_line, _station, gap) => gap);
    const { check } = checked({ ...now, lines: [] });
    expect(check.control).toBe('none read');
    expect(check.lines.map((line) => line.now)).toEqual(['not read']);
    expect(check.outcome).toBe('not told');
  });
});

describe('a sheet as issued', () => {
  it('says what its plan says until the plan changes', () => {
    expect(saysTheSame(sheet.body, plan, 'in')).toBe(true);
    const shorter = workPlan(before, { ...options, forward: 600 });
    expect(saysTheSame(sheet.body, shorter, 'in')).toBe(false);
  });
});
