import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { usableReadings } from '../../../src/survey/usable.ts';
import type { Edge, EdgeCheck, Line, Placement, Survey } from '../../../src/survey/survey.ts';
import { seededNormals } from '../../fit/support.ts';
import {
  bump,
  judgementOf,
  lineOf,
  placementOf,
  stationsTo,
  surveyOf,
  verdicts,
} from '../madeSurveys.ts';

const L = 1800;
const stations = stationsTo(1500, 100);
type Curve = (u: number) => number;
const bow =
  (size: number): Curve =>
  (u) =>
    (4 * size * u * (L - u)) / L ** 2;
/** Proud near end A, hollow near end B: which end was aft matters. */
const lopsided: Curve = (u) => 2 * Math.sin((2 * Math.PI * u) / L);

function checkOf(e: Curve, more: Partial<Extract<EdgeCheck, { method: 'reversal' }>> = {}) {
  const points = stationsTo(L, 150).map((at) => ({ at, apart: 2 * e(at) }));
  return {
    method: 'reversal',
    readTo: 0.05,
    date: '2026-03-01',
    points,
    ...more,
  } satisfies EdgeCheck;
}

const edgeOf = (e: Curve, more: Partial<Edge> = {}): Edge => ({
  name: 'long bar',
  length: L,
  checks: [checkOf(e)],
  ...more,
});

/** A line read with that edge: gap = −z − e, with whatever offset and tilt a lie has. */
function laid(z: Curve, e: Curve, more: Partial<Placement> = {}, aftEnd = -100): Placement {
  const along = (x: number) => (more.aftMark === 'B' ? L - (x - aftEnd) : x - aftEnd);
  return placementOf(stations, (x) => 1 + x / 900 - z(x) - e(along(x)), {
    edge: 'long bar',
    edgeLength: L,
    aftEnd,
    aftMark: 'A',
    face: 'marked',
    ...more,
  });
}

function without(placement: Placement, ...facts: readonly (keyof Placement)[]): Placement {
  const kept = Object.entries(placement).filter(([key]) => !facts.some((fact) => fact === key));
  return Object.fromEntries(kept) as unknown as Placement;
}

const surveyWith = (placement: Placement, edges?: readonly Edge[]): Survey =>
  surveyOf([lineOf([placement])], { date: '2026-04-01', ...(edges && { edges }) });

const straight: Curve = () => 0;
const flat = stationsTo(1500, 100);

describe('a survey read with a bowed edge', () => {
  it('shows a hook that is not there; corrected by the check it has the straight edge’s verdict', () => {
    const bowed = laid(straight, bow(-3));
    expect(verdicts(assess(surveyWith(bowed)))).toEqual({ P450: 'hook' });
    expect(verdicts(assess(surveyWith(bowed, [edgeOf(bow(-3))])))).toEqual({ P450: 'fair' });
    const hooked: Curve = (x) => -bump(3, 200, 1000)(x);
    const [true_, corrected] = [
      surveyWith(laid(hooked, straight), [edgeOf(straight)]),
      surveyWith(laid(hooked, bow(2)), [edgeOf(bow(2))]),
    ].map((survey) => assess(survey));
    expect(verdicts(corrected)).toEqual(verdicts(true_));
    expect(judgementOf(corrected).hollow.size).toBeCloseTo(judgementOf(true_).hollow.size, 1);
  });

  it.each(['A', 'B'] as const)('is corrected the right way round with end %s aft', (aftMark) => {
    const survey = surveyWith(laid(straight, lopsided, { aftMark }), [edgeOf(lopsided)]);
    expect(verdicts(assess(survey))).toEqual({ P450: 'fair' });
    const [edge] = assess(survey).edges;
    expect(edge).toMatchObject({ state: 'checked', date: '2026-03-01', corrected: 1 });
  });

  it('would be made worse by the other end: an S taken the wrong way round counts twice', () => {
    const read = laid(straight, lopsided, { aftMark: 'A' });
    const wrong = surveyWith({ ...read, aftMark: 'B' }, [edgeOf(lopsided)]);
    expect(verdicts(assess(wrong))).not.toEqual({ P450: 'fair' });
  });

  it('shows readings with the edge’s error taken off', () => {
    const found = assess(surveyWith(laid(straight, bow(-3)), [edgeOf(bow(-3))]));
    const z = found.lines[0].points.map((p) => Number(p.z));
    expect(Math.max(...z) - Math.min(...z)).toBeLessThan(0.2);
  });
});

describe('where a fact is missing nothing is guessed', () => {
  const bowed = laid(straight, bow(-1));
  it.each([
    [without(bowed, 'aftEnd'), /where its aft end lay is not recorded/],
    [without(bowed, 'aftMark'), /which of its ends was aft is not recorded/],
    [without(bowed, 'face'), /which face was towards the hull is not recorded/],
    [{ ...bowed, face: 'other' as const }, /the unmarked face was towards the hull, and the check/],
    [{ ...bowed, aftEnd: 100 }, /station 0 lies beyond the stretch that was checked/],
  ])(
    'the readings stay as they are, the bow counts as uncertainty, and why is said (%#)',
    (p, why) => {
      const found = assess(surveyWith(p, [edgeOf(bow(-1))]));
      const [edge] = found.edges;
      expect(edge.corrected).toBe(0);
      expect(edge.uncorrected).toMatchObject([{ line: 'P450', placement: '1' }]);
      expect(edge.uncorrected[0].why).toMatch(why);
      expect(edge.bound?.size).toBeGreaterThan(1);
      const told = found.remarks.filter((r) => r.kind === 'edge not corrected');
      expect(told).toHaveLength(1);
      expect(told[0].words).toMatch(why);
      const plain = assess(surveyWith(p));
      expect(judgementOf(found).hollow.size).toBeCloseTo(judgementOf(plain).hollow.size, 0);
      expect(judgementOf(found).hollow.u).toBeGreaterThan(2 * judgementOf(plain).hollow.u);
    },
  );

  it('why is said in the unit that the person works in', () => {
    const survey = surveyWith({ ...bowed, aftEnd: 100 }, [edgeOf(bow(-1))]);
    const why = (workUnit: 'mm' | 'in') =>
      assess({ ...survey, workUnit }).edges[0].uncorrected[0].why;
    expect(why('mm')).toMatch(/\(0 to \d+ mm from end A\)$/);
    expect(why('in')).toMatch(/\(0 to [\d ]+(?:1\/2 )?in from end A\)$/);
  });

  it('end B aft needs the length of the edge', () => {
    const unmeasured = without(laid(straight, bow(-1), { aftMark: 'B' }), 'edgeLength');
    const edge: Edge = { name: 'long bar', checks: [checkOf(bow(-1))] };
    expect(assess(surveyWith(unmeasured, [edge])).edges[0].uncorrected[0].why).toMatch(
      /end B was aft, and how long it is is not stated/,
    );
  });

  it('a string has no faces', () => {
    const stringed = without(laid(straight, bow(-1)), 'face');
    const edge = edgeOf(bow(-1), { kind: 'taut string' });
    expect(assess(surveyWith(stringed, [edge])).edges[0].corrected).toBe(1);
  });
});

describe('what an edge is known by', () => {
  it('nothing: the verdict takes it as straight, and says so', () => {
    const found = assess(surveyWith(laid(straight, straight)));
    expect(found.edges).toMatchObject([{ name: 'long bar', length: L, state: 'not stated' }]);
    expect(found.remarks.map((r) => r.kind)).toContain('edge not checked');
    expect(found.lines[0].outcome).toMatchObject({ systematic: [] });
  });

  it('a bound: it widens what is found by its size under the chord used, over √3', () => {
    const survey = surveyWith(
      laid((x) => bow(-4)(x), straight),
      [{ name: 'long bar', bound: { size: 1, over: L } }],
    );
    const plain = judgementOf(assess(surveyWith(laid((x) => bow(-4)(x), straight))));
    const found = assess(survey);
    expect(found.edges).toMatchObject([{ state: 'stated', bound: { size: 1, over: L } }]);
    const { hollow } = judgementOf(found);
    const chord = hollow.to - hollow.from;
    const worth = (1 * (chord / L) ** 2) / Math.sqrt(3);
    expect(Math.hypot(plain.hollow.u, worth)).toBeCloseTo(hollow.u, 1);
    expect(hollow.u).toBeGreaterThan(3 * plain.hollow.u);
  });

  it('a bound is asked for: it goes before the stated one and not before a check', () => {
    const p = laid(straight, straight);
    const asked = { edgeBound: 0.5, edgeLength: 1000 };
    const stated = surveyWith(p, [{ name: 'long bar', bound: { size: 1, over: L } }]);
    expect(assess(stated, asked).edges[0].bound).toEqual({ size: 0.5, over: 1000 });
    expect(assess(stated, { edgeBound: 0.5 }).edges[0].bound).toEqual({ size: 0.5, over: L });
    expect(assess(surveyWith(p, [edgeOf(straight)]), asked).edges[0].state).toBe('checked');
    const unmeasured = without(p, 'edgeLength');
    expect(() => assess(surveyWith(unmeasured), { edgeBound: 0.5 })).toThrow(RangeError);
  });

  it('a check that says nothing: the reason is told, and the bound stands in', () => {
    const check = checkOf(straight, { points: [{ at: 0, apart: 0 }] });
    const edge = edgeOf(straight, { checks: [check], bound: { size: 0.3, over: L } });
    const found = assess(surveyWith(laid(straight, straight), [edge]));
    expect(found.edges[0].state).toBe('stated');
    const told = found.remarks.filter((r) => r.kind === 'edge check not usable');
    expect(told.map((r) => r.words)).toEqual([
      expect.stringMatching(/The check has 1 point\. At least 5 points/),
    ]);
    expect(found.remarks.map((r) => r.kind)).not.toContain('edge not checked');
  });

  it('the check made last before the survey, or else the first after it', () => {
    const at = (date: string, size: number) => checkOf(bow(size), { date });
    const edge = (...checks: EdgeCheck[]) => edgeOf(straight, { checks });
    const day = (e: Edge) => assess(surveyWith(laid(straight, straight), [e])).edges[0].date;
    const [old, last, later] = [at('2025-01-01', 1), at('2026-03-31', 0), at('2026-05-01', 2)];
    expect(day(edge(later, last, old))).toBe('2026-03-31');
    expect(day(edge(later))).toBe('2026-05-01');
  });
});

describe('different edges on one line', () => {
  const bound = { size: 1, over: L };
  const edges: Edge[] = ['long bar', 'other bar'].map((name) => ({ name, bound }));
  const z: Curve = (x) => bow(-4)(x);
  const two = (second: string): Survey =>
    surveyOf(
      [lineOf([laid(z, straight), laid(z, straight, { id: 'P450/1/2', repeat: 2, edge: second })])],
      { edges },
    );

  it('are out each by itself, so that two tell more than one laid twice', () => {
    const same = assess(two('long bar'));
    const apart = assess(two('other bar'));
    expect(same.lines[0].outcome).toMatchObject({
      systematic: [{ name: 'a bow of the straightedge' }],
    });
    expect(apart.lines[0].outcome.ok && apart.lines[0].outcome.systematic).toHaveLength(2);
    // A bow that two share stays whole; of two that are each out by u, the mean is out by u/√2.
    const [whole, shared] = [judgementOf(same).hollow.u, judgementOf(apart).hollow.u];
    expect(shared / whole).toBeGreaterThan(0.65);
    expect(shared / whole).toBeLessThan(0.8);
  });
});

describe('the bound in a decision', () => {
  /** A hump exactly as high as the tolerance, read with an edge whose bow lies anywhere within the bound. */
  it('a proven call at exactly the tolerance is wrong in at most 5 of 100', () => {
    const T = 1.5;
    const size = 0.6;
    const runs = 500;
    const uniform = seededUniform(20263);
    let wrong = 0;
    for (let run = 0; run < runs; run++) {
      const noise = seededNormals(7 * run + 1);
      const out = size * (2 * uniform() - 1);
      const sign = run % 2 === 0 ? 1 : -1;
      const z: Curve = (x) => (sign * 4 * T * x * (1500 - x)) / 1500 ** 2;
      const placement = placementOf(stations, (x) => -z(x) - bow(out)(x) + 0.15 * noise(), {
        edge: 'long bar',
        edgeLength: L,
        division: 0.01,
      });
      const found = assess(
        surveyWith(placement, [{ name: 'long bar', bound: { size, over: L } }]),
        {
          repeatability: 0.15,
        },
      );
      // At exactly T it is fair: hook and rocker are wrong.
      if (['hook', 'rocker'].includes(verdicts(found)['P450'])) wrong++;
    }
    expect(wrong / runs).toBeLessThanOrEqual(0.05);
  }, 60_000);

  it('would be wrong far more often without it', () => {
    const uniform = seededUniform(20263);
    let wrong = 0;
    for (let run = 0; run < 60; run++) {
      const noise = seededNormals(run + 1);
      const out = 0.6 * (2 * uniform() - 1);
      const z: Curve = (x) => (4 * 1.5 * x * (1500 - x)) / 1500 ** 2;
      const placement = placementOf(stations, (x) => -z(x) - bow(out)(x) + 0.15 * noise(), {
        division: 0.01,
      });
      const found = assess(surveyWith(placement), { repeatability: 0.15 });
      if (verdicts(found)['P450'] === 'rocker') wrong++;
    }
    expect(wrong / 60).toBeGreaterThan(0.12);
  });

  it('mirrors exactly: hook and rocker change places to the last bit', () => {
    const edges: Edge[] = [{ name: 'long bar', bound: { size: 0.4, over: L } }];
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (seed, depth) => {
          const noise = seededNormals(seed);
          const gaps = flat.map((x) => bump(depth, 200, 1200)(x) + 0.1 * noise());
          const at = (sign: 1 | -1) =>
            judgementOf(
              assess(
                surveyWith(
                  placementOf(stations, (x) => sign * gaps[x / 100], { edge: 'long bar' }),
                  edges,
                ),
              ),
            );
          const [one, other] = [at(1), at(-1)];
          expect(other.hump).toEqual(one.hollow);
          expect(other.hollow).toEqual(one.hump);
        },
      ),
      { seed: 20264, numRuns: 10 },
    );
  });
});

describe('an edge that sags', () => {
  const bar: Edge = {
    name: 'long bar',
    length: 3000,
    sag: { from: 'section', width: 25, depth: 50, material: 'aluminium' },
  };
  const sagging: Curve = (u) => -sagOf(u);
  /** 5wL⁴/(384EI) in the middle, 3 m held at its ends: the closed form for a beam under its own weight. */
  function sagOf(u: number): number {
    const load = (25 * 50 * 2700 * 9.80665e-9) / (69000 * ((25 * 50 ** 3) / 12));
    return (load * u * (3000 ** 3 - 2 * 3000 * u ** 2 + u ** 3)) / 24;
  }
  const on = (more: Partial<Placement> = {}) =>
    placementOf(stationsTo(3000, 150), (x) => 20 - sagging(x), {
      edge: 'long bar',
      edgeLength: 3000,
      aftEnd: 0,
      held: 'blocks',
      block: 20,
      blocksAt: [0, 3000],
      ...more,
    });

  it('hangs away from the hull on its blocks: what it shows is a hook that is not there', () => {
    expect(sagOf(1500)).toBeGreaterThan(1.5);
    const options = { limit: 3000, over: 3000, tolerance: 1 };
    expect(verdicts(assess(surveyWith(on()), options))).toEqual({ P450: 'hook' });
    const found = assess(surveyWith(on(), [bar]), options);
    expect(verdicts(found)).toEqual({ P450: 'fair' });
    expect(found.edges[0].words.join(' ')).toMatch(/hangs 1\.94 mm midway.*that is taken off/);
  });

  it('is not taken off where hands pushed it up, and that is said', () => {
    const rest = without(on(), 'block', 'blocksAt');
    const found = assess(surveyWith({ ...rest, held: 'resting' }, [bar]));
    const told = found.remarks.filter((r) => r.kind === 'sag not taken off');
    expect(told.map((r) => r.words)).toEqual([
      expect.stringMatching(/pushed up by hand.*1\.94 mm/),
    ]);
  });

  it('is not taken off where nobody recorded what it stood on', () => {
    const rest = without(on(), 'blocksAt');
    const told = assess(surveyWith(rest, [bar])).remarks.map((r) => r.words);
    expect(told.join(' ')).toMatch(/where its blocks stood is not recorded/);
  });

  it('a taut string hangs between its ends', () => {
    const string: Edge = {
      name: 'long bar',
      kind: 'taut string',
      length: 3000,
      sag: { from: 'tension', weight: 0.005, tension: 50 },
    };
    const found = assess(surveyWith(on(), [string]));
    // w·L²/(8H) = 0.005 · 9.80665 · 9 / 400 m.
    expect(found.edges[0].words.join(' ')).toMatch(/hangs 1\.1 mm midway/);
  });
});

describe('unequal blocks', () => {
  const heights = { held: 'blocks', block: 20, blockFore: 26, blocksAt: [0, 1500] } as const;
  /** The edge stands 20 mm off aft and 26 mm off fore of a straight bottom. */
  const laidOn = (more: Partial<Placement> = {}): Line =>
    lineOf([placementOf(stations, (x) => 20 + (6 * x) / 1500, { ...heights, ...more })]);

  it('tilt the edge, and the tilt comes off: what is left of the gaps is nothing', () => {
    const [placement] = laidOn().placements;
    const left = usableReadings(placement, 'mm').map((r) => r.gap);
    for (const gap of left) expect(gap).toBeCloseTo(0, 9);
    const turned = { ...placement, block: 26, blockFore: 20 };
    const wrong = usableReadings(turned, 'mm').map((r) => r.gap);
    expect(wrong[0]).toBeCloseTo(-6, 9);
    expect(wrong.at(-1)).toBeCloseTo(6, 9);
  });

  it('do not matter to the verdict, whichever is the higher', () => {
    const found = [{}, { block: 26, blockFore: 20 }].map((more) =>
      judgementOf(assess(surveyOf([laidOn(more)]))),
    );
    expect(found[0].verdict).toEqual(['fair']);
    expect(found[1].hollow.size).toBeCloseTo(found[0].hollow.size, 6);
  });

  it('are each compared with the readings at it: a height at the wrong end is pointed out', () => {
    const right = assess(surveyOf([laidOn()])).remarks.map((r) => r.kind);
    expect(right).not.toContain('slipped block');
    const wrong = assess(surveyOf([laidOn({ block: 26, blockFore: 20 })])).remarks;
    expect(wrong.filter((r) => r.kind === 'slipped block')).toHaveLength(2);
  });
});

function seededUniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
