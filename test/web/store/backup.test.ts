import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';

import { bookOf, entriesOf } from '../../../src/book/book.ts';
import { canonical } from '../../../src/book/canonical.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../../src/book/writeEntryFile.ts';
import { BackupLog } from '../../../web/store/backup/backups.svelte.ts';
import { fileLines } from '../../../web/store/backup/fileLines.ts';
import { compared, entriesAt, restoreHull } from '../../../web/store/backup/restore.ts';
import { scanFile, type ScannedFile } from '../../../web/store/backup/scanFile.ts';
import { Stopped, writeBackup, type BackupWritten } from '../../../web/store/backup/writeBackup.ts';
import { hullDatabase } from '../../../web/store/database.ts';
import { demoEntries } from '../../../web/store/demo.ts';
import { DEMO_HULL } from '../../../web/store/demoHull.ts';
import { Yard } from '../../../web/store/yard.svelte.ts';
import { anyAttachments, anyBook } from '../../book/samples.ts';
import { HULL, Machine, readingDraft, SURVEY, surveyDraft } from './around.ts';

const pause = () => Promise.resolve();
const calmly = { pause, progress: () => undefined, stopped: () => false };
const scanned = (text: string) => scanFile(new Blob([text]), calmly);
const PHOTO = 'photo, of 2 MB';

function yardOn(machine: Machine): Yard {
  return new Yard({
    around: machine.tab().around,
    engine: '1',
    rescue: () => Promise.reject(new Error('nothing to rescue')),
  });
}

async function backupOf(yard: Yard): Promise<{ text: string; written: BackupWritten }> {
  const pieces: string[] = [];
  const written = await writeBackup({
    hulls: await yard.hullsToBackUp(),
    record: (hull) => yard.records.pieces(hull),
    write: (text) => Promise.resolve(void pieces.push(text)),
    ...calmly,
  });
  return { text: pieces.join(''), written };
}

/** Two hulls, one with a survey and a photo of more than one line. */
async function twoHulls(): Promise<{ yard: Yard; machine: Machine; hulls: readonly string[] }> {
  const machine = new Machine();
  const yard = yardOn(machine);
  await yard.ready;
  const hulls = [
    await yard.newHull({ name: 'Turnstone (invented)' }),
    await yard.newHull({ name: 'Knot (invented)' }),
  ];
  const store = yard.open(hulls[0]);
  await store.ready;
  const [first] = await store.add([surveyDraft(), readingDraft(7)], { survey: SURVEY });
  const base64 = Buffer.alloc(2_000_000, 'invented ').toString('base64');
  await yard.takeIn([
    {
      hull: hulls[0],
      entries: [],
      attachments: [{ entry: first._id, name: PHOTO, type: 'image/jpeg', base64 }],
    },
  ]);
  return { yard, machine, hulls };
}

async function restored(yard: Yard, { hulls }: ScannedFile) {
  const done = [];
  for (const hull of hulls) {
    done.push(await restoreHull(hull, (parts) => yard.takeIn(parts), pause));
  }
  return done;
}

async function previewed(yard: Yard, { hulls }: ScannedFile) {
  return Promise.all(hulls.map(async (hull) => compared(hull, await yard.contents(hull.hull))));
}

const whole = (entries: readonly Entry[]): string => canonical(entriesOf(bookOf(entries)));

describe('the backup of a yard', () => {
  test('is one entry file of every hull with its files, in pieces of a few MB at most', async () => {
    const { yard, hulls } = await twoHulls();
    await yard.openDemo();
    const lengths: number[] = [];
    const pieces: string[] = [];
    let breaths = 0;
    const written = await writeBackup({
      hulls: await yard.hullsToBackUp(),
      record: (hull) => yard.records.pieces(hull),
      write: (text) => {
        lengths.push(text.length);
        return Promise.resolve(void pieces.push(text));
      },
      ...calmly,
      pause: () => Promise.resolve(void (breaths += 1)),
    });
    const read = readEntryFile(pieces.join(''));
    expect(read.faults).toEqual([]);
    expect(new Set([...read.book.entries.keys()].map((id) => id.slice(0, 12)))).toEqual(
      new Set(hulls),
    );
    expect(read.attachments).toMatchObject([{ name: PHOTO, type: 'image/jpeg' }]);
    expect(Buffer.from(read.attachments[0].base64, 'base64')).toHaveLength(2_000_000);
    expect(Math.max(...lengths)).toBeLessThan(2_100_000);
    expect(breaths).toBe(lengths.length);
    expect(written).toMatchObject({ hulls: 2, of: 2, entries: 4, files: 1, leftOut: [] });
    expect(Object.fromEntries(written.entriesOf)).toEqual({ [hulls[0]]: 3, [hulls[1]]: 1 });
  });

  test('stops when it is told to', async () => {
    const { yard } = await twoHulls();
    const stopping = writeBackup({
      hulls: await yard.hullsToBackUp(),
      record: (hull) => yard.records.pieces(hull),
      write: pause,
      ...calmly,
      stopped: () => true,
    });
    await expect(stopping).rejects.toThrow(Stopped);
  });

  test('names what could not be read, and holds the rest', async () => {
    const { yard, machine, hulls } = await twoHulls();
    await machine.raw(hullDatabase(hulls[1])).put({ _id: 'scribble', words: 'no entry' });
    const named = await yard.hullsToBackUp();
    const written = await writeBackup({
      hulls: named,
      record: async function* (hull) {
        if (hull === hulls[0]) throw new Error('the database is gone');
        yield* yard.records.pieces(hull);
      },
      write: pause,
      ...calmly,
    });
    expect(written.leftOut).toEqual([
      expect.stringMatching(/^Knot .*: scribble, which is no entry/),
      'Turnstone (invented): the database is gone',
    ]);
    expect([...written.entriesOf.keys()]).toEqual([hulls[1]]);
  });

  test('holds a hull whose database does not open, read past it', async () => {
    const machine = new Machine();
    const { around } = machine.tab();
    const open = (name: string): ReturnType<Machine['open']> =>
      new Proxy(machine.open(name), {
        get: (target, key) =>
          name === hullDatabase(HULL) && key === 'allDocs'
            ? () => Promise.reject(new Error('it is gone'))
            : (Reflect.get(target, key) as unknown),
      });
    const entries = demoEntries().map((entry) => ({
      ...entry,
      _id: entry._id.replace(DEMO_HULL, HULL),
    }));
    const rescue = () => Promise.resolve(writeEntryFile(bookOf(entries)));
    const yard = new Yard({ around: { ...around, open }, engine: '1', rescue });
    machine.raw(hullDatabase(HULL));
    const { text, written } = await backupOf(yard);
    expect(written.leftOut).toEqual([]);
    expect(whole(entriesOf(readEntryFile(text).book))).toBe(whole(entries));
  });
});

describe('restoring', () => {
  test('onto an empty device brings everything, and a second time nothing', async () => {
    const from = await twoHulls();
    const { text } = await backupOf(from.yard);
    const yard = yardOn(new Machine());
    await yard.ready;
    const scan = await scanned(text);
    expect(scan).toMatchObject({ faults: [], unread: [] });
    expect(scan.hulls.map(({ named }) => named?.name).sort()).toEqual([
      'Knot (invented)',
      'Turnstone (invented)',
    ]);
    expect(await previewed(yard, scan)).toMatchObject(
      scan.hulls.map(({ entries, files }) => ({
        isHere: false,
        fresh: entries.length,
        same: 0,
        freshFiles: files.length,
      })),
    );
    expect(yard.hulls).toEqual([]);
    const done = await restored(yard, scan);
    expect(done.reduce((sum, { files }) => sum + files, 0)).toBe(1);
    const again = await previewed(yard, scan);
    expect(again.every(({ fresh, freshFiles }) => fresh === 0 && freshFiles === 0)).toBe(true);
    expect(again.reduce((sum, { sameFiles }) => sum + sameFiles, 0)).toBe(1);
    expect((await backupOf(yard)).text).toBe(text);
  });

  test('onto a device that has gone on loses nothing of either', async () => {
    const { yard, hulls } = await twoHulls();
    const { text } = await backupOf(yard);
    const other = new Machine();
    const there = yardOn(other);
    await there.ready;
    await restored(there, await scanned(text));
    const store = there.open(hulls[0]);
    await store.ready;
    await store.add([readingDraft(9)], { survey: SURVEY });
    const struck = yard.open(hulls[0]);
    const reading = struck.entries.find(({ kind }) => kind === 'reading');
    await struck.strike(reading?._id ?? '');
    const clash = yard.open(hulls[1]).entries[0];
    const theirs = { ...clash, body: { name: 'Dunlin (invented)' } };
    await there.takeIn([{ hull: hulls[1], entries: [theirs], attachments: [] }]);
    const before = { ...(await there.contents(hulls[0])) };

    const later = await scanned((await backupOf(yard)).text);
    const byHull = new Map((await previewed(there, later)).map((each) => [each.hull, each]));
    expect(byHull.get(hulls[0])).toMatchObject({
      isHere: true,
      fresh: 1,
      same: 3,
      struck: 1,
      sameFiles: 1,
      freshFiles: 0,
    });
    expect(byHull.get(hulls[1])).toMatchObject({ same: 1, fresh: 0, disputed: 0 });
    await restored(there, later);
    const after = await there.contents(hulls[0]);
    expect(whole(after?.entries ?? [])).toBe(whole([...(before.entries ?? []), ...struck.entries]));
    expect((await there.contents(hulls[1]))?.entries).toHaveLength(2);
  });

  test('tells of an id with another content, and of a file with another length', async () => {
    const { yard, hulls } = await twoHulls();
    const { text } = await backupOf(yard);
    const read = readEntryFile(text);
    const entries = entriesOf(read.book).map((entry) =>
      entry.kind === 'survey' ? { ...entry, by: 'Somebody else' } : entry,
    );
    const [photo] = read.attachments;
    const stray = { ...photo, entry: photo.entry.replace(/.$/, 'z'), base64: 'AAEC' };
    const changed = writeEntryFile(bookOf(entries), [{ ...photo, base64: 'AAEC' }, stray]);
    const all = await previewed(yard, await scanned(changed));
    expect(all.find(({ hull }) => hull === hulls[0])).toMatchObject({
      fresh: 0,
      same: 2,
      disputed: 1,
      otherFiles: 1,
      looseFiles: 1,
    });
  });

  test('takes what is left of a damaged backup, and says where the damage is', async () => {
    const { yard } = await twoHulls();
    const lines = (await backupOf(yard)).text.split('\n');
    const at = lines.findIndex((line) => line.includes('"kind":"survey"'));
    lines[at] = lines[at].replace('hand', 'Hand');
    const scan = await scanned(lines.join('\n'));
    expect(scan.faults.map(({ row, column }) => [row, column])).toEqual([
      [at + 1, 'crc'],
      [lines.length - 1, 'sha256'],
    ]);
    const [place] = scan.unread;
    expect(await place.file.slice(place.from, place.to).text()).toBe(lines[at]);
    const empty = yardOn(new Machine());
    await empty.ready;
    const done = await restored(empty, scan);
    expect(done.reduce((sum, { fresh }) => sum + fresh, 0)).toBe(3);
    // The photo's entry is the one that is damaged: nothing holds it.
    expect(done.reduce((sum, { loose }) => sum + loose, 0)).toBe(1);
  });

  test('takes what is left of a backup that was cut in the middle of a photo', async () => {
    const { yard } = await twoHulls();
    const { text } = await backupOf(yard);
    const cut = text.slice(0, text.lastIndexOf('\nattachment ') + 500_000);
    const scan = await scanned(cut);
    expect(scan.faults.map(({ column }) => column)).toEqual(['attachment', 'crc', 'end']);
    expect(scan.hulls.flatMap(({ files }) => files)).toEqual([]);
    const empty = yardOn(new Machine());
    await empty.ready;
    await restored(empty, scan);
    expect(empty.hulls.length).toBeGreaterThan(0);
  });

  test('refuses a file that has changed since it was looked through', async () => {
    const { yard } = await twoHulls();
    const { text } = await backupOf(yard);
    const { hulls } = await scanned(text);
    const other = new Blob([text.replaceAll('reading', 'READING')]);
    const all = Promise.all(
      hulls.map(({ entries }) => entriesAt(entries.map((place) => ({ ...place, file: other })))),
    );
    await expect(all).rejects.toThrow('has changed');
  });
});

describe('a file that is read as it comes', () => {
  /** A file whose stream comes in pieces of these lengths, over and over. */
  function inPieces(bytes: Uint8Array, lengths: readonly number[]): Blob {
    return {
      size: bytes.length,
      stream: () => {
        let at = 0;
        let turn = 0;
        return new ReadableStream<Uint8Array>({
          pull(controller) {
            if (at >= bytes.length) {
              controller.close();
              return;
            }
            const length = lengths[turn++ % lengths.length];
            controller.enqueue(bytes.slice(at, at + length));
            at += length;
          },
        });
      },
    } as unknown as Blob;
  }
  const anyLengths = fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 4 });

  test('has the lines and places of its text, however it comes', async () => {
    const anyText = fc.array(fc.constantFrom('a', 'ü', '\n', '\r\n', '\ufeff', ''), {
      maxLength: 12,
    });
    await fc.assert(
      fc.asyncProperty(anyText, anyLengths, async (letters, lengths) => {
        const text = letters.join('');
        const bytes = new TextEncoder().encode(text);
        const expected = text
          .replace(/^\ufeff/, '')
          .replaceAll('\r\n', '\n')
          .split('\n');
        if (expected.at(-1) === '') expected.pop();
        const found = [];
        for await (const lines of fileLines(inPieces(bytes, lengths))) found.push(...lines);
        expect(found.map((line) => line.text)).toEqual(expected);
        for (const { text: line, from, to } of found) {
          const there = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes.slice(from, to));
          expect(there.replace(from === 0 ? /^\ufeff|\r$/g : /\r$/, '')).toBe(line);
        }
      }),
    );
  });

  test('is found to hold the same as the same file read whole, damaged or not', async () => {
    const anyDamage = fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      by: fc.string({ maxLength: 3 }),
    });
    await fc.assert(
      fc.asyncProperty(
        anyBook,
        anyAttachments,
        fc.array(anyDamage, { maxLength: 2 }),
        async (book, attachments, damages) => {
          let text = writeEntryFile(book, attachments);
          for (const { at, by } of damages) {
            const place = Math.floor(at * text.length);
            text = text.slice(0, place) + by + text.slice(place + 1);
          }
          const file = new Blob([text]);
          // What no UTF-8 can say stands otherwise in both.
          const read = readEntryFile(await file.text());
          const scan = await scanFile(file, calmly);
          expect(scan.faults).toEqual(read.faults);
          const unread = scan.unread.map(({ from, to }) => file.slice(from, to).text());
          expect(await Promise.all(unread)).toEqual(read.unread.map((each) => each.text));
          const found = await Promise.all(scan.hulls.map(({ entries }) => entriesAt(entries)));
          expect(whole(found.flat())).toBe(whole(entriesOf(read.book)));
          expect(scan.hulls.flatMap(({ files }) => files.map(({ name }) => name))).toEqual(
            read.attachments.map(({ name }) => name),
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  test('gets a line too long to be looked at reported, and the lines behind it are read', async () => {
    const text = writeEntryFile(bookOf(demoEntries().slice(0, 2)));
    const [head, first, ...rest] = text.split('\n');
    const piece = 'x'.repeat(1_000_000);
    const long = Array.from({ length: 97 }, () => piece);
    const file = new Blob([`${head}\n${first}\n`, ...long, '\n', rest.join('\n')]);
    const scan = await scanFile(file, calmly);
    expect(scan.faults.map(({ row, column }) => [row, column])).toEqual([
      [3, 'line'],
      [5, 'count'],
    ]);
    expect(scan.faults[0].found).toBe('97000000 bytes');
    expect(scan.hulls.flatMap(({ entries }) => entries)).toHaveLength(2);
  });
});

describe('what is known of backups', () => {
  const at = new Date('2026-05-04T09:30:00Z');

  test('is kept on the device, and read by another tab', () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
    };
    const log = new BackupLog(storage);
    log.seen(at, [HULL]);
    const other = new BackupLog(storage);
    expect(other.hulls).toEqual({ [HULL]: { seen: at.toISOString() } });
    other.made(at, new Map([[HULL, 7]]));
    log.seen(new Date(), [HULL]);
    expect(log.hulls).toEqual({ [HULL]: { at: at.toISOString(), entries: 7 } });
  });

  test('lasts as long as the page where storage is blocked, and starts anew where something else stands', () => {
    const blocked = () => {
      throw new DOMException('blocked', 'SecurityError');
    };
    const log = new BackupLog({ getItem: blocked, setItem: blocked });
    log.made(at, new Map([[HULL, 7]]));
    expect(log.hulls[HULL]).toMatchObject({ entries: 7 });
    const odd = new BackupLog({ getItem: () => '{"hulls":{"x":1}}', setItem: blocked });
    expect(odd.hulls).toEqual({});
  });
});
