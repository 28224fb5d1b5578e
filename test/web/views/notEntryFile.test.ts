import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { notEntryFile } from '../../../web/views/notEntryFile.ts';

const fixture = (name: string): string =>
  readFileSync(new URL(`../../../fixtures/${name}`, import.meta.url), 'utf8');
const decoded = (...bytes: readonly number[]): string =>
  new TextDecoder().decode(Uint8Array.from(bytes));
const said = (text: string): string | undefined => {
  const { book, faults } = readEntryFile(text);
  return notEntryFile(faults, book.entries.size);
};

describe('what is given as an entry file', () => {
  it.each([
    ['', /^There is nothing in this file\./],
    ['\n\n', /^There is nothing in this file\./],
    [fixture('samples/inches-wide.csv'), /table of readings: .*this one with “#/],
    ['station_in,P6in\n0,1\n', /not an entry file\..*“station_in,P6in”/],
    ['side;offset_mm;station_mm;gap_mm\n', /table of readings/],
    [decoded(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 1), /^This is a picture/],
    [decoded(0xff, 0xd8, 0xff, 0xe0, 0, 0x10, 0x4a, 0x46), /^This is a picture/],
    [decoded(0x50, 0x4b, 3, 4, 0x14, 0, 0xc8, 0xc8), /^This is a packed file \(zip\)/],
    ['Some words about a boat.\n', /^This is not an entry file\..*“Some words about a boat\.”/],
    [
      'aftrun entry file 9\nnew line\n',
      /of a version that this app does not read.*“aftrun entry file 9”/,
    ],
  ])('%# is told for what it is, what was expected, and that nothing was kept', (text, words) => {
    expect(said(text)).toMatch(words);
    expect(said(text)).toMatch(
      /An entry file begins with “aftrun entry file 1”.* Nothing was kept\.$/,
    );
  });

  it('is told line by line where it is one, whole, cut, damaged or without its head', () => {
    const whole = fixture('book/version-1.txt');
    const lines = whole.split('\n');
    expect(said(whole)).toBeUndefined();
    expect(said(whole.slice(0, 900))).toBeUndefined();
    expect(said(lines.slice(1).join('\n'))).toBeUndefined();
    expect(said(lines.slice(1, 4).join('\n').replaceAll('"kind"', '"kinds"'))).toBeUndefined();
  });
});
