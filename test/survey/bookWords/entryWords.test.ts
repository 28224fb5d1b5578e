import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

import type { Entry } from '../../../src/book/entry.ts';
import { readEntry } from '../../../src/book/envelope.ts';
import { bookNames } from '../../../src/survey/bookWords/bookNames.ts';
import { entryWords, struckWords } from '../../../src/survey/bookWords/entryWords.ts';
import { KIND_WORDS } from '../../../src/survey/bookWords/kindWords.ts';
import { isKind, KINDS } from '../../../src/survey/kinds/kinds.ts';

const folder = new URL('../../../fixtures/book/', import.meta.url);
const entries = readdirSync(folder)
  .filter((name) => /^kinds-v1.*\.json$/.test(name))
  .sort((a, b) => a.length - b.length)
  .flatMap((name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    return (JSON.parse(text) as { entries: unknown[] }).entries;
  })
  .map((value): Entry => {
    const read = readEntry(value);
    if (!read.ok) throw new Error(read.reason);
    return read.entry;
  });
const names = bookNames(entries, () => true);
const [sample] = entries;
const wordsOf = (kind: string, body: unknown) => entryWords({ ...sample, kind, body }, names);

/** What the first example of a kind says. */
const said = (kind: string) => {
  const entry = entries.find((each) => each.kind === kind);
  if (entry === undefined) throw new Error(kind);
  return entryWords(entry, names);
};

describe('the words of an entry', () => {
  it('are there for every kind that is registered: a new kind needs some of its own', () => {
    const without = Object.keys(KINDS).filter((kind) => !Object.hasOwn(KIND_WORDS, kind));
    expect(without).toEqual([]);
  });

  it('name every text and figure of every example, so that the book reads whole', () => {
    const ids = /^[0-9a-z]{12}:/;
    /** Said in other words: "in inches", "not in slings", a length by what it comes to. */
    const otherwise = [
      'workUnit',
      'measured',
      'slings',
      'reads',
      'held',
      'face',
      'method',
      'survey',
      'surveys',
      'strokes',
      'rows',
    ];
    const texts = (value: unknown): string[] => {
      if (typeof value === 'string') return ids.test(value) ? [] : [value];
      if (typeof value === 'number') return [String(value)];
      if (typeof value !== 'object' || value === null) return [];
      // A length counts by its text, and a share of a file by its rows, below.
      if ('mm' in value && 'text' in value) return [];
      // A mass, speed or angle counts by its text too.
      if (['kg', 'mps', 'degrees'].some((unit) => unit in value) && 'text' in value) {
        return texts(value.text);
      }
      return Object.entries(value)
        .filter(([field]) => !otherwise.includes(field))
        .flatMap(([, item]) => texts(item));
    };
    const missing = entries.flatMap((entry) => {
      if (!isKind(entry.kind) || entry.kind === 'import') return [];
      const { words, rows } = entryWords(entry, names);
      const all = [words, ...rows(0, 100)].join(' ').toLowerCase();
      return texts(entry.body)
        .filter((text) => !all.includes(text.toLowerCase()))
        .map((text) => `${entry.kind}: ${text}`);
    });
    expect(missing).toEqual([]);
  });

  it('say a reading as its line, station, gap and what it was read to', () => {
    expect(said('reading').words).toBe(
      'P18in, 3 in: 20/32 in, read to 1/32 in, seen by: Jo; by torch',
    );
    const station = { mm: 762, text: '30' };
    const placement = entries.find(({ kind }) => kind === 'placement')?._id;
    const plain = { placement, station, gap: { mm: 3.96875, text: '5/32' }, look: 1 };
    const reading = entries.find(({ kind }) => kind === 'reading') ?? sample;
    const at = (body: object) => entryWords({ ...reading, body }, names).words;
    expect(at(plain)).toBe('P18in, 30 in: 5/32 in, read to 1/32 in');
    expect(at({ ...plain, gap: { mm: 0, text: '0' }, look: 2 })).toBe(
      'P18in, 30 in: 0 in (contact), read to 1/32 in, look 2',
    );
    expect(at({ ...plain, placement: 'gone' })).toMatch(/^a laying that is not here, 30 in: /);
  });

  it('say a void, a station put off and a tolerance as a person would', () => {
    expect(said('void').words).toBe('P18in, 6 in: void, tab pocket, seen by: Jo; vented');
    expect(said('later').words).toContain('come back later, a stand in the way');
    expect(said('condition').words).toBe('Tolerance: 1/16 in over 60 in, set by the owner');
  });

  it('count the rows of a file, and tell each when it is asked for', () => {
    const { words, rowCount, rows } = said('import');
    expect(words).toContain('paper-sheet.csv, 4 rows, 2 readings, 1 void and 1 put off, of P18in');
    expect(rowCount).toBe(4);
    expect(rows(0, 1)[0]).toMatch(/^P18in, 304\.8 mm: 17\.4 mm, read to 0\.5 mm/);
    expect(rows(2, 4)).toHaveLength(2);
    expect(rows(2, 3)[0]).toContain('void, through-hull');
  });

  it('tell a row that nobody can read by why, in its place', () => {
    const entry = entries.find(({ kind }) => kind === 'import') ?? sample;
    const rows = [['reading', 9, 0, '0', 1, '1', 1]];
    const columns = ['act', 'placement', 'station', 'station text', 'gap', 'gap text', 'look'];
    const body = { ...(entry.body as object), columns, rows, count: 1 };
    expect(entryWords({ ...entry, body }, names).rows(0, 1)).toEqual([
      'Kept, not counted: placement: expected one that the import lists',
    ]);
  });

  it('keep a kind that nobody here knows, as it stands', () => {
    const { words, raw, group } = wordsOf('tide', { low: 3 });
    expect(words).toContain('“tide”, a kind of entry that this version of the app does not know');
    expect([raw, group]).toEqual(['{"low":3}', 'other']);
  });

  it('keep a body that its kind cannot read, with the reason', () => {
    const { words, raw } = wordsOf('hull', { hin: 'X' });
    expect(words).toBe('Hull that cannot be read: name: expected a value, found nothing');
    expect(raw).toBe('{"hin":"X"}');
  });

  it('show fields that a later version has added', () => {
    expect(said('hull').words).toContain('colour: white over green');
  });

  it('put a kind without words of its own field by field', () => {
    const kind = 'gate';
    const kept = KIND_WORDS[kind];
    Reflect.deleteProperty(KIND_WORDS, kind);
    try {
      const { words, group } = wordsOf(kind, { gate: 'sounded', answer: 'no', notes: 'wet' });
      expect(words).toBe('Gate: gate sounded, answer no, notes wet');
      expect(group).toBe('other');
    } finally {
      Object.assign(KIND_WORDS, { [kind]: kept });
    }
  });

  it('say once at which station the edge crosses several lines, and on the diagonal at which each', () => {
    const [line] = entries.filter(({ kind }) => kind === 'line');
    const laid = (direction: string, stations: readonly number[]) =>
      wordsOf('placement across', {
        side: 'port',
        direction,
        name: '1',
        repeat: 1,
        held: 'resting',
        crosses: [line, line].map(({ _id }, i) => ({
          line: _id,
          station: { mm: stations[i], text: `${stations[i]} mm` },
        })),
      }).words;
    expect(laid('athwart', [600, 600])).toMatch(/to cross \S+ and \S+ at 600 mm,/);
    expect(laid('diagonal', [600, 900])).toMatch(/to cross \S+ at 600 mm and \S+ at 900 mm,/);
  });
});

describe('the words of a strike', () => {
  const at = (n: number) => `h0h1h2h3h4h5:0:01k9z1001${n}0000000000000000`;
  const target = entries.find(({ kind }) => kind === 'gauge') ?? sample;
  const strike = (id: string, of: string, act: string): Entry => ({
    ...sample,
    _id: id,
    kind: 'strike',
    strikes: [{ entry: of }],
    body: { act },
  });
  const all = [
    ...entries,
    strike(at(1), target._id, 'strike'),
    strike(at(2), target._id, 'undo'),
    strike(at(3), at(2), 'redo'),
  ];
  const known = bookNames(all, () => true);
  const saidOf = (id: string) => entryWords(known.entries(id)[0], known).words;

  it('tell what was struck, undone or done again', () => {
    expect(saidOf(at(1))).toMatch(/^Struck: Gauge “taper”: division 1\/32 in/);
    expect(saidOf(at(2))).toMatch(/^Undone: Gauge “taper”/);
    expect(saidOf(at(3))).toMatch(/^Done again: Gauge “taper”/);
  });

  it('tell a row of a file, and what has not arrived', () => {
    const file = entries.find(({ kind }) => kind === 'import') ?? sample;
    expect(struckWords([{ entry: file._id, row: 1 }, { entry: at(9) }], known)).toEqual([
      'P18in, 457.2 mm: 18 mm, read to 1/32 in, seen by: Jo',
      'an entry that is not here',
    ]);
  });
});
