import { expect, test } from 'vitest';
import { MASS_UNITS } from '../../../src/running/massUnits.ts';
import { massThatBringsBack, moveThatBringsBack } from '../../../src/running/weights/bringBack.ts';
import type { LedgerItem } from '../../../src/running/weights/ledger.ts';
import { loadOf } from '../../../src/running/weights/loads.ts';
import { TYPICAL_ITEMS } from '../../../src/running/weights/typicalItems.ts';
import { lb, REPOWER } from './repower.ts';

const now = loadOf(REPOWER, 'as now');
if (!now.ok) throw new Error(now.reason);
const WHOLE_BOAT = { aftmost: -700, foremost: 7300 };

test('carried where it says, the mass brings the centre of gravity to the target, and the boat weighs what it says', () => {
  const found = massThatBringsBack(now, 84 * 25.4, 200 * 25.4);
  if (!found.ok) throw new Error(found.reason);
  expect(found.act).toBe('carry');
  const bow: LedgerItem = {
    act: 'added',
    name: 'sandbags',
    mass: { value: found.mass.value },
    to: { x: { value: 200 * 25.4 } },
    since: 'as now',
  };
  const after = loadOf([...REPOWER, bow], 'as now');
  if (!after.ok) throw new Error(after.reason);
  expect(after.lcg.value).toBeCloseTo(84 * 25.4, 9);
  expect(after.displacement.value).toBeCloseTo(found.displacement, 9);
});

test('the 200 lb of the story bring it to its 77.2 in', () => {
  const found = massThatBringsBack(now, 77.23 * 25.4, 200 * 25.4);
  if (!found.ok) throw new Error(found.reason);
  expect(found.mass.value / MASS_UNITS.lb).toBeCloseTo(200, 0);
});

test('behind the target, mass comes off instead', () => {
  expect(massThatBringsBack(now, 77 * 25.4, 0)).toMatchObject({ ok: true, act: 'take off' });
});

test('a mass at the target moves nothing, and one just beside it would have to weigh as the boat does', () => {
  expect(massThatBringsBack(now, 2000, 2000)).toMatchObject({ ok: false });
  expect(massThatBringsBack(now, 2000, 2001)).toMatchObject({ ok: false });
});

test('an item moved as far as it says brings it to the target at the same displacement', () => {
  const found = moveThatBringsBack(
    now,
    74 * 25.4,
    { mass: 130 * MASS_UNITS.lb, x: 10 * 25.4 },
    WHOLE_BOAT,
  );
  if (!found.ok) throw new Error(found.reason);
  expect(found.to).toBeCloseTo(10 * 25.4 + found.by.value, 9);
  const moved: LedgerItem = {
    act: 'moved',
    name: 'batteries',
    mass: lb(130),
    from: { x: { value: 10 * 25.4 } },
    to: { x: { value: found.to } },
    since: 'as proposed',
  };
  const after = loadOf([...REPOWER.slice(0, 4), moved], 'as proposed');
  if (!after.ok) throw new Error(after.reason);
  expect(after.lcg.value).toBeCloseTo(74 * 25.4, 9);
});

test('a move beyond the boat is refused', () => {
  const item = { mass: 30, x: 1000 };
  expect(moveThatBringsBack(now, 84 * 25.4, item, WHOLE_BOAT)).toMatchObject({ ok: false });
  expect(moveThatBringsBack(now, 50 * 25.4, item, WHOLE_BOAT)).toMatchObject({ ok: false });
  expect(() => moveThatBringsBack(now, 2000, { mass: 0, x: 0 }, WHOLE_BOAT)).toThrow(RangeError);
});

test('doubt about the boat carries into the mass: as moving the inputs by a little does', () => {
  const doubtful: readonly LedgerItem[] = [
    {
      act: 'aboard',
      name: 'boat',
      mass: { value: 2500, u: 50 },
      at: { x: { value: 1800, u: 40 } },
    },
  ];
  const load = loadOf(doubtful, 'as now');
  if (!load.ok) throw new Error(load.reason);
  const found = massThatBringsBack(load, 2000, 5000);
  if (!found.ok) throw new Error(found.reason);
  // w = W (T − L) / (x − T): by W 200/3000, by L −2500/3000.
  expect(found.mass.u).toBeCloseTo(Math.hypot((200 / 3000) * 50, (2500 / 3000) * 40), 9);
});

test('typical items are ranges in order, with no name twice', () => {
  const names = TYPICAL_ITEMS.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  for (const { mass } of TYPICAL_ITEMS) {
    expect('low' in mass && mass.low > 0 && mass.low < mass.high).toBe(true);
  }
});
