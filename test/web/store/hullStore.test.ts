import { describe, expect, test } from 'vitest';

import { canonical } from '../../../src/book/canonical.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { hullDatabase } from '../../../web/store/database.ts';
import {
  gapsIn,
  HULL,
  hullDraft,
  Machine,
  readingDraft,
  SURVEY,
  surveyDraft,
  until,
} from './around.ts';

const survey = { survey: SURVEY };

describe('what is stated', () => {
  test('is shown at once, and its promise is kept only when the database has it', async () => {
    const machine = new Machine();
    const store = machine.tab().store();
    await store.ready;
    const added = store.add([readingDraft(3)], survey);
    expect(gapsIn(store)).toEqual([3]);
    expect(store.saving.pending).toBe(1);
    expect(store.saving.lastSavedAt).toBeUndefined();
    const [entry] = await added;
    expect(store.saving.pending).toBe(0);
    expect(store.saving.lastSavedAt).toBeInstanceOf(Date);
    expect(await machine.raw(hullDatabase(HULL)).get(entry._id)).toMatchObject({
      body: entry.body,
    });
  });

  test('is there again after a reload, with who, when and on what', async () => {
    const machine = new Machine();
    const first = machine.tab().store();
    await first.add([hullDraft('Reed Bunting (invented)')]);
    await first.add([surveyDraft(), readingDraft(1)], survey);
    first.close();
    const second = machine.tab().store();
    await second.ready;
    expect(second.state).toBe('ready');
    expect(canonical(second.entries)).toBe(canonical(first.entries));
    expect(second.hull.hull?.name).toBe('Reed Bunting (invented)');
    expect(second.surveys).toMatchObject([{ key: SURVEY, date: '2026-05-04', entries: 2 }]);
    expect(second.survey(SURVEY)?.workUnit).toBe('in');
    expect(second.survey('000000000000')).toBeUndefined();
    expect(second.entries[0]).toMatchObject({ by: 'Yard hand', device: 'Tablet 1', app: '0.1.0' });
  });

  test('gets the same revision on every device, whatever order its fields came in', async () => {
    const [one, other] = [new Machine(), new Machine()];
    const [entry] = await one
      .tab()
      .store()
      .add([readingDraft(1)], survey);
    const turned = Object.fromEntries(Object.entries(entry).reverse());
    const { writeEntries } = await import('../../../web/store/entryStore.ts');
    const database = other.raw('x');
    await writeEntries(database, [turned as unknown as typeof entry], (n) => new Uint8Array(n));
    const there = await one.raw(hullDatabase(HULL)).get(entry._id);
    expect((await database.get(entry._id))._rev).toBe(there._rev);
  });

  test('is refused where a draft of a survey comes without its key, and nothing is kept', async () => {
    const store = new Machine().tab().store();
    await expect(store.add([readingDraft(1)])).rejects.toThrow(RangeError);
    expect(store.entries).toEqual([]);
  });

  test('cannot be changed afterwards through the draft that it came from', async () => {
    const store = new Machine().tab().store();
    const draft = readingDraft(1);
    await store.add([draft], survey);
    (draft.body['gap'] as { mm: number }).mm = 99;
    expect(gapsIn(store)).toEqual([1]);
  });
});

describe('two tabs', () => {
  test('that type at once keep every reading, and both see all', async () => {
    const machine = new Machine();
    const [a, b] = [machine.tab('Tablet 1').store(), machine.tab('Tablet 2').store()];
    await Promise.all([a.ready, b.ready]);
    const even = Array.from({ length: 15 }, (_, n) => 2 * n);
    await Promise.all([
      ...even.map((mm) => a.add([readingDraft(mm)], survey)),
      ...even.map((mm) => b.add([readingDraft(mm + 1)], survey)),
    ]);
    const all = Array.from({ length: 30 }, (_, n) => n);
    await until(() => a.entries.length === 30 && b.entries.length === 30);
    expect(gapsIn(a)).toEqual(all);
    expect(gapsIn(b)).toEqual(all);
  });

  test('see what was missed when the page is seen again', async () => {
    const machine = new Machine();
    const [tab, other] = [machine.tab(), machine.tab()];
    const store = tab.store();
    await store.ready;
    const twice = other.store();
    const [entry] = await twice.add([readingDraft(5)], survey);
    tab.see();
    await until(() => store.entries.some(({ _id }) => _id === entry._id));
    expect(gapsIn(store)).toEqual([5]);
  });

  test('leave entries that come again as the objects that they were', async () => {
    const store = new Machine().tab().store();
    await store.ready;
    const [entry] = await store.add([readingDraft(5)], survey);
    const before = store.entries;
    await store.readAgain();
    expect(store.entries).toBe(before);
    expect(store.entries[0]).toBe(entry);
  });
});

describe('fix, strike, undo and redo', () => {
  test('a fix stands in the place of the slip, and its undo brings the slip back', async () => {
    const store = new Machine().tab().store();
    await store.ready;
    const [slip] = await store.add([readingDraft(4)], survey);
    const fixed = await store.fix(slip._id, readingDraft(9), 'slip of the pen');
    expect(gapsIn(store)).toEqual([9]);
    expect(fixed).toMatchObject({ strikes: [{ entry: slip._id }], why: 'slip of the pen' });
    await store.fix(fixed._id, readingDraft(8));
    expect(gapsIn(store)).toEqual([8]);
    await store.undo();
    expect(gapsIn(store)).toEqual([9]);
    await store.undo();
    expect(gapsIn(store)).toEqual([4]);
  });

  test('undo walks back and redo forward, also after a reload', async () => {
    const machine = new Machine();
    const first = machine.tab().store();
    await first.ready;
    for (const mm of [1, 2, 3]) await first.add([readingDraft(mm)], survey);
    await first.undo();
    await first.undo();
    expect(gapsIn(first)).toEqual([1]);
    first.close();
    const second = machine.tab().store();
    await second.ready;
    await second.redo();
    expect(gapsIn(second)).toEqual([1, 2]);
    await second.undo();
    await second.redo();
    await second.redo();
    expect(gapsIn(second)).toEqual([1, 2, 3]);
    expect(await second.redo()).toBeUndefined();
  });

  test('after something new was stated there is nothing to redo', async () => {
    const store = new Machine().tab().store();
    await store.ready;
    await store.add([readingDraft(1)], survey);
    await store.undo();
    await store.add([readingDraft(2)], survey);
    expect(store.steps.redo).toBeUndefined();
    expect(await store.redo()).toBeUndefined();
    expect(gapsIn(store)).toEqual([2]);
  });

  test('undo takes back what one act stated together, and a survey leaves no trace in the list', async () => {
    const store = new Machine().tab().store();
    await store.ready;
    await store.add([hullDraft('Dunlin (invented)')]);
    await store.add([surveyDraft(), readingDraft(1), readingDraft(2)], survey);
    await store.undo();
    expect(store.surveys).toEqual([]);
    expect(store.hull.hull?.name).toBe('Dunlin (invented)');
    await store.redo();
    expect(gapsIn(store)).toEqual([1, 2]);
  });

  test('undo takes back only what this device stated', async () => {
    const machine = new Machine();
    const [mine, other] = [machine.tab('Tablet 1').store(), machine.tab('Tablet 2').store()];
    await mine.ready;
    await mine.add([readingDraft(1)], survey);
    await other.add([readingDraft(2)], survey);
    await until(() => mine.entries.length === 2);
    await mine.undo();
    expect(gapsIn(mine)).toEqual([2]);
    expect(await mine.undo()).toBeUndefined();
  });

  test('a strike that a person meant can be undone like any statement', async () => {
    const store = new Machine().tab().store();
    await store.ready;
    const [entry] = await store.add([readingDraft(1)], survey);
    await store.strike(entry._id, 'wrong line');
    expect(gapsIn(store)).toEqual([]);
    await store.undo();
    expect(gapsIn(store)).toEqual([1]);
  });

  test('a row of an import is struck by its place, and the rest of the import stands', async () => {
    const store = new Machine().tab().store();
    const [, entry] = await store.add(
      [
        surveyDraft(),
        draftOf('import', {
          mapping: {},
          units: {},
          count: 2,
          placements: ['placement'],
          columns: ['act', 'placement', 'station', 'station text', 'gap', 'gap text'],
          rows: [
            ['reading', 0, 0, '0', 1, '1'],
            ['reading', 0, 100, '100', 2, '2'],
          ],
        }),
      ],
      survey,
    );
    await store.strike(`${entry._id}#1`);
    await store.strike(entry._id, 'misread', 0);
    expect(store.standing.struckRows.get(entry._id)).toEqual([0, 1]);
    expect(store.standing.standing.map(({ _id }) => _id)).toContain(entry._id);
    await expect(store.strike(`${entry._id}#x`)).rejects.toThrow(RangeError);
    await expect(store.strike('nobody')).rejects.toThrow(RangeError);
  });
});

describe('a full disk', () => {
  test('is told, keeps what was stated in memory, and is got over by itself on a new handle', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const store = tab.store();
    await store.ready;
    await store.add([readingDraft(1)], survey);
    machine.full = true;
    const added = store.add([readingDraft(2)], survey);
    await until(() => !machine.reserve);
    await until(() => store.saving.failure?.kind === 'full');
    expect(store.saving.failure?.words).toBe('This device has no room left.');
    expect(gapsIn(store)).toEqual([1, 2]);
    expect(store.saving.pending).toBe(1);
    const later = store.add([readingDraft(3)], survey);
    expect(store.saving.pending).toBe(2);
    machine.full = false;
    await until(() => {
      tab.pass(60_000);
      return store.saving.pending === 0;
    });
    await Promise.all([added, later]);
    expect(store.saving.failure).toBeUndefined();
    expect(machine.opened.length).toBeGreaterThan(1);
    const { rows } = await machine
      .raw(hullDatabase(HULL))
      .allDocs({ include_docs: true, conflicts: true });
    expect(rows).toHaveLength(3);
  });

  test('is got over by hand, and the promise made then is kept', async () => {
    const machine = new Machine();
    const store = machine.tab().store();
    await store.ready;
    machine.full = true;
    const added = store.add([readingDraft(2)], survey);
    await until(() => !machine.reserve);
    expect(await store.retry()).toBe(false);
    machine.full = false;
    await until(() => store.retry());
    expect((await added)[0]).toMatchObject({ kind: 'reading' });
    expect(store.saving.pending).toBe(0);
  });

  test('is tried again at once when the page comes to be seen, whatever pause it was in', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const store = tab.store();
    await store.ready;
    machine.full = true;
    const added = store.add([readingDraft(2)], survey);
    await until(() => !machine.reserve);
    expect(await store.retry()).toBe(false);
    machine.full = false;
    tab.see();
    await added;
    await until(() => store.saving.failure === undefined);
  });

  test('what was not saved when the hull is closed is refused, never said to be kept', async () => {
    const machine = new Machine();
    const store = machine.tab().store();
    await store.ready;
    machine.full = true;
    const added = store.add([readingDraft(2)], survey);
    store.close();
    await expect(added).rejects.toThrow('closed');
  });
});

describe('what cannot be counted', () => {
  test('a document that is no entry is set aside with the reason, and the rest is read', async () => {
    const machine = new Machine();
    const raw = machine.raw(hullDatabase(HULL));
    await raw.put({ _id: 'nonsense', hello: 1 });
    await raw.put({ _id: '_design/any', views: {} });
    await machine
      .tab()
      .store()
      .add([readingDraft(1)], survey);
    const store = machine.tab().store();
    await store.ready;
    expect(gapsIn(store)).toEqual([1]);
    expect(store.setAside.map(({ id }) => id)).toContain('nonsense');
    expect(store.setAside.map(({ id }) => id)).not.toContain('_design/any');
  });

  test('an id with two contents, one of them a conflict in the database, shows both', async () => {
    const machine = new Machine();
    const store = machine.tab().store();
    await store.ready;
    const [entry] = await store.add([readingDraft(1)], survey);
    const twin = { ...entry, body: { ...(entry.body as object), note: 'another' } };
    const { writeEntries } = await import('../../../web/store/entryStore.ts');
    const raw = machine.raw(hullDatabase(HULL));
    const random = (length: number): Uint8Array => new Uint8Array(length).fill(7);
    expect(await writeEntries(raw, [twin, entry], random)).toEqual({
      fresh: [],
      same: [entry._id],
      disputed: [entry._id],
    });
    expect(await writeEntries(raw, [twin], random)).toMatchObject({ same: [entry._id] });
    await until(() => store.entries.length === 2);
    expect(store.standing.setAside).toMatchObject([{ id: entry._id, reason: 'two contents' }]);
    expect(gapsIn(store)).toEqual([]);
    const again = machine.tab().store();
    await again.ready;
    expect(again.standing.setAside[0].contents).toHaveLength(2);
  });

  test('a database that does not open is told, and a later try opens it', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    let broken = true;
    const { open } = tab.around;
    const { Handles } = await import('../../../web/store/handles.ts');
    const { HullStore } = await import('../../../web/store/hullStore.svelte.ts');
    const handles = new Handles((name) => {
      const database = open(name);
      if (!broken) return database;
      const info = () => Promise.reject(new Error('it is gone'));
      return new Proxy(database, {
        get: (target, key) => (key === 'info' ? info : (Reflect.get(target, key) as unknown)),
      });
    }, tab.around.after);
    const store = new HullStore({ hull: HULL, around: tab.around, handles });
    await store.ready;
    expect(store.state).toBe('failed');
    expect(store.failure?.detail).toContain('it is gone');
    broken = false;
    await until(() => store.retry());
    expect(store.state).toBe('ready');
    expect(store.failure).toBeUndefined();
  });
});
