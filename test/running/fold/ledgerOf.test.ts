import { describe, expect, test } from 'vitest';
import { bookOf } from '../../../src/book/book.ts';
import { standing } from '../../../src/book/standing.ts';
import { ledgerOf } from '../../../src/running/fold/ledgerOf.ts';
import { loadOf } from '../../../src/running/weights/loads.ts';
import { correctionOf } from '../../../src/survey/fold/correctionOf.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../../src/survey/kinds/kinds.ts';
import { demoWeights } from '../../../web/store/demoWeights.ts';
import { entriesOf, idOf, mm } from '../../survey/fold/samples.ts';

type Item = BodyOf<'weight item'>;
const kg = (mass: number) => ({ kg: mass, text: `${mass} kg` });
const boat: Item = { name: 'boat', act: 'aboard', mass: kg(2000), at: { x: mm(2000) } };
const engine: Item = { name: 'engine', act: 'aboard', mass: kg(200), at: { x: mm(-200) } };
const drafts = (...items: readonly Item[]) => items.map((item) => draftOf('weight item', item));
const ledger = (...items: readonly Item[]) => ledgerOf(entriesOf(drafts(...items)));

describe('a ledger in the field book', () => {
  test('tells the story that is not to blame, figure for figure: LCG 84.0, 72.8, 77.2 in', () => {
    const { items } = ledgerOf(entriesOf(demoWeights()));
    const lcg = (['as designed', 'as now', 'as proposed'] as const).map((state) => {
      const load = loadOf(items, state);
      return load.ok ? (load.lcg.value / 25.4).toFixed(1) : load.reason;
    });
    expect(lcg).toEqual(['84.0', '72.8', '77.2']);
  });

  test('does not depend on the order in which entries come', () => {
    const entries = entriesOf(demoWeights());
    expect(ledgerOf([...entries].reverse())).toEqual(ledgerOf(entries));
  });

  test('keeps an item that lacks its mass or place, says so, and does not reckon with it', () => {
    const { lines, items } = ledger(
      { name: 'tank', act: 'aboard' },
      { name: 'bracket', act: 'added', mass: kg(60) },
      { name: 'battery', act: 'moved', mass: kg(25), from: { x: mm(10) } },
    );
    expect(items).toEqual([]);
    expect(lines.map(({ lacks }) => lacks)).toEqual([
      ['mass', 'place'],
      ['place'],
      ['place after'],
    ]);
  });

  test('takes the mass of a removed item from the thing that it was, also once that is put right', () => {
    const entries = entriesOf(drafts(boat, engine));
    const removed = draftOf('weight item', {
      ...{ name: 'engine', act: 'removed', thing: idOf(1, 'hull') },
      from: { x: mm(-200) },
    });
    const corrected = correctionOf(entries, [idOf(1, 'hull')], 'weight item', {
      ...engine,
      mass: kg(250),
    });
    const more = entriesOf([removed, corrected], { from: 2 });
    const { standing: stands } = standing(bookOf([...entries, ...more]));
    const { items, lines } = ledgerOf(stands);
    expect(items).toHaveLength(3);
    expect(lines.map(({ body }) => body.name)).toEqual(['boat', 'engine', 'engine']);
    const now = loadOf(items, 'as now');
    // What was aboard and is removed leaves nothing behind, and no doubt.
    expect(now).toMatchObject({ displacement: { value: 2000, u: 0 }, lcg: { value: 2000 } });
  });

  test('says of a change whose thing was struck that it lacks it', () => {
    const { lines } = ledger({ name: 'engine', act: 'removed', thing: 'gone', from: { x: mm(0) } });
    expect(lines[0].lacks).toEqual(['the item that it was']);
  });

  test('carries a range through, and sets aside what its kind cannot read', () => {
    const range = { kg: { low: 90, high: 110 }, text: '90 to 110 kg' };
    const entries = entriesOf(drafts(boat, { ...engine, mass: range }));
    const wrong = { ...entries[1], body: { ...engine, mass: { kg: -1, text: '-1 kg' } } };
    const load = loadOf(ledgerOf(entries).items, 'as now');
    expect(load.ok && load.displacement.u).toBeCloseTo(20 / Math.sqrt(12), 10);
    expect(ledgerOf([entries[0], wrong]).setAside).toMatchObject([
      { id: wrong._id, reason: expect.stringContaining('mass') as string },
    ]);
  });
});

describe('a boat that was weighed after its changes', () => {
  const weighed: Item = { ...boat, weighed: 'as now' };
  const added: Item = { name: 'new engine', act: 'added', mass: kg(300), to: { x: mm(-500) } };
  const removed: Item = { name: 'old engine', act: 'removed', mass: kg(200), from: { x: mm(0) } };

  test('is as weighed now, and was lighter by what was added and heavier by what was removed', () => {
    const { items } = ledger(weighed, added, removed);
    expect(loadOf(items, 'as now')).toMatchObject({
      displacement: { value: 2000 },
      lcg: { value: 2000 },
    });
    // (2000·2000 − 300·(−500) + 200·0) / 1900
    const before = loadOf(items, 'as designed');
    expect(before.ok && before.displacement.value).toBe(1900);
    expect(before.ok && before.lcg.value).toBeCloseTo(4_150_000 / 1900, 9);
  });

  test('carries what is proposed on top of what was weighed', () => {
    const sandbags: Item = {
      ...{ name: 'sandbags', act: 'added', since: 'as proposed' },
      ...{ mass: kg(100), to: { x: mm(5000) } },
    };
    const { items } = ledger(weighed, added, sandbags);
    const then = loadOf(items, 'as proposed');
    expect(then.ok && then.displacement.value).toBe(2100);
    expect(then.ok && then.lcg.value).toBeCloseTo(4_500_000 / 2100, 9);
  });
});
