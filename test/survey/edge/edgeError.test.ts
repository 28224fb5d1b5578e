import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import reference from '../../../fixtures/reference/straightness_terms.json' with { type: 'json' };
import { checkPoints, POINTS_NEEDED } from '../../../src/survey/edge/checkPoints.ts';
import { edgeError } from '../../../src/survey/edge/edgeError.ts';
import { endForEnd } from '../../../src/survey/edge/endForEnd.ts';
import type { EdgeCheck } from '../../../src/survey/survey.ts';
import { seededNormals } from '../../fit/support.ts';

const L = 1800;
const along = Array.from({ length: 10 }, (_, i) => (L * i) / 9);
const bow = (size: number) => (u: number) => (4 * size * u * (L - u)) / L ** 2;
const ess = (size: number) => (u: number) => size * Math.sin((2 * Math.PI * u) / L);

type Curve = (u: number) => number;

/** What a scriber draws: the second line with the edge turned over about the first. */
function reversal(e: Curve, more: Partial<Extract<EdgeCheck, { method: 'reversal' }>> = {}) {
  const first = (u: number) => e(u);
  const second = (u: number) => -e(u);
  return {
    method: 'reversal',
    readTo: 0.1,
    points: along.map((at) => ({ at, apart: first(at) - second(at) })),
    ...more,
  } satisfies EdgeCheck;
}

/** Face to face, an edge touches the other where the two errors add up to most. */
function threeEdges(a: Curve, b: Curve, c: Curve, readTo = 0.1) {
  const gap = (one: Curve, other: Curve) => {
    const sums = along.map((u) => one(u) + other(u));
    const touch = Math.max(...sums);
    return (u: number) => touch - one(u) - other(u);
  };
  return {
    method: 'three edges',
    readTo,
    points: along.map((at) => ({
      at,
      withSecond: gap(a, b)(at),
      secondWithThird: gap(b, c)(at),
      withThird: gap(c, a)(at),
    })),
  } satisfies EdgeCheck;
}

function found(check: EdgeCheck) {
  const error = edgeError(check, L);
  if (!error.ok) throw new Error(error.words);
  return error;
}

// The sources: Evans, Hocken and Estler (1996), CIRP Annals 45(2), 617, and Whitworth's three plates, derived for
// gaps; the formulas stand in fixtures/reference/straightness_terms.json.
describe('a reversal about a scribed line', () => {
  it('gives the edge as half of what the lines stand apart: M = (I1 − I2)/2', () => {
    expect(reference.reversal.formulas.straightedge).toBe('M = (I1 - I2)/2');
    const read = checkPoints(reversal(bow(0.4)), L);
    if (!read.ok) throw new Error(read.words);
    for (const { u, e } of read.points) expect(e).toBeCloseTo(bow(0.4)(u), 12);
  });

  it('finds a bow towards the hull as positive, and its uncertainty from the division', () => {
    const { bow: size } = found(reversal(bow(0.4)));
    expect(size.size).toBeCloseTo(0.4, 1);
    expect(size.at).toBeCloseTo(L / 2, -2);
    // A single figure: 0.1/√12 and 0.05 for repeating it, halved; a fit through ten does no worse than that twice.
    expect(size.u).toBeGreaterThan(0.01);
    expect(size.u).toBeLessThan(2 * 0.029);
    expect(found(reversal(bow(-0.4))).bow.size).toBeCloseTo(-0.4, 1);
  });

  it('tells an S as well, which end for end would show too', () => {
    const { at } = found(reversal(ess(0.5)));
    expect(at(L / 4)).toBeCloseTo(0.5, 1);
    expect(at((3 * L) / 4)).toBeCloseTo(-0.5, 1);
  });

  it('has a truth within its modes: each is out by no more than they say, 95 times in 100', () => {
    let within = 0;
    const runs = 60;
    for (let seed = 1; seed <= runs; seed++) {
      const noise = seededNormals(seed);
      const check = reversal(bow(0.6));
      const figure = Math.hypot(0.1 / Math.sqrt(12), 0.05);
      const points = check.points.map(({ at, apart }) => ({ at, apart: apart + figure * noise() }));
      const error = found({ ...check, points });
      const spread = (u: number) =>
        Math.hypot(...error.modes.map((m) => m(u) - m(0) - ((m(L) - m(0)) * u) / L));
      const u = L / 2;
      if (Math.abs(error.at(u) - bow(0.6)(u)) <= 1.96 * spread(u)) within++;
    }
    expect(within / runs).toBeGreaterThan(0.88);
  });
});

describe('three edges in pairs', () => {
  it('gives each up to a straight line: eA = −(gAB + gCA − gBC)/2', () => {
    expect(reference.reversal.limits_for_a_gap_check.three_edge_method).toContain(
      'eA = -(gAB + gCA - gBC)/2',
    );
    const [a, b, c] = [bow(0.5), ess(0.3), bow(-0.2)];
    for (const [one, two, three] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ]) {
      const error = found(threeEdges(one, two, three, 0.02));
      for (const u of [0, 300, 900, 1500, L]) {
        expect(error.at(u) - (one(u) - one(0))).toBeCloseTo(0, 1);
      }
    }
  });

  it('is not upset by how the two of a pair lie: a gap is known up to a straight line', () => {
    const check = threeEdges(bow(0.5), bow(0.1), bow(0.2));
    const tilted: EdgeCheck = {
      ...check,
      points: check.points.map((p) => ({ ...p, withSecond: p.withSecond + 1 + p.at / 1000 })),
    };
    expect(found(tilted).bow.size).toBeCloseTo(found(check).bow.size, 2);
  });
});

describe('turning an edge end for end', () => {
  it('shows the odd part alone, and leaves a bow untouched in the average', () => {
    expect(reference.reversal.limits_for_a_gap_check.end_for_end).toContain('even');
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 0, max: L, noNaN: true }),
        (b, s, u) => {
          const e = (at: number) => bow(b)(at) + ess(s)(at);
          const { shown, left } = endForEnd(e, L);
          expect(shown(u)).toBeCloseTo(ess(s)(u), 9);
          expect(left(u)).toBeCloseTo(bow(b)(u), 9);
        },
      ),
      { seed: 20262, numRuns: 100 },
    );
  });
});

describe('a check that cannot be used', () => {
  it('has too few points, and says how many are needed and why', () => {
    const check = reversal(bow(0.4));
    const few = edgeError({ ...check, points: check.points.slice(0, POINTS_NEEDED - 1) }, L);
    expect(few).toMatchObject({ ok: false, reason: 'too few points', n: 4, needed: 5 });
    expect(!few.ok && few.words).toMatch(
      /^The check has 4 points\. At least 5 points .* straight line/,
    );
    expect(edgeError({ ...check, points: check.points.slice(0, POINTS_NEEDED) }, L).ok).toBe(true);
  });

  it('does not take one place read five times for five points', () => {
    const points = Array.from({ length: 5 }, () => ({ at: 900, apart: 0.2 }));
    expect(edgeError(reversal(bow(0.4), { points }), L)).toMatchObject({
      reason: 'too few points',
      n: 1,
    });
  });

  it('says two things of one point, which is named', () => {
    const check = reversal(bow(0.4));
    const points = [...check.points, { at: 600, apart: -2 }];
    const read = edgeError({ ...check, points }, L);
    expect(read).toMatchObject({ ok: false, reason: 'contradictory', point: 10 });
    expect(!read.ok && read.words).toBe(
      'At 600 mm from end A the check says two things that cannot both be: 0.36 mm proud and 1 mm hollow.',
    );
  });

  it.each([
    [{ at: -5, apart: 0 }, /Point 11: -5 mm from end A lies before the end/],
    [{ at: 1900, apart: 0 }, /lies past the end of an edge 1800 mm long/],
    [{ at: 700, apart: 80 }, /out by 40 mm is no straightedge/],
    [{ at: 700, apart: NaN }, /Point 11: numbers are expected/],
    [{ at: 700, apart: 1e9 }, /no straightedge/],
  ])('is impossible at %o', (point, words) => {
    const check = reversal(bow(0.4));
    const read = edgeError({ ...check, points: [...check.points, point] }, L);
    expect(read).toMatchObject({ ok: false, reason: 'impossible', point: 10 });
    expect(!read.ok && read.words).toMatch(words);
  });

  it('has edges that sink into each other, or no division', () => {
    const check = threeEdges(bow(0.5), bow(0.1), bow(0.2));
    const sunk = check.points.map((p, i) => (i === 3 ? { ...p, withThird: -0.3 } : p));
    expect(edgeError({ ...check, points: sunk }, L)).toMatchObject({ ok: false, point: 3 });
    expect(edgeError({ ...check, readTo: 0 }, L)).toMatchObject({ reason: 'impossible' });
  });
});

describe('an edge’s error', () => {
  it('is not extrapolated beyond what was checked', () => {
    const check = reversal(bow(0.4), {
      points: along.slice(2, 8).map((at) => ({ at, apart: 2 * bow(0.4)(at) })),
    });
    const { domain, at } = found(check);
    expect(domain).toEqual([400, 1400]);
    expect(() => at(200)).toThrow(RangeError);
  });
});
