import { describe, expect, test } from 'vitest';
import { assess } from '../../src/survey/assess.ts';
import { canProve, shortestSeen, type PlannedLine } from '../../src/survey/canProve.ts';
import { recommendedPlan } from '../../src/survey/recommendedPlan.ts';
import { startingStations } from '../../src/survey/startingStations.ts';
import { lineOf, placementOf, surveyOf } from './madeSurveys.ts';

const INCH = 25.4;
const limit = 60 * INCH;
// GUM F.2.2.1, and half a division for repeating it: the house default.
const uWith = (division: number) => Math.hypot(division / Math.sqrt(12), division / 2);
const inches = (denominator: number): PlannedLine => ({
  stations: startingStations(limit, 'in').map(({ mm }) => mm),
  u: uWith(INCH / denominator),
  tolerance: INCH / 16,
  over: limit,
  limit,
  unit: 'in',
});

/** How often surveys with normal errors give a verdict on a cosine hollow over the middle half. */
function share(
  plan: PlannedLine,
  depth: number,
  verdict: 'hook' | 'rocker' | 'fair',
  n = 60,
): number {
  let state = 20261125;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  const { stations, u, tolerance, over } = plan;
  const [from, to] = [stations[0], stations[stations.length - 1]].sort((a, b) => a - b);
  const [start, long] = [from + (to - from) / 4, (to - from) / 2];
  let found = 0;
  for (let k = 0; k < n; k++) {
    const placement = placementOf(stations, (x) => {
      const along = (x - start) / long;
      const hollow = along <= 0 || along >= 1 ? 0 : (1 - Math.cos(2 * Math.PI * along)) / 2;
      const noise = Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
      return depth * hollow + u * noise;
    });
    const asked = { tolerance, over, limit: plan.limit, repeatability: u, resolution: u / 1000 };
    const { outcome } = assess(surveyOf([lineOf([placement])]), asked).lines[0];
    if (outcome.ok && outcome.judgement.verdict.includes(verdict)) found++;
  }
  return found / n;
}

const found = (plan: PlannedLine) => {
  const can = canProve(plan);
  if (!can.ok) throw new Error(can.reason);
  return can;
};

describe('what a gauge and a set of stations can prove', () => {
  // 9 of 10 are promised; 40 surveys tell that to ± 0.1, and the reckoning is good to about as much.
  test('a hook, a rocker and a fair line of the size told are proven about nine times of ten', () => {
    const plan = inches(64);
    const { hookFrom = NaN, rockerFrom = NaN, fairUpTo = NaN } = found(plan);
    expect(share(plan, hookFrom, 'hook')).toBeGreaterThan(0.75);
    expect(share(plan, -rockerFrom, 'rocker')).toBeGreaterThan(0.75);
    expect(share(plan, fairUpTo, 'fair')).toBeGreaterThan(0.75);
    // And not much smaller: a third of a tolerance nearer to it, it is no longer so.
    expect(share(plan, hookFrom - plan.tolerance / 3, 'hook')).toBeLessThan(0.75);
    expect(share(plan, fairUpTo + plan.tolerance / 3, 'fair')).toBeLessThan(0.75);
  }, 60_000);

  test('a finer gauge brings both nearer to the tolerance, never past it', () => {
    const { tolerance } = inches(32);
    const [fine, finer] = [found(inches(64)), found(inches(256))];
    expect(finer.hookFrom ?? NaN).toBeLessThan(fine.hookFrom ?? NaN);
    expect(finer.fairUpTo ?? NaN).toBeGreaterThan(fine.fairUpTo ?? NaN);
    expect(finer.hookFrom ?? NaN).toBeGreaterThan(tolerance);
    expect(finer.fairUpTo ?? NaN).toBeLessThan(tolerance);
  });

  test('more stations, or more layings, never prove less', () => {
    const at = (n: number, layings = 1) => {
      const stations = Array.from({ length: n }, (_, i) => (i * 1500) / (n - 1));
      return found({
        ...{ stations, u: 0.2, tolerance: 1.5, over: 1500, limit: 1500, unit: 'mm', layings },
      });
    };
    const hooks = [at(7), at(13), at(25), at(25, 3)].map(({ hookFrom }) => hookFrom ?? NaN);
    expect([...hooks].sort((a, b) => b - a)).toEqual(hooks);
    const fair = [at(7), at(13), at(25), at(25, 3)].map(({ fairUpTo }) => fairUpTo ?? 0);
    expect([...fair].sort((a, b) => a - b)).toEqual(fair);
  });

  test('a gauge too coarse for the tolerance proves nothing fair, and says no figure for it', () => {
    expect('fairUpTo' in found(inches(4))).toBe(false);
  });

  test('the shortest feature is three spacings, stretch by stretch', () => {
    const { shortest } = found(inches(32));
    expect(shortest.map(({ from, to }) => [from / INCH, to / INCH].map(Math.round))).toEqual([
      [0, 18],
      [18, 60],
    ]);
    expect(shortest[0].length).toBeCloseTo(9 * INCH, 9);
    expect(shortest[1].length).toBeCloseTo(18 * INCH, 9);
    expect(shortestSeen([0])).toEqual([]);
  });

  test('three stations within the limit are too few, however many lie beyond it', () => {
    const can = canProve({ ...inches(32), stations: [0, 75, 150, 1600, 1700], limit: 1500 });
    expect(can).toEqual({ ok: false, reason: 'too few stations', n: 3, needed: 4 });
    expect(canProve({ ...inches(32), stations: [] })).toMatchObject({ ok: false, n: 0 });
  });

  test('the order of the stations and one named twice change nothing', () => {
    const plan = inches(64);
    const again = { ...plan, stations: [...plan.stations, plan.stations[3]].reverse() };
    expect(canProve(again)).toEqual(canProve(plan));
  });

  test('lengths that are no lengths are the caller’s mistake', () => {
    expect(() => canProve({ ...inches(32), u: 0 })).toThrow(RangeError);
    expect(() => canProve({ ...inches(32), limit: Infinity })).toThrow(RangeError);
  });
});

describe('the recommended stations', () => {
  const planned = { ...inches(64), stations: [] };

  test('prove what they promise, stand closer near the transom, on marks that are handy', () => {
    const hook = 1.5 * planned.tolerance;
    const plan = recommendedPlan(planned, { hook }, INCH / 64, uWith);
    if (!plan.ok) throw new Error(plan.reason);
    const stations = plan.stations.map(({ mm }) => mm);
    for (const mm of stations) {
      expect((2 * mm) / INCH).toBeCloseTo(Math.round((2 * mm) / INCH), 6);
    }
    expect(stations[0]).toBe(0);
    expect(stations[stations.length - 1]).toBe(limit);
    expect(plan.spacing.near).toBeLessThan(plan.spacing.beyond);
    const u = planned.u / Math.sqrt(plan.layings);
    expect(share({ ...planned, stations, u }, hook, 'hook')).toBeGreaterThan(0.75);
  }, 60_000);

  test('show a feature of the length that was asked for near the transom, twice that ahead', () => {
    const feature = 6 * INCH;
    const plan = recommendedPlan(planned, { feature }, INCH / 64, uWith);
    if (!plan.ok) throw new Error(plan.reason);
    const seen = shortestSeen(plan.stations.map(({ mm }) => mm));
    expect(seen[0].length).toBeLessThanOrEqual(feature * 1.001);
    expect(seen[1].length).toBeLessThanOrEqual(2 * feature * 1.001);
    expect(plan.layings).toBe(1);
    expect(recommendedPlan(planned, { feature: INCH }, INCH / 64, uWith)).toEqual({
      ok: false,
      reason: 'feature too short',
    });
  });

  test('name the gauge that could where this one cannot', () => {
    const coarse = { ...planned, u: uWith(INCH / 8) };
    const plan = recommendedPlan(coarse, { hook: 1.5 * planned.tolerance }, INCH / 8, uWith);
    if (plan.ok) throw new Error('a rule in eighths proves no such hook');
    expect(plan.reason).toBe('gauge too coarse');
    expect(plan.gauge?.mm ?? NaN).toBeLessThan(INCH / 8);
    const none = { hook: 1.01 * planned.tolerance };
    const hopeless = recommendedPlan(coarse, none, INCH / 8, () => INCH / 8);
    expect(hopeless).toEqual({ ok: false, reason: 'gauge too coarse' });
  });

  test('begin at the first station that can be read', () => {
    const rounded = { ...planned, stations: [12.7, 100] };
    const plan = recommendedPlan(rounded, { hook: 3 * planned.tolerance }, INCH / 64, uWith);
    expect(plan.ok && plan.stations[0].mm).toBe(12.7);
  });
});
