import { expect, test } from 'vitest';
import { ledgerOf } from '../../../src/running/fold/ledgerOf.ts';
import { nextItems, soFar } from '../../../src/running/weights/soFar.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../../src/survey/kinds/kinds.ts';
import { entriesOf, mm } from '../../survey/fold/samples.ts';

type Item = BodyOf<'weight item'>;
const ledger = (...items: readonly Item[]) =>
  ledgerOf(entriesOf(items.map((item) => draftOf('weight item', item))));
const kg = (mass: number) => ({ kg: mass, text: `${mass} kg` });
const boat: Item = { name: 'boat', act: 'aboard', mass: kg(2000) };
const at = { x: mm(2000) };
const high = { ...at, height: mm(600) };

test('an empty ledger tells nothing, and a boat that is weighed would tell the most', () => {
  expect(soFar(ledger())).toEqual({ tells: 'nothing' });
  expect(nextItems(ledger())[0].adds).toBe('tells displacement and LCG');
});

test('a mass without its place tells what it weighs', () => {
  const one = ledger(boat);
  expect(soFar(one)).toMatchObject({ tells: 'weight', displacement: { value: 2000 }, of: 1 });
  expect(nextItems(one)[0].what).toBe('the place of “boat”');
});

test('a place tells LCG, a height VCG too; then changes are what is missing', () => {
  expect(soFar(ledger({ ...boat, at }))).toEqual({ tells: 'centre', vcg: false });
  const whole = ledger({ ...boat, at: high });
  expect(soFar(whole)).toEqual({ tells: 'centre', vcg: true });
  expect(nextItems(whole).map(({ what }) => what)).toEqual([
    'what was removed, added or moved since it was built',
  ]);
});

test('nothing is asked for where everything is told', () => {
  const engine: Item = { name: 'engine', act: 'added', mass: kg(200), to: high };
  expect(nextItems(ledger({ ...boat, at: high }, engine))).toEqual([]);
});

test('what is proposed alone, with no boat, tells no centre', () => {
  const bags: Item = { name: 'bags', act: 'added', since: 'as proposed', mass: kg(90), to: at };
  expect(soFar(ledger(bags))).toEqual({ tells: 'nothing' });
});
