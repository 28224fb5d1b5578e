import { describe, expect, test } from 'vitest';
import { equilibrium } from '../../../src/running/planing/equilibrium.ts';
import { flapDrag, flapForces, restated } from '../../../src/running/planing/flap.ts';
import { OUTSIDE, type Flap } from '../../../src/running/planing/running.ts';
import { reference } from '../reference.ts';
import { SMALL } from './boats.ts';

const tail = (angle: number): Flap => ({ chord: 150, angle, span: 1, aft: 0 });
const trimWith = (...flaps: readonly Flap[]): number => {
  const runs = equilibrium({ ...SMALL, flaps });
  if (!runs.ok) throw new Error(runs.reason);
  return runs.trim;
};

// Savitsky and Brown (1976), Marine Technology 13(4), 381: formulas from memory; the check is of the units, computed apart.
test('lift, drag and moment of a flap come out to the digits of the check', () => {
  const { unit_check_computed_here: check } = reference('planing/flap_savitsky_brown1976.json') as {
    readonly unit_check_computed_here: Readonly<Record<string, number>>;
  };
  const slug = 515.3788183931961;
  const pressure = 0.5 * check['rho_slug_ft3'] * slug * (check['V_fps'] * 0.3048) ** 2;
  const forces = flapForces(
    [{ chord: 304.8, angle: check['delta_deg'], span: 1, aft: 0 }],
    check['b_ft'] * 0.3048,
    pressure,
    3.18,
  );
  if (!forces.ok) throw new Error(forces.reason);
  const pound = 4.4482216152605;
  expect(forces.lift / pound).toBeCloseTo(check['dF_lb'], 3);
  expect(forces.moment / pound / 0.3048).toBeCloseTo(check['dM_ft_lb'], 2);
  expect(flapDrag(forces, 2.3) / pound).toBeCloseTo(check['dD_lb_at_tau_2.3'], 4);
});

describe('a tail that is turned', () => {
  test('down (hook) lowers the trim, up (rocker) raises it, by about as much', () => {
    const fair = trimWith();
    const hooked = fair - trimWith(tail(0.5));
    const rockered = trimWith(tail(-0.5)) - fair;
    expect(hooked).toBeGreaterThan(0.02);
    expect(rockered / hooked).toBeGreaterThan(0.9);
    expect(rockered / hooked).toBeLessThan(1.1);
  });

  test('by nothing changes nothing, to the last bit', () => {
    expect(equilibrium({ ...SMALL, flaps: [tail(0)] })).toEqual(equilibrium(SMALL));
  });

  test('lowers the trim the more, the more it is turned', () => {
    const trims = [0, 0.25, 0.5, 1, 2].map((angle) => trimWith(tail(angle)));
    expect(trims).toEqual([...trims].sort((a, b) => b - a));
  });
});

test('a tab hung behind the transom works like a tail, with a shorter arm', () => {
  expect(trimWith({ ...tail(5), span: 0.3, aft: 150 })).toBeLessThan(trimWith());
});

test('a flap longer than a tenth of the wetted length is restated with the same lift', () => {
  const long: Flap = { chord: 300, angle: 1, span: 1, aft: 0 };
  expect(restated(long, 2000)).toEqual({ ...long, chord: 200, angle: 1.5 });
  expect(restated(long, 3000)).toBe(long);
});

describe('is refused', () => {
  test.each([
    ['below a speed coefficient of 2', { speed: 6 }, OUTSIDE.flapSlow],
    ['above 7', { speed: 33 }, OUTSIDE.flapFast],
    ['at more than 15°', { flaps: [tail(16)] }, OUTSIDE.flapAngle],
    [
      'where it would carry half the boat',
      { flaps: [{ ...tail(15), chord: 400 }] },
      OUTSIDE.flapLift,
    ],
    [
      'where the boat trims above 10°',
      { speed: 9.5, load: { ...SMALL.load, lcg: 1200 } },
      OUTSIDE.flapTrim,
    ],
  ] as const)('%s', (_, change, reason) => {
    expect(equilibrium({ ...SMALL, flaps: [tail(1)], ...change })).toEqual({ ok: false, reason });
  });
});
