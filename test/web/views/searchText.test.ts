import { describe, expect, test } from 'vitest';

import { foldText, searchFor } from '../../../web/views/searchText.ts';

const finds = (typed: string, text: string, squeezed = ''): boolean =>
  searchFor(typed)({ folded: foldText(text), squeezed });

describe('a search', () => {
  test('asks for neither case nor accents, on either side', () => {
    expect(finds('MOWE', 'Möwe (invented)')).toBe(true);
    expect(finds('möwe', 'MOWE')).toBe(true);
    expect(finds('senorita', 'Señorita')).toBe(true);
    // One letter and its mark, or the two of them in one: both are the same text (Unicode NFKD).
    expect(finds('e\u0301be', '\u00e9be')).toBe(true);
    expect(finds('strasse', 'Straße')).toBe(true);
    expect(finds('sjo', 'Sjø')).toBe(true);
  });

  test('finds words in any order, whole or in part, and all of them', () => {
    expect(finds('heron mar', 'Marsh Heron (invented)')).toBe(true);
    expect(finds('heron ebb', 'Marsh Heron (invented)')).toBe(false);
  });

  test('minds no dashes, apostrophes and spaces', () => {
    expect(finds("o'hara", 'O’Hara')).toBe(true);
    expect(finds('sea-reed', 'Sea Reed')).toBe(true);
    expect(finds('inv 0007', 'Reed', 'inv0007a5')).toBe(true);
    expect(finds('INV-0007-A', 'Reed', 'inv0007a5')).toBe(true);
    expect(finds('INV-0008', 'Reed', 'inv0007a5')).toBe(false);
  });

  test('for nothing finds everything', () => {
    for (const typed of ['', '  ', ' - ']) expect(finds(typed, 'Marsh Heron')).toBe(true);
  });
});
