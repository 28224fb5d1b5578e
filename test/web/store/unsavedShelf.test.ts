import { describe, expect, test } from 'vitest';

import { canonical } from '../../../src/book/canonical.ts';
import { hullDatabase } from '../../../web/store/database.ts';
import { UnsavedShelf } from '../../../web/store/unsavedShelf.ts';
import { Yard } from '../../../web/store/yard.svelte.ts';
import {
  gapsIn,
  HULL,
  hullDraft,
  Machine,
  readingDraft,
  ShelfInMemory,
  SURVEY,
  until,
  type Tab,
} from './around.ts';

const survey = { survey: SURVEY };

/** A tab that is ended while a reading of 3 mm is on its way to the database. */
async function endedWhileSaving(machine: Machine): Promise<void> {
  const tab = machine.tab();
  const store = tab.store();
  await store.add([readingDraft(2)], survey);
  machine.still = true;
  void store.add([readingDraft(3)], survey).catch(() => undefined);
  tab.leave();
  await until(() => machine.waiting > 0);
  machine.still = false;
}

describe('what no database has taken when the page goes', () => {
  test('is there on the next start under the same id, is saved then, and is kept no longer', async () => {
    const machine = new Machine();
    await endedWhileSaving(machine);
    const kept = new UnsavedShelf(machine.shelf).of(HULL);
    expect(kept).toHaveLength(1);
    const next = machine.tab().store();
    expect(gapsIn(next)).toEqual([3]);
    await next.ready;
    await until(() => next.saving.pending === 0);
    expect(gapsIn(next)).toEqual([2, 3]);
    expect(machine.shelf.length).toBe(0);
    const stored = await machine.raw(hullDatabase(HULL)).get(kept[0]._id);
    expect(stored).toMatchObject({ body: kept[0].body });
    await next.undo();
    expect(gapsIn(next)).toEqual([2]);
  });

  test('is there once where the database had taken it after all', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const store = tab.store();
    const added = store.add([readingDraft(3)], survey);
    tab.leave();
    const [kept] = new UnsavedShelf(machine.shelf).of(HULL);
    const [entry] = await added;
    expect(canonical(kept)).toBe(canonical(entry));
    new UnsavedShelf(machine.shelf).keep([kept]);
    const next = machine.tab().store();
    await next.ready;
    await until(() => next.saving.pending === 0);
    expect(gapsIn(next)).toEqual([3]);
    expect(next.entries).toHaveLength(1);
    expect(machine.shelf.length).toBe(0);
  });

  test('is not kept where the page comes back and saves it', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const store = tab.store();
    const added = store.add([readingDraft(3)], survey);
    tab.leave();
    expect(machine.shelf.length).toBe(1);
    await added;
    expect(machine.shelf.length).toBe(0);
    tab.leave();
    expect(machine.shelf.length).toBe(0);
  });

  test('stays kept as long as the database does not take it', async () => {
    const machine = new Machine();
    await endedWhileSaving(machine);
    machine.full = true;
    const tab = machine.tab();
    const store = tab.store();
    await until(() => store.saving.failure !== undefined && gapsIn(store).length === 2);
    expect([gapsIn(store), machine.shelf.length]).toEqual([[2, 3], 1]);
    machine.full = false;
    await until(() => {
      tab.pass(5_000);
      return store.saving.pending === 0;
    });
    expect(machine.shelf.length).toBe(0);
  });

  test('waits without the entries whose files cannot be kept with them', () => {
    const machine = new Machine();
    const tab = machine.tab();
    const store = tab.store();
    machine.still = true;
    const file = { name: 'photo', type: 'image/png', data: new Blob(['x']) };
    const files = new Map([['photo', file]]);
    const photo = { ...hullDraft('Reed Bunting (invented)'), ref: 'photo' };
    void store.add([photo], { files }).catch(() => undefined);
    void store.add([hullDraft('Knot (invented)')]).catch(() => undefined);
    tab.leave();
    const kept = new UnsavedShelf(machine.shelf).of(HULL);
    expect(kept.map(({ body }) => body)).toMatchObject([{ name: 'Knot (invented)' }]);
  });

  test('is saved by whatever page of the app starts next, and goes with its hull when that is removed', async () => {
    const machine = new Machine();
    const rescue = () => Promise.reject(new Error('nothing to rescue'));
    const yardOn = ({ around }: Tab) => new Yard({ around, engine: '1', rescue });
    await endedWhileSaving(machine);
    const yard = yardOn(machine.tab());
    await yard.ready;
    await until(() => machine.shelf.length === 0);
    expect(gapsIn(yard.open(HULL))).toEqual([2, 3]);
    new UnsavedShelf(machine.shelf).keep(yard.open(HULL).entries);
    await yard.remove(HULL);
    expect(machine.shelf.length).toBe(0);
  });
});

describe('the shelf', () => {
  test('gives each hull its own, and leaves what is no entry, or is another’s, where it is', async () => {
    const [entry] = await new Machine()
      .tab()
      .store()
      .add([readingDraft(1)], survey);
    const shelf = new ShelfInMemory();
    shelf.setItem('aftrun-device', '{}');
    shelf.setItem('aftrun-unsaved-0123456789ab:0:broken', '{');
    const other = entry._id.replace(SURVEY, '0'.repeat(12));
    shelf.setItem(`aftrun-unsaved-${other}`, JSON.stringify(entry));
    const kept = new UnsavedShelf(shelf);
    kept.keep([entry]);
    expect(kept.of(HULL)).toEqual([entry]);
    expect(kept.of('zzzzzzzzzzzz')).toEqual([]);
    expect(kept.hulls()).toEqual([HULL]);
    kept.drop([entry]);
    expect([kept.of(HULL), shelf.length]).toEqual([[], 3]);
    kept.forget(HULL);
    expect(shelf.length).toBe(1);
  });

  test('that is missing, or refuses, is no failure', async () => {
    const [entry] = await new Machine()
      .tab()
      .store()
      .add([readingDraft(1)], survey);
    const refuse = (): never => {
      throw new DOMException('no', 'SecurityError');
    };
    const calls = { getItem: refuse, setItem: refuse, removeItem: refuse, key: refuse };
    const blocked = Object.defineProperty({ ...calls, length: 0 }, 'length', { get: refuse });
    for (const shelf of [undefined, blocked]) {
      const kept = new UnsavedShelf(shelf);
      kept.keep([entry]);
      expect([kept.of(HULL), kept.hulls()]).toEqual([[], []]);
      kept.drop([entry]);
      kept.forget(HULL);
    }
  });
});
