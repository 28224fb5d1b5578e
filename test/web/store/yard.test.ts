import { describe, expect, test } from 'vitest';

import { bookOf, entriesOf } from '../../../src/book/book.ts';
import { canonical } from '../../../src/book/canonical.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../../src/book/writeEntryFile.ts';
import { hullDatabase, SUMMARIES } from '../../../web/store/database.ts';
import { RestoreDesk } from '../../../web/parts/restoreDesk.svelte.ts';
import { demoEntries } from '../../../web/store/demo.ts';
import { DEMO_HULL, DEMO_SURVEY, isDemo } from '../../../web/store/demoHull.ts';
import { factsOf } from '../../../web/store/summary.ts';
import { Yard } from '../../../web/store/yard.svelte.ts';
import {
  gapsIn,
  HULL,
  Machine,
  readingDraft,
  SURVEY,
  surveyDraft,
  until,
  type Tab,
} from './around.ts';

function yardOn(tab: Tab, engine = '1'): Yard {
  return new Yard({
    around: tab.around,
    engine,
    rescue: () => Promise.reject(new Error('nothing to rescue')),
  });
}

function sorted(entries: readonly Entry[]): string {
  return canonical(entriesOf(bookOf(entries)));
}

/** Lets the yard work out what it has to. */
async function settled(tab: Tab, yard: Yard): Promise<void> {
  await until(() => {
    tab.pass(5_000);
    return yard.hulls.length > 0 && yard.hulls.every(({ dirty }) => !dirty);
  });
}

describe('the list of hulls', () => {
  test('is empty on a new device', async () => {
    const yard = yardOn(new Machine().tab());
    await yard.ready;
    expect(yard.state).toBe('ready');
    expect(yard.hulls).toEqual([]);
  });

  test('shows a new hull by its name at once, and its last survey when that is worked out', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const yard = yardOn(tab);
    await yard.ready;
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    await until(() => yard.hulls.length === 1);
    expect(yard.hulls).toMatchObject([{ hull, name: 'Turnstone (invented)', dirty: true }]);
    await yard.open(hull).add([surveyDraft()], { survey: SURVEY });
    await until(() => {
      tab.pass(5_000);
      return yard.hulls[0].surveys === 1 && !yard.hulls[0].dirty;
    });
    expect(yard.hulls).toMatchObject([
      {
        name: 'Turnstone (invented)',
        entries: 2,
        surveys: 1,
        lastSurvey: { key: SURVEY, date: '2026-05-04' },
        verdict: [],
        engine: '1',
      },
    ]);
  });

  test('is marked before the first entry of a session is written', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const yard = yardOn(tab);
    await yard.ready;
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    await settled(tab, yard);
    const summaries = machine.raw(SUMMARIES);
    expect(await summaries.get(hull)).toMatchObject({ dirty: false });
    await yard.open(hull).add([surveyDraft()], { survey: SURVEY });
    expect(await summaries.get(hull)).toMatchObject({ dirty: true });
    await until(() => {
      tab.pass(5_000);
      return yard.hulls[0].surveys === 1;
    });
  });

  test('is the same in another tab, whichever works it out', async () => {
    const machine = new Machine();
    const [tab, other] = [machine.tab('Tablet 1'), machine.tab('Tablet 2')];
    const [yard, twin] = [yardOn(tab), yardOn(other)];
    await Promise.all([yard.ready, twin.ready]);
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    await until(() => twin.hulls.length === 1);
    await twin.open(hull).add([surveyDraft()], { survey: SURVEY });
    await until(() => {
      other.pass(5_000);
      return [yard, twin].every(({ hulls: [first] }) => first.surveys === 1 && !first.dirty);
    });
    expect(yard.hulls).toEqual(twin.hulls);
  });

  test('can be thrown away: it is made again from the databases that are there', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const yard = yardOn(tab);
    await yard.ready;
    await yard.newHull({ name: 'Turnstone (invented)' });
    await yard.newHull({ name: 'Dunlin (invented)' });
    await settled(tab, yard);
    const before = yard.hulls;
    yard.close();
    await machine.raw(SUMMARIES).destroy();
    const again = yardOn(tab);
    await again.ready;
    await until(() => again.hulls.length === 2);
    await settled(tab, again);
    expect(again.hulls).toEqual(before);
    await again.rebuild();
    expect(again.hulls.map(({ name }) => name)).toEqual([
      'Dunlin (invented)',
      'Turnstone (invented)',
    ]);
  });

  test('is worked out again by another version of the app, and where a summary cannot be read', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const yard = yardOn(tab);
    await yard.ready;
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    await settled(tab, yard);
    yard.close();
    const newer = yardOn(tab, '2');
    await newer.ready;
    await until(() => {
      tab.pass(5_000);
      return newer.hulls[0]?.engine === '2';
    });
    newer.close();
    const summaries = machine.raw(SUMMARIES);
    const { _rev } = await summaries.get(hull);
    await summaries.put({ _id: hull, _rev: _rev ?? '', name: ['nonsense'], verdict: 3 });
    const last = yardOn(tab, '2');
    await last.ready;
    await settled(tab, last);
    expect(last.hulls).toMatchObject([{ name: 'Turnstone (invented)', entries: 1 }]);
  });

  test('fails with words where its database does not answer, and opens by a later try', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    let broken = true;
    const open = (name: string): ReturnType<Machine['open']> => {
      const database = machine.open(name);
      const info = () => Promise.reject(new DOMException('no', 'SecurityError'));
      return broken
        ? new Proxy(database, {
            get: (target, key) => (key === 'info' ? info : (Reflect.get(target, key) as unknown)),
          })
        : database;
    };
    const yard = new Yard({
      around: { ...tab.around, open },
      engine: '1',
      rescue: () => Promise.resolve(''),
    });
    await yard.ready;
    expect(yard.state).toBe('failed');
    expect(yard.failure?.kind).toBe('blocked');
    broken = false;
    await yard.retry();
    expect(yard.state).toBe('ready');
    expect(yard.failure).toBeUndefined();
  });
});

describe('removing a hull', () => {
  test('destroys its database and takes it from the list, also in another tab', async () => {
    const machine = new Machine();
    const [yard, twin] = [yardOn(machine.tab()), yardOn(machine.tab())];
    await Promise.all([yard.ready, twin.ready]);
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    const elsewhere = twin.open(hull);
    await elsewhere.ready;
    await yard.remove(hull);
    await until(() => yard.hulls.length === 0 && twin.hulls.length === 0);
    await until(() => elsewhere.state === 'removed');
    expect(machine.names()).not.toContain(hullDatabase(hull));
    await expect(elsewhere.add([readingDraft(1)], { survey: SURVEY })).rejects.toThrow('closed');
  });

  test('that was broken off is finished by the next start', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const yard = yardOn(tab);
    await yard.ready;
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    yard.close();
    const summaries = machine.raw(SUMMARIES);
    await summaries.put({ ...(await summaries.get(hull)), removing: true });
    const next = yardOn(tab);
    await next.ready;
    expect(next.hulls).toEqual([]);
    await until(() => {
      tab.pass(5_000);
      return !machine.names().includes(hullDatabase(hull));
    });
  });
});

describe('the demo hull', () => {
  test('is a scenario of our own, marked as invented, with every reading of its sheet', () => {
    const entries = demoEntries();
    const facts = factsOf(entries);
    expect(facts).toMatchObject({
      name: 'Marsh Heron (invented)',
      invented: true,
      surveys: 1,
      lastSurvey: { key: DEMO_SURVEY },
    });
    // Counted in the file: 14 stations on 6 lines, one cell blank.
    expect(entries.filter(({ kind }) => kind === 'reading')).toHaveLength(14 * 6 - 1);
    expect(facts.verdictFailure).toBeUndefined();
    expect(facts.verdict.reduce((sum, { lines }) => sum + lines, 0)).toBe(6);
    expect(facts.verdict[0].word).toBe('Hook');
    expect(isDemo(DEMO_HULL)).toBe(true);
  });

  test('is made once, however often and in however many tabs it is opened', async () => {
    const machine = new Machine();
    const [tab, other] = [machine.tab(), machine.tab('Tablet 2')];
    const [yard, twin] = [yardOn(tab), yardOn(other)];
    await Promise.all([yard.openDemo(), twin.openDemo()]);
    const hull = await yard.openDemo();
    const store = yard.open(hull);
    expect(sorted(store.entries) === sorted(demoEntries())).toBe(true);
    await until(() => yard.hulls.length === 1);
    expect(yard.hulls).toMatchObject([{ name: 'Marsh Heron (invented)', invented: true }]);
    expect(store.setAside).toEqual([]);
    expect(store.survey(DEMO_SURVEY)?.lines).toHaveLength(6);
  });

  test('keeps what was tried on it when it is opened again, and begins anew once removed', async () => {
    const machine = new Machine();
    const yard = yardOn(machine.tab());
    const hull = await yard.openDemo();
    const [first] = yard.open(hull).entries.filter(({ kind }) => kind === 'reading');
    await yard.open(hull).strike(first._id);
    await yard.openDemo();
    expect(yard.open(hull).standing.struck).toHaveLength(1);
    await yard.remove(hull);
    await until(() => yard.hulls.length === 0);
    await yard.openDemo();
    expect(yard.open(hull).standing.struck).toHaveLength(0);
  });
});

/** Entry files looked at as a person does, before anything of them is kept. */
async function lookedAt(
  yard: Yard,
  files: readonly { readonly name: string; readonly text: string }[],
): Promise<RestoreDesk> {
  const desk = new RestoreDesk(yard);
  await desk.look(files.map(({ name, text }) => new File([text], name)));
  return desk;
}

/** One of them looked at and taken in. */
async function takenIn(yard: Yard, text: string): Promise<RestoreDesk> {
  const desk = await lookedAt(yard, [{ name: 'entries.txt', text }]);
  await desk.restore();
  return desk;
}

describe('entry files', () => {
  test('written on one device and read on another give the same entries, and again change nothing', async () => {
    const [tab, other] = [new Machine().tab(), new Machine().tab('Tablet 2')];
    const [from, to] = [yardOn(tab), yardOn(other)];
    await Promise.all([from.ready, to.ready]);
    const hull = await from.newHull({ name: 'Turnstone (invented)' });
    await from.open(hull).add([surveyDraft(), readingDraft(0)], { survey: SURVEY });
    const file = await from.records.entryFile(hull);
    const store = to.open(hull);
    await store.ready;
    const brought = await takenIn(to, file);
    const named = { hull, name: 'Turnstone (invented)' };
    const nothingElse = { same: 0, disputed: 0, files: 0, beside: 0, loose: 0 };
    expect(brought.restored).toEqual([{ ...named, fresh: 3, ...nothingElse }]);
    expect(sorted(store.entries)).toBe(sorted(from.open(hull).entries));
    expect((await takenIn(to, file)).restored).toMatchObject([{ fresh: 0, same: 3 }]);
    expect(await to.records.entryFile(hull)).toBe(file);
    await until(() => to.hulls.length === 1);
    expect(to.hulls[0].name).toBe('Turnstone (invented)');
  });

  test('carry attachments, which are kept once', async () => {
    const yard = yardOn(new Machine().tab());
    await yard.ready;
    const [entry] = demoEntries();
    const photo = { entry: entry._id, name: 'photo 1', type: 'image/png', base64: 'AAEC' };
    const stray = { ...photo, entry: entry._id.replace(/.$/, 'z') };
    const file = writeEntryFile(bookOf([entry]), [photo, stray]);
    expect((await takenIn(yard, file)).restored).toMatchObject([{ fresh: 1, files: 1, loose: 1 }]);
    expect((await takenIn(yard, file)).restored).toMatchObject([{ same: 1, files: 0 }]);
    const { attachments, book } = readEntryFile(await yard.records.entryFile(DEMO_HULL));
    expect(attachments).toEqual([photo]);
    expect(book.entries.size).toBe(1);
  });

  test('that bring another file under a name that is here keep both, in either order, and tell', async () => {
    const [entry] = demoEntries();
    const mine = { entry: entry._id, name: 'photo 1', type: 'image/png', base64: 'AAEC' };
    const files = [mine, { ...mine, base64: 'AAED' }].map((attachment, nth) => ({
      name: `${nth}.txt`,
      text: writeEntryFile(bookOf([entry]), [attachment]),
    }));
    const together = await Promise.all(
      [files, files.toReversed()].map(async (both) => {
        const yard = yardOn(new Machine().tab());
        await yard.ready;
        const desk = await lookedAt(yard, both);
        await desk.restore();
        expect(desk.restored).toMatchObject([{ fresh: 1, files: 2, beside: 1 }]);
        return yard.records.entryFile(DEMO_HULL);
      }),
    );
    expect(together[0]).toBe(together[1]);
    const { attachments } = readEntryFile(together[0]);
    expect(attachments.map(({ base64 }) => base64).sort()).toEqual(['AAEC', 'AAED']);
    expect(attachments[1].name).toMatch(/^photo 1 \(another, [0-9a-f]{16}\)$/);

    const yard = yardOn(new Machine().tab());
    await yard.ready;
    const brought: (object | undefined)[] = [];
    for (const { text } of [...files, ...files]) {
      brought.push((await takenIn(yard, text)).restored?.[0]);
    }
    expect(brought).toMatchObject([
      { files: 1, beside: 0 },
      { files: 1, beside: 1 },
      { files: 0, beside: 0 },
      { files: 0, beside: 0 },
    ]);
  });

  test('that are damaged tell where, and bring what can be read', async () => {
    const yard = yardOn(new Machine().tab());
    await yard.ready;
    const file = writeEntryFile(bookOf(demoEntries()));
    const lines = file.split('\n');
    lines[3] = lines[3].replace('mm', 'mn');
    const desk = await lookedAt(yard, [{ name: 'a.txt', text: lines.join('\n') }]);
    expect(desk.preview?.files[0].faults[0]).toMatchObject({ row: 4, column: 'crc' });
    expect(desk.preview?.files[0].unread).toHaveLength(1);
    await desk.restore();
    expect(desk.restored).toMatchObject([{ fresh: demoEntries().length - 1 }]);
  });

  test.each([
    ['nothing', ''],
    ['a picture', '\u0089PNG\r\n\u0000\u0000'],
    ['another program’s JSON', '{"boats":[{"name":"x"}]}'],
  ])('that are %s bring no hull, and say why', async (_, text) => {
    const machine = new Machine();
    const yard = yardOn(machine.tab());
    await yard.ready;
    const desk = await lookedAt(yard, [{ name: 'a.txt', text }]);
    expect(desk.preview?.hulls).toEqual([]);
    expect(desk.preview?.files[0].faults.length).toBeGreaterThan(0);
    await desk.restore();
    expect(yard.hulls).toEqual([]);
    expect(machine.names()).toEqual([SUMMARIES]);
  });

  test('whose entries say nothing that a hull can be are kept, and shown as set aside', async () => {
    const tab = new Machine().tab();
    const yard = yardOn(tab);
    await yard.ready;
    const [entry] = demoEntries();
    const hostile = { ...entry, body: { name: { toString: 'x' }, constructor: 1 } };
    await takenIn(yard, writeEntryFile(bookOf([hostile])));
    await settled(tab, yard);
    expect(yard.hulls).toMatchObject([{ hull: DEMO_HULL, entries: 1 }]);
    const store = yard.open(DEMO_HULL);
    await store.ready;
    expect(store.setAside.map(({ id }) => id)).toEqual([entry._id]);
  });

  test('met by a full disk say how far they got, and the same file is taken whole later', async () => {
    const machine = new Machine();
    const yard = yardOn(machine.tab());
    await yard.ready;
    const file = writeEntryFile(bookOf(demoEntries()));
    machine.full = true;
    expect((await takenIn(yard, file)).problem).toMatch(/no room left.*0 of 1 hulls/);
    machine.full = false;
    const again = yardOn(machine.tab());
    await again.ready;
    expect((await takenIn(again, file)).restored).toMatchObject([{ fresh: demoEntries().length }]);
  });

  test('are looked at before anything is kept: no database, no hull, no entry comes of it', async () => {
    const machine = new Machine();
    const yard = yardOn(machine.tab());
    await yard.ready;
    const demo = demoEntries();
    const stranger = demo.map((entry) => ({
      ...entry,
      _id: entry._id.replace(/^.{12}/, HULL),
    }));
    const files = [
      { name: 'a.txt', text: writeEntryFile(bookOf(demo)) },
      { name: 'b.txt', text: writeEntryFile(bookOf(stranger)) },
      { name: 'c.txt', text: 'not it' },
    ];
    const desk = await lookedAt(yard, files);
    expect(desk.preview?.hulls).toMatchObject([
      { hull: DEMO_HULL, isHere: false },
      { hull: HULL, isHere: false },
    ]);
    expect(desk.preview?.files.map(({ name, hulls }) => [name, hulls.length])).toEqual([
      ['a.txt', 1],
      ['b.txt', 1],
      ['c.txt', 0],
    ]);
    expect(sorted((await desk.toRead(HULL))?.entries ?? [])).toBe(sorted(stranger));
    expect(machine.names()).toEqual([SUMMARIES]);
    expect(yard.hulls).toEqual([]);

    await desk.restore();
    expect(desk.restored).toMatchObject([{ fresh: demo.length }, { fresh: demo.length }]);
    const again = await lookedAt(yard, [files[0]]);
    const [entry] = demo;
    expect(again.preview?.hulls).toMatchObject([{ isHere: true, fresh: 0, same: demo.length }]);
    const toRead = await again.toRead(DEMO_HULL);
    expect(sorted(toRead?.here ?? [])).toBe(sorted(demo));
    expect(toRead?.name).toBe((entry.body as { readonly name: string }).name);
  });

  test('of two people come to the same hull, whichever is taken first, alone or together', async () => {
    const demo = demoEntries();
    const [first, second, ...rest] = demo;
    const clash = { ...second, by: 'Kim (invented)' };
    const strike = {
      ...clash,
      _id: second._id.replace(/.$/, 'z'),
      strikes: [{ entry: first._id }],
    };
    const one = { name: 'one', text: writeEntryFile(bookOf([first, second, ...rest.slice(0, 5)])) };
    const other = { name: 'two', text: writeEntryFile(bookOf([first, clash, strike])) };
    const kept: string[] = [];
    for (const turns of [
      [[one], [other]],
      [[other], [one]],
      [[one, other]],
      [[other], [one, other]],
    ]) {
      const yard = yardOn(new Machine().tab());
      await yard.ready;
      for (const files of turns) {
        const desk = await lookedAt(yard, files);
        expect(desk.preview?.hulls).toHaveLength(1);
        await desk.restore();
      }
      kept.push(await yard.records.entryFile(DEMO_HULL));
    }
    expect(new Set(kept).size).toBe(1);
    expect([...readEntryFile(kept[0]).book.conflicts.keys()]).toEqual([second._id]);
  });

  test('hold what waits to be saved, which keeps the hull open', async () => {
    const machine = new Machine();
    const yard = yardOn(machine.tab());
    await yard.ready;
    const hull = await yard.newHull({ name: 'Turnstone (invented)' });
    const store = yard.open(hull);
    await store.ready;
    machine.full = true;
    const reading = { ...readingDraft(7), ref: 'with a photo' };
    const photo = { name: 'photo 1', type: 'image/png', data: new Blob([Uint8Array.of(0, 1, 2)]) };
    const files = new Map([[reading.ref, photo]]);
    const added = store.add([surveyDraft(), reading], { survey: SURVEY, files });
    added.catch(() => undefined);
    await until(() => !machine.reserve);
    await until(() => store.saving.failure !== undefined);
    expect(gapsIn(store)).toEqual([7]);
    expect(yard.pending).toBe(2);
    const file = readEntryFile(await yard.records.entryFile(hull));
    expect(file.book.entries.size).toBe(3);
    expect(file.attachments).toMatchObject([{ name: 'photo 1', base64: 'AAEC' }]);
    const parts: object[] = [];
    for await (const piece of yard.records.pieces(hull)) if (piece.is === 'part') parts.push(piece);
    expect(parts).toMatchObject([{ part: { name: 'photo 1', base64: 'AAEC' } }]);
    yard.release(hull);
    expect(store.state).not.toBe('closed');
    yard.close();
    await expect(added).rejects.toThrow('closed');
  });

  test('come past a database that does not open, with what this tab knows', async () => {
    const machine = new Machine();
    const tab = machine.tab();
    const demo = demoEntries();
    const open = (name: string): ReturnType<Machine['open']> =>
      new Proxy(machine.open(name), {
        get: (target, key) =>
          name !== SUMMARIES && (key === 'allDocs' || key === 'bulkDocs')
            ? () => Promise.reject(new Error('it is gone'))
            : (Reflect.get(target, key) as unknown),
      });
    const yard = new Yard({
      around: { ...tab.around, open },
      engine: '1',
      rescue: (hull) =>
        hull === DEMO_HULL
          ? Promise.resolve(writeEntryFile(bookOf(demo)))
          : Promise.reject(new Error('there is no such database')),
    });
    const added = yard.open(DEMO_HULL).add([readingDraft(7)], { survey: DEMO_SURVEY });
    added.catch(() => undefined);
    const { book } = readEntryFile(await yard.records.entryFile(DEMO_HULL));
    expect(book.entries.size).toBe(demo.length + 1);
    await expect(yard.records.entryFile(HULL)).rejects.toThrow('no such database');
    yard.close();
  });
});
