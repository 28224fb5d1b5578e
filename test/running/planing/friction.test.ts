import { expect, test } from 'vitest';
import { ittc1957, schoenherr } from '../../../src/running/planing/friction.ts';
import { referenceRows } from '../reference.ts';

const rows = referenceRows('planing/friction_lines.csv').map((row) => {
  const [reynolds, ittc, line, published] = Object.values(row);
  return { reynolds: Number(reynolds), ittc: Number(ittc), line: Number(line), published };
});

// Computed apart from this programme, printed to eight decimals.
test.each(rows)(
  'both lines at a Reynolds number of $reynolds come out to eight decimals',
  (row) => {
    expect(ittc1957(row.reynolds)).toBeCloseTo(row.ittc, 8);
    expect(schoenherr(row.reynolds)).toBeCloseTo(row.line, 8);
  },
);

// Savitsky (1964), Marine Technology 1(1), 71: row 7 of table 1, and table 2.
const printed = rows.filter(({ published }) => published !== '');
test.each(printed)(
  'Savitsky’s $published comes out to its last digit, or one off where he cut',
  (row) => {
    const told = Number(row.published.split(' ')[0]);
    expect(Math.abs(schoenherr(row.reynolds) - told)).toBeLessThan(1e-5);
  },
);

test('Schoenherr’s line satisfies its own equation to twelve digits over its whole range', () => {
  for (let log = 5; log <= 10; log += 0.25) {
    const found = schoenherr(10 ** log);
    expect(0.242 / Math.sqrt(found) / (log + Math.log10(found))).toBeCloseTo(1, 12);
  }
});

test.each([0, 9e4, 2e10, Number.NaN])('a Reynolds number of %f is refused', (reynolds) => {
  expect(() => schoenherr(reynolds)).toThrow(RangeError);
  expect(() => ittc1957(reynolds)).toThrow(RangeError);
});
