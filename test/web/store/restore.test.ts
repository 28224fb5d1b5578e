import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

import { bookOf, entriesOf } from '../../../src/book/book.ts';
import { canonical } from '../../../src/book/canonical.ts';
import { readEntry } from '../../../src/book/envelope.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../../src/book/writeEntryFile.ts';
import { RestoreDesk } from '../../../web/parts/restoreDesk.svelte.ts';
import { demoEntries } from '../../../web/store/demo.ts';
import { Yard } from '../../../web/store/yard.svelte.ts';
import { Machine } from './around.ts';

const folder = new URL('../../../fixtures/book/', import.meta.url);
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const files = readdirSync(folder).filter((name) => name !== 'README.md');

function entriesIn(name: string): readonly Entry[] {
  if (name.endsWith('.txt')) return entriesOf(readEntryFile(textOf(name)).book);
  return (JSON.parse(textOf(name)) as { entries: readonly unknown[] }).entries.map((value) => {
    const read = readEntry(value);
    if (!read.ok) throw new Error(`${name}: ${read.reason}`);
    return read.entry;
  });
}

function emptyYard(): Yard {
  const { around } = new Machine().tab();
  return new Yard({
    around,
    engine: '1',
    rescue: () => Promise.reject(new Error('nothing to rescue')),
  });
}

/** Looks at a file on an empty device, takes it in as the preview has it, and gives what is there then. */
async function restored(text: string): Promise<{ entries: readonly Entry[]; files: string[] }> {
  const yard = emptyYard();
  const desk = new RestoreDesk(yard);
  await desk.look([new File([text], 'backup.txt')]);
  expect(desk.preview?.files).toMatchObject([{ name: 'backup.txt', faults: [], unread: [] }]);
  await desk.restore();
  const hulls = desk.restored ?? [];
  expect(hulls.reduce((sum, { loose }) => sum + loose, 0)).toBe(0);
  const out = await Promise.all(
    hulls.map(async ({ hull }) => readEntryFile(await yard.records.entryFile(hull))),
  );
  yard.close();
  return {
    entries: out.flatMap(({ book }) => entriesOf(book)),
    files: out.flatMap(({ attachments }) => attachments.map((each) => canonical(each))).sort(),
  };
}

const whole = (entries: readonly Entry[]): string => canonical(entriesOf(bookOf(entries)));

test.each(files)(
  'what was ever written is restored onto an empty device, whole: %s',
  async (name) => {
    const entries = entriesIn(name);
    const text = name.endsWith('.txt') ? textOf(name) : writeEntryFile(bookOf(entries));
    const found = await restored(text);
    expect(entries.length).toBeGreaterThan(0);
    expect(whole(found.entries)).toBe(whole(entries));
    expect(found.files).toEqual(
      readEntryFile(text)
        .attachments.map((each) => canonical(each))
        .sort(),
    );
  },
);

test('one file of several hulls, with a picture, is restored onto an empty device, whole', async () => {
  const entries = [...demoEntries(), ...entriesIn('version-1.json'), ...entriesIn('kinds-v1.json')];
  const picture = { entry: entries[0]._id, name: 'picture', type: 'image/png', base64: 'AAECAw==' };
  const found = await restored(writeEntryFile(bookOf(entries), [picture]));
  expect(whole(found.entries)).toBe(whole(entries));
  expect(found.files).toEqual([canonical(picture)]);
});
