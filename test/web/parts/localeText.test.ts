import { expect, test } from 'vitest';

import {
  dayAndTimeText,
  dayText,
  figuresText,
  localText,
  pointed,
} from '../../../web/parts/localeText.ts';

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

test('a figure takes the decimal mark of the language; names, versions and fractions stay', () => {
  expect(figuresText('Hollow 2.13 mm ± 0.2 mm deep.', 'de-DE')).toBe(
    'Hollow 2,13 mm ± 0,2 mm deep.',
  );
  expect(figuresText('−0.5° to 1.5°, ×30, 5/32 in', 'fr-FR')).toBe('−0,5° to 1,5°, ×30, 5/32 in');
  expect(figuresText('version 7.1.0, Knot v2.0, 1.500,5', 'de-DE')).toBe(
    'version 7.1.0, Knot v2.0, 1.500,5',
  );
  expect(figuresText('2.13 mm', 'en-US')).toBe('2.13 mm');
  expect(figuresText('2.13mm', 'de-AT')).toBe('2,13mm');
});

test('a sentence takes both, and a key that looks like neither stays', () => {
  expect(localText('Checked on 2026-03-14: bows 0.4 mm.', 'de-DE')).toBe(
    'Checked on 14.03.2026: bows 0,4 mm.',
  );
  expect(localText('since 2026-05-04T08:10:00.5Z, engine hung', 'de-DE', 'Europe/Berlin')).toBe(
    'since 04.05.2026, 10:10, engine hung',
  );
  expect(localText('entries 2026-03-14-b', 'de-DE')).toBe('entries 2026-03-14-b');
});

test('a typed figure is kept with a point where its language writes a comma, else as it is typed', () => {
  expect(pointed('0,8', 'de-DE')).toBe('0.8');
  expect(pointed(',5 mm', 'fr-FR')).toBe('.5 mm');
  expect(pointed('18,5 to 21,5, likeliest 20,5', 'de-DE')).toBe('18.5 to 21.5, likeliest 20.5');
  expect(pointed('1,234', 'en-US')).toBe('1,234');
  expect(pointed('5/32', 'de-DE')).toBe('5/32');
});
