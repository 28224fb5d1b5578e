import { expect, test } from 'vitest';

import { dayAndTimeText, dayText } from '../../../web/parts/localeText.ts';

// Dates as CLDR has them for each language; the runtime's Intl is the reference.
test('a day is shown as the language writes it, the same day in every zone', () => {
  expect(dayText('2026-03-14', 'en-US')).toBe('Mar 14, 2026');
  expect(dayText('2026-03-14', 'en-GB')).toBe('14 Mar 2026');
  expect(dayText('2026-03-14', 'de-DE')).toBe('14.03.2026');
});

test('a text that is no day stays as it was written', () => {
  expect(dayText('spring 2026', 'en-US')).toBe('spring 2026');
  expect(dayText('2026-02-31', 'en-US')).toBe('2026-02-31');
  expect(dayAndTimeText('some time', 'en-US')).toBe('some time');
});

test('a moment is shown by the clock on the wall', () => {
  const at = '2026-03-14T22:31:00Z';
  expect(dayAndTimeText(at, 'en-GB', 'Europe/Berlin')).toBe('14 Mar 2026, 23:31');
  expect(dayAndTimeText(at, 'de-DE', 'Pacific/Auckland')).toBe('15.03.2026, 11:31');
});
