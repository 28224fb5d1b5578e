import { describe, expect, test } from 'vitest';
import { readEstimate, lengthOf, massOf } from '../../../src/running/file/quantity.ts';
import { readBoat } from '../../../src/running/file/readBoat.ts';

const PLAIN = {
  beam: '78 in',
  deadrise: 20,
  items: [{ act: 'aboard', name: 'boat', mass: '5200 lb', at: '84 in' }],
  speeds: '20 to 25 kn',
};
const faults = (change: object) => {
  const read = readBoat({ ...PLAIN, ...change });
  return read.ok ? [] : read.faults;
};

describe('an estimate', () => {
  test.each([
    ['565 kg', { value: 565 }],
    ['540 to 590 kg', { low: 540, high: 590 }],
    ['540 to 590 kg, likeliest 580', { low: 540, high: 590, likeliest: 580 }],
    ['565 ± 10 kg', { low: 555, high: 575 }],
  ])('is read from %s', (text, estimate) => {
    expect(readEstimate(text, massOf)).toEqual(estimate);
  });

  test.each(['565', 'kg', '590 to 540 kg', '5 to 6 kg, likeliest 9', '565 in', 'many kg'])(
    'is not read from %s',
    (text) => {
      expect(readEstimate(text, massOf)).toBeUndefined();
    },
  );

  test('of a place may lie aft of the transom, in inches or mm', () => {
    expect(readEstimate('-26 in', lengthOf)).toEqual({ value: -660.4 });
    expect(readEstimate('-700 to -600 mm', lengthOf)).toEqual({ low: -700, high: -600 });
  });
});

describe('a boat', () => {
  test('may have a beam and a deadrise that are ranges, and has their middle to reckon with', () => {
    const read = readBoat({ ...PLAIN, beam: '76 to 80 in, likeliest 78', deadrise: '18 to 20' });
    expect(read).toMatchObject({
      ok: true,
      boat: {
        hull: { deadrise: 19 },
        doubt: { deadrise: { low: 18, high: 20 }, beam: { low: 1930.4, high: 2032 } },
      },
      units: { length: 'in' },
    });
    expect(readBoat(PLAIN)).not.toHaveProperty('boat.doubt');
  });

  test('may have its thrust and its tabs as ranges', () => {
    const read = readBoat({
      ...PLAIN,
      thrust: { x: '-30 to -26 in', height: '-8 in', angle: '-2 to 6' },
      tabs: { chord: '9 in', width: '36 in', angle: '2 to 6' },
    });
    expect(read).toMatchObject({
      ok: true,
      boat: {
        thrust: { x: -711.2, angle: 2 },
        tabs: [{ angle: 4 }],
        doubt: { tabAngle: { low: 2, high: 6 }, thrustAngle: { low: -2, high: 6 } },
      },
    });
    expect(faults({ thrust: { arm: '1 ft', angle: '-40 to 6' } })).toHaveLength(1);
    expect(faults({ tabs: { chord: '9 in', width: '36 in', angle: '2 to 20' } })).toHaveLength(1);
  });

  // NIST SP 811 (2008), appendix B.8: 1 slug/ft³ is 515.3788 kg/m³, 1 lb/ft³ 16.01846, 1 ft²/s 0.09290304 m²/s.
  test('is the same boat in units of either kind', () => {
    const of = (change: object) => {
      const read = readBoat({ ...PLAIN, ...change });
      if (!read.ok) throw new Error(JSON.stringify(read.faults));
      return read;
    };
    const { water } = of({ water: { density: '1.94 slug/ft3', viscosity: '1e-5 ft2/s' } }).boat;
    expect(water.density).toBeCloseTo(1.94 * 515.3788, 3);
    expect(water.viscosity).toBeCloseTo(9.290304e-7, 15);
    const pounds = of({ water: { density: '64 lb/ft³', viscosity: '1.19 cSt' } }).boat.water;
    expect(pounds.density).toBeCloseTo(64 * 16.01846, 3);
    expect(pounds.viscosity).toBeCloseTo(1.19e-6, 12);
    expect(of({ speeds: '67.5 ft/s' }).speeds).toEqual([20.574]);
    const weighs = (mass: string) =>
      of({ items: [{ act: 'aboard', name: 'boat', mass, at: '84 in' }] }).boat.items[0].mass;
    expect(weighs('2.5 t')).toEqual({ value: 2500 });
    expect(weighs('5200 lbf')).toEqual(weighs('5200 lb'));
    expect(weighs('19.6133 kN')).toEqual({ value: expect.closeTo(2000, 9) as number });
  });

  test.each([
    [{ water: { density: '1.94', viscosity: 1e-6 } }],
    [{ water: { density: 1025, viscosity: '0 m2/s' } }],
    [{ items: [{ act: 'aboard', name: 'boat', mass: '3 tons', at: '84 in' }] }],
  ])('is refused with %o: no unit, nothing, or a ton that may be any of three', (change) => {
    expect(faults(change).length).toBeGreaterThan(0);
  });

  test.each([{ deadrise: '80 to 95' }, { deadrise: 'steep' }, { beam: '-2 to 4 in' }])(
    'is refused with %o',
    (change) => {
      expect(faults(change)).toHaveLength(1);
    },
  );

  test('that lacks a field is told which; one of 100,000 levels is refused, not followed to its end', () => {
    expect(readBoat({ deadrise: PLAIN.deadrise })).toMatchObject({
      faults: [
        { at: 'beam', found: 'nothing', expected: 'this field, which is needed' },
        { at: 'items' },
        { at: 'speeds' },
      ],
    });
    const deep: unknown = JSON.parse(`${'['.repeat(100_000)}${']'.repeat(100_000)}`);
    expect(faults({ beam: deep })).toMatchObject([{ at: 'beam', found: 'a list of 1' }]);
  });

  test('is read with its units, its water and its speeds in steps of two', () => {
    const read = readBoat(PLAIN);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.boat.hull).toEqual({ beam: 1981.2, deadrise: 20 });
    expect(read.boat.water.density).toBeCloseTo(1026.021, 3);
    expect(read.units).toEqual({ length: 'in', mass: 'lb', speed: 'kn' });
    expect(read.speeds.map((speed) => Math.round(speed / 0.514444))).toEqual([20, 22, 24, 25]);
  });

  test.each([
    ['a beam without unit', { beam: '78' }, 'beam'],
    ['a field nobody knows', { deadrize: 20 }, 'deadrize'],
    ['no items', { items: [] }, 'items'],
    ['an act nobody knows', { items: [{ act: 'lost' }] }, 'items.0.act'],
    [
      'a mass below 0',
      { items: [{ act: 'aboard', name: 'a', mass: '-5 lb', at: '1 in' }] },
      'items.0.mass',
    ],
    ['a deadrise as text', { deadrise: '20' }, 'deadrise'],
    ['a speed without unit', { at: '28' }, 'at'],
    [
      'tabs wider than the beam',
      { tabs: { chord: '9 in', width: '90 in', angle: 5 } },
      'tabs.width',
    ],
  ])('with %s is refused with the place', (_, change, place) => {
    const found = faults(change);
    expect(found.map(({ at }) => at)).toContain(place);
    expect(found[0].expected).not.toBe('');
  });

  test('that is no boat at all is refused', () => {
    expect(readBoat(null)).toMatchObject({ ok: false });
    expect(readBoat([])).toMatchObject({ ok: false });
  });
});
