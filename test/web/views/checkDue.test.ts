import { describe, expect, test } from 'vitest';

import { checkDue, COMES_UP, monthsAfter } from '../../../web/views/checkDue.ts';

describe('some months after a day', () => {
  // Counted on a calendar: 2024 and 2028 have a 29 February, 2100 has none (ISO 8601, Gregorian calendar).
  test.each([
    ['2025-03-14', 12, '2026-03-14'],
    ['2024-02-29', 12, '2025-02-28'],
    ['2024-02-29', 48, '2028-02-29'],
    ['2096-02-29', 48, '2100-02-28'],
    ['2024-08-31', 6, '2025-02-28'],
    ['2023-08-31', 6, '2024-02-29'],
    ['2025-12-31', 2, '2026-02-28'],
    ['2025-12-01', 1, '2026-01-01'],
    ['2025-01-31', 120, '2035-01-31'],
  ])('of %s, %i on, is %s', (day, months, then) => {
    expect(monthsAfter(day, months)).toBe(then);
  });
});

describe('a hull is to be checked', () => {
  const on = (today: string) => checkDue(1, '2025-03-14', 12, today);

  test('on the day itself and ever after', () => {
    expect(on('2026-03-14')).toEqual({ state: 'due', day: '2026-03-14', inDays: 0 });
    expect(on('2026-03-15')).toEqual({ state: 'due', day: '2026-03-14', inDays: -1 });
  });

  test(`soon, from ${COMES_UP} days before`, () => {
    expect(on('2026-03-13')).toMatchObject({ state: 'comes up', inDays: 1 });
    expect(on('2026-02-12')).toMatchObject({ state: 'comes up', inDays: 30 });
    expect(on('2026-02-11')).toMatchObject({ state: 'not due', inDays: 31 });
  });

  test('by the day of a date with a time, as it is written there', () => {
    expect(checkDue(1, '2025-03-14T23:30:00-08:00', 12, '2026-03-14').state).toBe('due');
  });

  test('at no day that can be told where it was never measured, or its survey has no date', () => {
    expect(checkDue(0, undefined, 12, '2026-03-14')).toEqual({ state: 'not measured' });
    expect(checkDue(2, undefined, 12, '2026-03-14')).toEqual({ state: 'no date' });
    expect(checkDue(2, 'last spring', 12, '2026-03-14')).toEqual({ state: 'no date' });
    expect(checkDue(2, '2025-02-29', 12, '2026-03-14')).toEqual({ state: 'no date' });
  });
});
