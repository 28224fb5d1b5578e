import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Accumulator } from '../../src/fit/normalEquations.ts';
import { splineBasis } from '../../src/fit/splineBasis.ts';

const knots = [0, 0.2, 0.45, 0.5, 0.9, 1];

/** A reading's row of the design matrix: spline values, then −1 and −x under its placement's own line. */
function rowOf(x: number, placement: number, placements: number): number[] {
  const basis = splineBasis(knots);
  const row = new Array<number>(basis.size + 2 * (placements - 1)).fill(0);
  const values = new Float64Array(4);
  const first = basis.valuesAt(x, values);
  values.forEach((value, a) => (row[first + a] = value));
  if (placement > 0) {
    row[basis.size + 2 * placement - 2] = -1;
    row[basis.size + 2 * placement - 1] = -x;
  }
  return row;
}

const anyReadings = fc.integer({ min: 1, max: 4 }).chain((placements) =>
  fc.record({
    placements: fc.constant(placements),
    readings: fc.array(
      fc.record({
        x: fc.integer({ min: 0, max: 64 }).map((k) => k / 64),
        y: fc.integer({ min: -9, max: 9 }),
        weight: fc.integer({ min: 1, max: 25 }),
        placement: fc.integer({ min: 0, max: placements - 1 }),
      }),
      { minLength: 1, maxLength: 20 },
    ),
  }),
);

describe('what readings leave behind', () => {
  it('is the weighted normal equations of their design matrix, entry by entry, however many placements', () => {
    fc.assert(
      fc.property(anyReadings, ({ placements, readings }) => {
        const sums = new Accumulator(splineBasis(knots), placements);
        const unknowns = rowOf(0, 0, placements).length;
        const matrix = Array.from({ length: unknowns }, () => new Array<number>(unknowns).fill(0));
        const right = new Array<number>(unknowns).fill(0);
        let squares = 0;
        for (const { x, y, weight, placement } of readings) {
          sums.add(x, y, weight, placement);
          const row = rowOf(x, placement, placements);
          row.forEach((p, i) => {
            right[i] += weight * p * y;
            row.forEach((q, j) => (matrix[i][j] += weight * p * q));
          });
          squares += weight * y * y;
        }
        const found = sums.sums();
        const { size, extra, band, border, corner } = found.matrix;
        expect([size, extra]).toEqual([knots.length + 2, 2 * (placements - 1)]);
        expect(found.right).toHaveLength(unknowns);
        expect(found.sumSquares).toBeCloseTo(squares, 10);
        expect(found.n).toBe(readings.length);
        right.forEach((value, i) => expect(found.right[i]).toBeCloseTo(value, 10));
        for (let j = 0; j < size; j++) {
          for (let d = 0; d < 4 && j + d < size; d++) {
            expect(band[4 * j + d]).toBeCloseTo(matrix[j][j + d], 10);
          }
          for (let e = 0; e < extra; e++) {
            expect(border[j * extra + e]).toBeCloseTo(matrix[j][size + e], 10);
          }
        }
        for (let e = 0; e < extra; e++) {
          for (let f = 0; f < extra; f++) {
            expect(corner[e * extra + f]).toBeCloseTo(matrix[size + e][size + f], 10);
          }
        }
      }),
      { seed: 131, numRuns: 100 },
    );
  });
});
