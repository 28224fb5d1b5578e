import { bookOf, entriesOf } from '../src/book/book.ts';
import { canonical } from '../src/book/canonical.ts';
import { crc32 } from '../src/book/crc32.ts';
import { EntryFileScan } from '../src/book/entryFileScan.ts';
import { readEntryFile } from '../src/book/readEntryFile.ts';
import type { Entry } from '../src/book/entry.ts';
import { standing } from '../src/book/standing.ts';
import { assess } from '../src/survey/assess.ts';
import { bookNames } from '../src/survey/bookWords/bookNames.ts';
import { entryWords } from '../src/survey/bookWords/entryWords.ts';
import { amendmentsOf } from '../src/survey/fold/amendmentsOf.ts';
import { hullOf } from '../src/survey/fold/hullOf.ts';
import { photosOf } from '../src/survey/fold/photosOf.ts';
import { signableOf } from '../src/survey/fold/signableOf.ts';
import { signaturesOf } from '../src/survey/fold/signaturesOf.ts';
import { surveyOf } from '../src/survey/fold/surveyOf.ts';
import { surveysOf } from '../src/survey/fold/surveysOf.ts';
import { keptLogsOf } from '../src/survey/log/withSeries.ts';
import { ledgerOf } from '../src/running/fold/ledgerOf.ts';
import { particularsOf } from '../src/running/fold/particularsOf.ts';
import { union } from '../src/book/union.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { factsOf } from '../web/store/summary.ts';
import type { Dice } from './dice.ts';

/** What became of the lines of one file. */
export interface EntryCounts {
  kept: number;
  again: number;
  parts: number;
  refused: number;
}

/** Reads an entry file as the app does, and looks that every line is an entry, a part of a file kept with one, one that
 *  came already, or handed back unread with a reason; that every entry stands, is struck or is set aside; and that what
 *  is kept is written and read again as the same. Throws where that is not so. */
export function entryCase(text: string): EntryCounts {
  const counts: EntryCounts = { kept: 0, again: 0, parts: 0, refused: 0 };
  const scan = new EntryFileScan();
  let parts = 0;
  const lines = text
    .replace(/^\ufeff/, '')
    .replaceAll('\r\n', '\n')
    .split('\n');
  if (lines.at(-1) === '') lines.pop();
  for (const line of lines) {
    const { is } = scan.take(line);
    if (is === 'entry') counts.kept += 1;
    else if (is === 'part') parts += 1;
    else if (is === 'unread') counts.refused += 1;
    else counts.again += 1;
  }
  const { book, attachments, faults, unread } = readEntryFile(text);
  const entries = entriesOf(book);
  if (entries.length !== counts.kept) {
    throw new Error(`${counts.kept} lines are entries, the book has ${entries.length}`);
  }
  const rows = new Set(faults.map(({ row }) => row));
  const silent = unread.find(({ row }) => !rows.has(row) && !attached(lines[row - 1]));
  if (silent !== undefined) throw new Error(`line ${silent.row} is handed back without a reason`);
  if (unread.length > 0 && faults.length === 0) throw new Error('lines unread, and no fault');
  counts.parts = parts;

  const stands = standing(book);
  const all = stands.standing.length + stands.struck.length + contentsOf(stands.setAside);
  if (all !== entries.length)
    throw new Error(`${entries.length} entries, ${all} of them somewhere`);
  const hulls = new Map<string, Entry[]>();
  for (const entry of entries) {
    const hull = entry._id.split(':')[0];
    hulls.set(hull, [...(hulls.get(hull) ?? []), entry]);
  }
  for (const own of hulls.values()) everythingOf(own);

  const again = readEntryFile(writeEntryFile(book, attachments));
  if (again.faults.length > 0) throw new Error(`written again: ${JSON.stringify(again.faults[0])}`);
  const both = writeEntryFile(union(book, again.book));
  if (both !== writeEntryFile(bookOf(entries))) throw new Error('the union with itself differs');
  return counts;
}

/** All that the app makes of a hull's entries. */
function everythingOf(entries: readonly Entry[]): void {
  factsOf(entries);
  const book = bookOf(entries);
  const stands = standing(book);
  const names = bookNames(entriesOf(book), (id) => stands.standing.some(({ _id }) => _id === id));
  for (const entry of entriesOf(book)) entryWords(entry, names);
  ledgerOf(stands.standing);
  const { hull } = hullOf(stands.standing);
  particularsOf(stands.standing, hull ?? {});
  for (const { key } of surveysOf(stands.standing).surveys) {
    const { survey } = surveyOf(stands.standing, stands.struckRows, key);
    if (keptLogsOf(survey).length === 0) assess(survey);
    photosOf(stands, key);
    signaturesOf(stands, key);
    amendmentsOf(stands, { entries: [], rows: [] }, signableOf(stands, key));
  }
}

const attached = (line: string): boolean => line.startsWith('attachment ');

function contentsOf(setAside: readonly { readonly contents: readonly unknown[] }[]): number {
  return setAside.reduce((sum, { contents }) => sum + contents.length, 0);
}

/** Changes what an entry says behind a checksum that fits, as someone would who means harm. */
export function forged(text: string, dice: Dice): string {
  const lines = text.split('\n');
  const entries = lines.flatMap((line, at) => (line.startsWith('entry ') ? [at] : []));
  for (let left = 1 + dice.below(3); left > 0; left -= 1) {
    if (entries.length === 0) break;
    // Each once: what is forged may be none that can be read.
    const [at] = entries.splice(dice.below(entries.length), 1);
    const json = lines[at].slice('entry 01234567 '.length);
    const body = dice.once(8) ? raw(json, dice) : written(changed(JSON.parse(json), dice));
    const sum = crc32(new TextEncoder().encode(body)).toString(16).padStart(8, '0');
    lines[at] = `entry ${sum} ${body}`;
  }
  return lines.join('\n');
}

/** As an entry is written, where that can be. */
function written(value: unknown): string {
  try {
    return canonical(value);
  } catch {
    return JSON.stringify(value);
  }
}

const VALUES: readonly unknown[] = [
  ...[null, true, 0, -1, 1e9, 1e308, 1.5, '', ' ', 'x'.repeat(5000), [], {}, [[]], { mm: 'x' }],
  ...[
    { mm: 1e9, text: '' },
    { mm: -1, text: '-1' },
    '<img src=x onerror=alert(1)>',
    '=1+1',
    '../..',
    'constructor',
  ],
  ...[
    { constructor: { prototype: {} } },
    { toString: 1 },
    { length: -1 },
    Array.from({ length: 300 }, () => 0),
  ],
];

/** One value somewhere inside exchanged, taken away or put in. */
function changed(value: unknown, dice: Dice, depth = 0): unknown {
  if (typeof value !== 'object' || value === null || (depth > 0 && dice.once(4)))
    return dice.of(VALUES);
  if (Array.isArray(value)) {
    const list = value as readonly unknown[];
    const at = dice.below(list.length + 1);
    return list.toSpliced(at, 1, changed(list[at], dice, depth + 1));
  }
  const fields: readonly (readonly [string, unknown])[] = Object.entries(value);
  if (dice.once(6))
    return Object.fromEntries([
      ...fields,
      [dice.of(['constructor', 'extra', 'row', 'toString']), dice.of(VALUES)],
    ]);
  if (fields.length === 0) return dice.of(VALUES);
  const [key, inner] = dice.of(fields);
  const rest = fields.filter(([name]) => name !== key);
  return Object.fromEntries(
    dice.once(6) ? rest : [...rest, [key, changed(inner, dice, depth + 1)]],
  );
}

/** JSON that no writer makes. */
function raw(json: string, dice: Dice): string {
  return dice.of([
    `${'['.repeat(100_000)}${']'.repeat(100_000)}`,
    json.replace('"body":{', '"body":{"__proto__":{"polluted":true},'),
    json.replace('"body":{', `"body":{"deep":${'{"a":'.repeat(5000)}1${'}'.repeat(5000)},`),
    json.replace('"v":1', '"v":1,"v":2'),
    json.replace(/\d+/, '1e400'),
    json.slice(0, -1),
    `${json} ${json}`,
  ]);
}
