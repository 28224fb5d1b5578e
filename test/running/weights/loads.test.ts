import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalSequence } from '../../../src/fit/normalSequence.ts';
import { MASS_UNITS } from '../../../src/running/massUnits.ts';
import { drawLoads } from '../../../src/running/weights/drawLoads.ts';
import { statesOf, type LedgerItem } from '../../../src/running/weights/ledger.ts';
import { loadOf, shiftBetween } from '../../../src/running/weights/loads.ts';
import { reference } from '../reference.ts';
import { REPOWER } from './repower.ts';

const handbook = (
  reference('naval_handbook.json') as {
    readonly weight_and_trim: {
      readonly example_1: { readonly computed: Readonly<Record<string, number>> } & {
        readonly given: Readonly<Record<string, number>>;
        readonly published: Readonly<Record<string, number>>;
      };
      readonly example_2_small_boat_computed_here: {
        readonly given: Readonly<Record<string, number>>;
        readonly LCG_new_ft: number;
      };
    };
  }
).weight_and_trim;

function told(items: readonly LedgerItem[], state: 'as designed' | 'as now' | 'as proposed') {
  const load = loadOf(items, state);
  if (!load.ok) throw new Error(load.reason);
  return load;
}
const value = (v: number) => ({ value: v });

// Derrett and Barrass, Ship Stability for Masters and Mates, ch. 15, example 1 (from memory; arithmetic confirmed).
test('a weight shifted moves the centre of gravity by w·d/W, and by the handbook’s moment', () => {
  const { given, published, computed } = handbook.example_1;
  const ship: readonly LedgerItem[] = [
    { act: 'aboard', name: 'ship', mass: value(given['W_t']), at: { x: value(60) } },
    {
      act: 'moved',
      name: 'cargo',
      mass: value(given['w_t']),
      from: { x: value(20) },
      to: { x: value(20 + given['shift_forward_m']) },
      since: 'as now',
    },
  ];
  const shift = shiftBetween(ship, 'as designed', 'as now');
  if (!shift.ok) throw new Error(shift.reason);
  expect(shift.lcg.value).toBeCloseTo(computed['GG1_m'], 12);
  expect(shift.lcg.value * given['W_t']).toBeCloseTo(published['trimming_moment_t_m'], 8);
  expect(shift.displacement.value).toBe(0);
});

test('a weight added moves it by (W·LCG + w·x) / (W + w), to twelve digits; taken off again it is as before', () => {
  const { given, LCG_new_ft } = handbook.example_2_small_boat_computed_here;
  const boat: readonly LedgerItem[] = [
    { act: 'aboard', name: 'boat', mass: value(given['W_lb']), at: { x: value(6) } },
    { act: 'added', name: 'battery', mass: value(200), to: { x: value(0.5) }, since: 'as now' },
    {
      act: 'removed',
      name: 'battery',
      mass: value(200),
      from: { x: value(0.5) },
      since: 'as proposed',
    },
  ];
  expect(told(boat, 'as now').lcg.value).toBeCloseTo(LCG_new_ft, 12);
  expect(told(boat, 'as proposed').lcg.value).toBeCloseTo(given['LCG_ft_from_transom'], 12);
});

// Invented, its truth known: 5,200 lb at 84.0 in, 5,510 lb at 72.8 in, 77.2 in.
test('the repower of the story comes out figure for figure', () => {
  expect(statesOf(REPOWER)).toEqual(['as designed', 'as now', 'as proposed']);
  const figures = statesOf(REPOWER).map((state) => {
    const { displacement, lcg } = told(REPOWER, state);
    return [displacement.value / MASS_UNITS.lb, lcg.value / 25.4].map((v) => Number(v.toFixed(1)));
  });
  expect(figures).toEqual([
    [5200, 84],
    [5510, 72.8],
    [5710, 77.2],
  ]);
});

describe('uncertainty', () => {
  const doubtful: readonly LedgerItem[] = [
    {
      act: 'aboard',
      name: 'boat',
      mass: { low: 2250, high: 2450 },
      at: { x: { low: 2050, high: 2250, likeliest: 2130 }, height: { low: 550, high: 650 } },
    },
    {
      act: 'added',
      name: 'engines',
      mass: { low: 480, high: 540 },
      to: { x: { low: -700, high: -620 }, height: { value: 700 } },
      since: 'as now',
    },
    {
      act: 'moved',
      name: 'batteries',
      mass: { low: 50, high: 70 },
      from: { x: value(2800), height: value(400) },
      to: { x: value(250), height: value(400) },
      since: 'as now',
    },
  ];
  const draws = 20_000;

  test('by propagation agrees with seeded draws within 3 %, alone and between states', () => {
    const ledger = drawLoads(doubtful);
    const normals = normalSequence(draws * ledger.size);
    const loads = Array.from({ length: draws }, (_, k) => {
      const z = normals.subarray(k * ledger.size, (k + 1) * ledger.size);
      const now = ledger.at(z, 'as now');
      const designed = ledger.at(z, 'as designed');
      if (now?.vcg === undefined || designed === undefined) throw new Error('nothing drawn');
      return { ...now, vcg: now.vcg, shift: now.lcg - designed.lcg };
    });
    const deviation = (of: (load: (typeof loads)[number]) => number) => {
      const values = loads.map(of);
      const mean = values.reduce((sum, v) => sum + v, 0) / draws;
      return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / draws);
    };
    const load = told(doubtful, 'as now');
    const shift = shiftBetween(doubtful, 'as designed', 'as now');
    if (!shift.ok) throw new Error(shift.reason);
    expect(load.displacement.u / deviation((l) => l.displacement)).toBeCloseTo(1, 1.5);
    expect(load.lcg.u / deviation((l) => l.lcg)).toBeCloseTo(1, 1.5);
    expect((load.vcg?.u ?? 0) / deviation((l) => l.vcg)).toBeCloseTo(1, 1.5);
    expect(shift.lcg.u / deviation((l) => l.shift)).toBeCloseTo(1, 1.5);
  });

  test('that two states share cancels from what changed between them', () => {
    const shift = shiftBetween(doubtful, 'as designed', 'as now');
    if (!shift.ok) throw new Error(shift.reason);
    expect(shift.lcg.u).toBeLessThan(0.6 * told(doubtful, 'as now').lcg.u);
  });

  test('of one thing named twice counts once', () => {
    const battery = { mass: { low: 20, high: 40 }, name: 'battery', thing: 'battery' } as const;
    const place = { x: value(300) };
    const boat: LedgerItem = {
      act: 'aboard',
      name: 'boat',
      mass: value(2000),
      at: { x: value(2000) },
    };
    const once: readonly LedgerItem[] = [
      boat,
      { act: 'aboard', ...battery, at: place },
      { act: 'removed', ...battery, from: place, since: 'as now' },
    ];
    expect(told(once, 'as now').displacement).toEqual({ value: 2000, u: 0 });
    expect(told(once, 'as now').lcg).toEqual({ value: 2000, u: 0 });
  });
});

test('where the height of one item is not known, no height is told', () => {
  expect(told(REPOWER, 'as now')).not.toHaveProperty('vcg');
});

test('a ledger that leaves nothing aboard is refused, and so is an empty one', () => {
  expect(loadOf([], 'as now')).toMatchObject({ ok: false });
  const gone: LedgerItem = {
    act: 'removed',
    name: 'everything',
    mass: value(5),
    from: { x: value(1) },
    since: 'as now',
  };
  expect(loadOf([gone], 'as now')).toMatchObject({ ok: false });
});

test('one thing with two masses, or a mass below 0, is refused', () => {
  const item = (mass: number): LedgerItem => ({
    act: 'aboard',
    name: 'a',
    thing: 'a',
    mass: value(mass),
    at: { x: value(1) },
  });
  expect(() => loadOf([item(1), item(2)], 'as now')).toThrow(RangeError);
  expect(() => loadOf([item(-1)], 'as now')).toThrow(RangeError);
});

test('the order of the items does not matter', () => {
  const size = fc.integer({ min: 1, max: 3000 });
  fc.assert(
    fc.property(fc.array(fc.tuple(size, size), { minLength: 1, maxLength: 8 }), (sizes) => {
      const items = sizes.map(([mass, x]): LedgerItem => ({
        act: 'aboard',
        name: 'item',
        mass: value(mass),
        at: { x: value(x) },
      }));
      expect(told(items, 'as now').lcg.value).toBeCloseTo(
        told([...items].reverse(), 'as now').lcg.value,
        9,
      );
    }),
    { seed: 20261128 },
  );
});
