import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRepair, repairsStated } from '../../src/seasons/repairsStated.ts';
import { dayOf, daysOf, showDay } from '../../src/seasons/season.ts';
import { surveyOf } from '../survey/madeSurveys.ts';

describe('the day of a survey', () => {
  it.each([
    ['2026-04-16', '2026-04-16'],
    ['2026-04-16T23:30-05:00', '2026-04-16'],
    [' 2026-04-16 09:30', '2026-04-16'],
  ])('of %s is %s: as written, whatever the zone', (text, day) => {
    expect(dayOf(text)).toBe(day);
  });

  it.each(['', 'last spring', '16.4.2026', '2026-02-30', '2026-4-16', '2026-04-16th'])(
    'is none where there is none: %s',
    (text) => {
      expect(dayOf(text)).toBeUndefined();
    },
  );

  it('is counted and shown again unchanged', () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (days) => {
        expect(daysOf(String(showDay(days)))).toBe(days);
      }),
      { seed: 621, numRuns: 200 },
    );
    expect(showDay(1e12)).toBeUndefined();
    expect(showDay(4e6)).toBeUndefined();
  });
});

describe('repairs that files state', () => {
  it('have a day, lines where they are named, and what was done', () => {
    expect(readRepair('2026-03-14; P450, P700; filled and faired')).toEqual({
      date: '2026-03-14',
      lines: ['P450', 'P700'],
      what: 'filled and faired',
    });
    expect(readRepair('2026-03-14; filled')).toEqual({ date: '2026-03-14', what: 'filled' });
    expect(readRepair('spring; filled')).toBeUndefined();
    expect(readRepair('2026-03-14')).toBeUndefined();
  });

  it('are taken once, in order of time, and the unreadable are given back as written', () => {
    const survey = (text: string) => surveyOf([], { conditions: { Repair: text } });
    expect(
      repairsStated([
        survey('2026-03-14; filled\nsome time ago; ground'),
        survey('2025-01-02; P450; ground\n2026-03-14; filled'),
        surveyOf([]),
      ]),
    ).toEqual({
      repairs: [
        { date: '2025-01-02', lines: ['P450'], what: 'ground' },
        { date: '2026-03-14', what: 'filled' },
      ],
      unreadable: ['some time ago; ground'],
    });
  });
});
