import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { repeatScatter } from '../../src/fit/repeatScatter.ts';
import type { PlacementReadings } from '../../src/fit/tied.ts';

function laid(x: readonly number[], gap: readonly number[]): PlacementReadings {
  return { x, gap, u: x.map(() => 1) };
}

/** Dense least squares by Gram and Schmidt, done twice over: what is left of y, and the columns' rank. */
function denseResiduals(columns: readonly number[][], y: readonly number[]) {
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((s, v, i) => s + v * b[i], 0);
  const basis: number[][] = [];
  const cleared = (v: readonly number[]) => {
    let rest = [...v];
    for (let pass = 0; pass < 2; pass++) {
      for (const q of basis) {
        const along = dot(q, rest);
        rest = rest.map((r, i) => r - along * q[i]);
      }
    }
    return rest;
  };
  for (const column of columns) {
    const rest = cleared(column);
    const length = Math.sqrt(dot(rest, rest));
    if (length <= 1e-9 * Math.sqrt(dot(column, column))) continue;
    basis.push(rest.map((v) => v / length));
  }
  const rest = cleared(y);
  return { squares: dot(rest, rest), dof: y.length - basis.length };
}

/** The model itself, dense: a column a station, and an offset and a tilt a placement; the first is the datum. */
function denseScatter(placements: readonly PlacementReadings[], same: number) {
  const rows = placements.flatMap(({ x, gap }, p) => x.map((at, i) => ({ at, y: gap[i], p })));
  const stations = [...new Set(rows.map((r) => Math.round(r.at / same)))];
  const columns = [
    ...stations.map((key) => rows.map((r) => (Math.round(r.at / same) === key ? 1 : 0))),
    ...placements
      .slice(1)
      .flatMap((_, k) => [
        rows.map((r) => (r.p === k + 1 ? 1 : 0)),
        rows.map((r) => (r.p === k + 1 ? r.at / 1000 : 0)),
      ]),
  ];
  return denseResiduals(
    columns,
    rows.map((r) => r.y),
  );
}

interface Norris {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly certified: { readonly residual_sd: number };
}

describe('the scatter of repeats, against references outside it', () => {
  it('of a laying against a flat one is half of a line fit’s residual squares (NIST StRD Norris, 8 digits)', () => {
    // Station heights between the two layings take half of each difference; the differences are then
    // left with a straight line, for which NIST certifies the residual deviation at 34 degrees of freedom.
    const { x, y, certified } = JSON.parse(
      readFileSync(
        new URL('../../fixtures/reference/nist_strd/Norris.json', import.meta.url),
        'utf8',
      ),
    ) as Norris;
    // 0.3 stands there twice; a hair apart, the two remain two stations.
    const apart = x.map((value, i) => (x.indexOf(value) === i ? value : value + 1e-7));
    const flat = laid(
      apart,
      apart.map(() => 0),
    );
    const { squares, dof } = repeatScatter([flat, laid(apart, y)], 1e-8);
    expect(dof).toBe(34);
    expect(Math.sqrt((2 * squares) / dof) / certified.residual_sd).toBeCloseTo(1, 8);
  });

  it('of two looks at a station is half of their difference squared', () => {
    const { squares, dof } = repeatScatter([laid([0, 100, 100], [5, 1, 1.4])], 1);
    expect(dof).toBe(1);
    expect(squares).toBeCloseTo(0.08, 12);
  });

  it('is what dense least squares leaves, with as many degrees of freedom, for any layings', () => {
    const laying = fc
      .uniqueArray(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 13 })
      .chain((at) =>
        fc
          .array(fc.integer({ min: -40, max: 40 }), { minLength: at.length, maxLength: at.length })
          .map((gaps) =>
            laid(
              at.map((i) => i * 25.4 * 3.3),
              gaps.map((g) => g / 10),
            ),
          ),
      );
    fc.assert(
      fc.property(fc.array(laying, { minLength: 1, maxLength: 4 }), (layings) => {
        const found = repeatScatter(layings, 1);
        const dense = denseScatter(layings, 1);
        expect(found.dof).toBe(dense.dof);
        expect(found.squares).toBeCloseTo(dense.squares, 8);
      }),
      { seed: 20261101, numRuns: 300 },
    );
  });

  it('is what dense least squares leaves where looks at one station stand a little apart along the line', () => {
    // A tilt acts at the very place of a look, though its height is that of the station: within 10 mm one station.
    const look = fc.record({
      station: fc.integer({ min: 0, max: 6 }),
      off: fc.integer({ min: -4, max: 4 }),
      gap: fc.integer({ min: -40, max: 40 }),
    });
    const laying = fc.array(look, { minLength: 1, maxLength: 12 }).map((looks) =>
      laid(
        looks.map(({ station, off }) => 100 * station + off),
        looks.map(({ gap }) => gap / 10),
      ),
    );
    fc.assert(
      fc.property(fc.array(laying, { minLength: 1, maxLength: 3 }), (layings) => {
        const found = repeatScatter(layings, 10);
        const dense = denseScatter(layings, 10);
        expect(found.dof).toBe(dense.dof);
        expect(found.squares).toBeCloseTo(dense.squares, 7);
      }),
      { seed: 20261128, numRuns: 200 },
    );
  });

  it('owes nothing to how each laying stood: offset and tilt take nothing from it', () => {
    const x = [0, 100, 200, 300, 400, 500];
    const first = laid(x, [0, 0.2, 0.4, 0.3, 0.1, 0]);
    const second = [0.1, 0.2, 0.3, 0.5, 0.1, 0.1];
    const level = repeatScatter([first, laid(x, second)], 1);
    const tilted = repeatScatter(
      [
        first,
        laid(
          x,
          second.map((g, i) => g + 7 - 0.03 * x[i]),
        ),
      ],
      1,
    );
    expect(tilted.dof).toBe(level.dof);
    expect(tilted.squares).toBeCloseTo(level.squares, 10);
    expect(level.squares).toBeGreaterThan(0.01);
  });

  it('is nothing, with no degree of freedom, where nothing was repeated', () => {
    expect(repeatScatter([laid([0, 100, 200], [0, 1, 5])], 1)).toEqual({ squares: 0, dof: 0 });
    const apart = repeatScatter([laid([0, 100], [0, 1]), laid([200, 300], [4, 2])], 1);
    expect(apart).toEqual({ squares: 0, dof: 0 });
  });

  it('is nothing where two layings share but two stations: offset and tilt explain both', () => {
    const { squares, dof } = repeatScatter([laid([0, 100], [0, 1]), laid([0, 100], [9, 2])], 1);
    expect(dof).toBe(0);
    expect(squares).toBeCloseTo(0, 12);
  });

  it('is found of 200,000 readings', () => {
    const x = Array.from({ length: 200_000 }, (_, i) => Math.floor(i / 2));
    const { squares, dof } = repeatScatter(
      [
        laid(
          x,
          x.map((_, i) => (i % 2) * 0.2),
        ),
      ],
      1,
    );
    expect(dof).toBe(100_000);
    expect(squares / dof).toBeCloseTo(0.02, 10);
  });
});
