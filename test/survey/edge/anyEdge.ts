import * as fc from 'fast-check';
import type { Edge, EdgeCheck, Survey } from '../../../src/survey/survey.ts';

/** What can be known of an edge, figures that a check can hold. Lengths within 600 mm of end A. */

const size = fc.integer({ min: 1, max: 400 }).map((n) => n / 100);
const facts = {
  date: fc.option(fc.constantFrom('2026-03-01', 'last spring'), { nil: undefined }),
  face: fc.option(fc.constantFrom('marked' as const, 'other' as const), { nil: undefined }),
  readTo: fc.constantFrom(0.1, 0.5, 25.4 / 32),
};
const places = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 5, maxLength: 9 });
const gap = fc.integer({ min: 0, max: 40 }).map((n) => n / 10);

const check: fc.Arbitrary<EdgeCheck> = fc.oneof(
  fc
    .record({ ...facts, places, aparts: fc.array(size, { minLength: 9, maxLength: 9 }) })
    .map(({ places: at, aparts, ...rest }): EdgeCheck => {
      const points = at.map((u, i) => ({
        at: u * 10,
        apart: i % 2 === 0 ? aparts[i] : -aparts[i],
      }));
      return { method: 'reversal', ...stated(rest), points };
    }),
  fc
    .record({ ...facts, places, gaps: fc.array(gap, { minLength: 27, maxLength: 27 }) })
    .map(({ places: at, gaps, ...rest }): EdgeCheck => {
      const points = at.map((u, i) => ({
        at: u * 10,
        withSecond: gaps[3 * i],
        secondWithThird: gaps[3 * i + 1],
        withThird: gaps[3 * i + 2],
      }));
      return { method: 'three edges', ...stated(rest), points };
    }),
);

const sag: fc.Arbitrary<NonNullable<Edge['sag']>> = fc.oneof(
  fc.record({
    from: fc.constant('section' as const),
    width: size,
    depth: size,
    material: fc.constantFrom('aluminium' as const, 'steel' as const),
  }),
  fc.constant({
    from: 'section' as const,
    width: 25.4,
    depth: 76.2,
    wall: 3.175,
    material: 'steel' as const,
  }),
  fc.record({ from: fc.constant('stiffness' as const), weight: size, stiffness: size }),
  fc.record({ from: fc.constant('measured' as const), sag: size, between: size }),
  fc.record({ from: fc.constant('tension' as const), weight: size, tension: size }),
);

const known = fc
  .record(
    {
      kind: fc.constantFrom('taut string' as const, 'laser line' as const),
      bound: fc.record({ size, over: fc.constantFrom(1828.8, 2000) }),
      checks: fc.uniqueArray(check, { minLength: 1, maxLength: 2, selector: (c) => c.points[0] }),
      sag,
    },
    { requiredKeys: ['bound'] },
  )
  .map((found) => ({ ...found }));

/** The same survey with something known of every edge that it names, each of one length. */
export function withEdges(survey: Survey): fc.Arbitrary<Survey> {
  const names = [
    ...new Set(survey.lines.flatMap((l) => l.placements.flatMap((p) => p.edge ?? []))),
  ].sort();
  if (names.length === 0) return fc.constant(survey);
  const lines = survey.lines.map((line) => ({
    ...line,
    placements: line.placements.map((p) =>
      p.edge === undefined ? p : { ...p, edgeLength: 1500 + 25 * names.indexOf(p.edge) },
    ),
  }));
  return fc.tuple(...names.map(() => known)).map((each): Survey => ({
    ...survey,
    lines,
    edges: each.map((facts_, i) => ({ name: names[i], ...facts_ })),
  }));
}

function stated<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, field]) => field !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}
