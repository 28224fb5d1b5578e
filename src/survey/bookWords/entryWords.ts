import { canonical } from '../../book/canonical.ts';
import type { Entry, Strike } from '../../book/entry.ts';
import { bodyOnce } from '../fold/bodyOnce.ts';
import { KINDS, type BodyOf, type KindName } from '../kinds/kinds.ts';
import { capital } from '../sentence.ts';
import { STRIKE, strikeActOf } from '../strikeKind.ts';
import { withUnit } from '../withUnit.ts';
import type { BookNames } from './bookNames.ts';
import { KIND_WORDS } from './kindWords.ts';
import { sentenceOf, type BookGroup, type Said, type Wording } from './wording.ts';

/** One entry as a line of the book. */
export interface EntryWords {
  readonly group: BookGroup;
  readonly words: string;
  /** What the entry says as it stands, where its words cannot tell it all: an unknown kind, a body out of form. */
  readonly raw?: string;
  /** How many rows it has of its own. */
  readonly rowCount: number;
  /** Those rows in words, from one to before another; of an import, by their place. */
  readonly rows: (from: number, to: number) => readonly string[];
}

const NO_ROWS = { rowCount: 0, rows: (): readonly string[] => [] };

/** What an entry says, in plain words. Of a kind that has no words of its own, field by field; of one that nobody here
 *  knows, as it stands: nothing is left out. */
export function entryWords(entry: Entry, names: BookNames): EntryWords {
  const { _id: id, kind } = entry;
  if (kind === STRIKE) return { group: 'strikes', words: strikeWords(entry, names), ...NO_ROWS };
  const read = bodyOnce(entry);
  if (read === undefined) {
    const words = `“${kind}”, a kind of entry that this version of the app does not know`;
    return { group: 'other', words, raw: canonical(entry.body), ...NO_ROWS };
  }
  if (!read.ok) {
    const words = `${capital(kind)} that cannot be read: ${read.reason}`;
    return { group: groupOf(kind), words, raw: canonical(entry.body), ...NO_ROWS };
  }
  const said: Said = { id, names, unit: names.unitOf(id) };
  const wording = KIND_WORDS[read.kind] as Wording<KindName> | undefined;
  const further = furtherFields(read.kind, read.body);
  const words =
    wording === undefined
      ? fieldByField(kind, read.body, said)
      : [wording.words(read.body, said), ...further].join('; ');
  const rows = wording?.rows;
  if (rows === undefined) return { group: wording?.group ?? 'other', words, ...NO_ROWS };
  return {
    group: wording?.group ?? 'other',
    words,
    rowCount: rows.count(read.body),
    rows: (from, to) => rows.words(read.body, said, from, to),
  };
}

/** What was struck, each in its words; of an import's row, that row's. */
export function struckWords(strikes: readonly Strike[], names: BookNames): readonly string[] {
  return strikes.map(({ entry, row }) => {
    const [target] = names.entries(entry);
    if (target === undefined) return 'an entry that is not here';
    if (row === undefined)
      return target.kind === STRIKE ? 'a strike' : entryWords(target, names).words;
    return (
      entryWords(target, names)
        .rows(row, row + 1)
        .at(0) ?? `row ${row + 1} of an entry without it`
    );
  });
}

/** The group of a kind. */
export function groupOf(kind: string): BookGroup {
  if (kind === STRIKE) return 'strikes';
  return Object.hasOwn(KIND_WORDS, kind)
    ? (KIND_WORDS[kind as KindName]?.group ?? 'other')
    : 'other';
}

function strikeWords(entry: Entry, names: BookNames): string {
  const act = strikeActOf(entry);
  const head = act === 'undo' ? 'Undone' : act === 'redo' ? 'Done again' : 'Struck';
  const all = entry.strikes ?? [];
  // What an undo of an undo brings back is what that one took away.
  const targets = act === 'redo' ? all.flatMap((strike) => undoneBy(strike, names)) : all;
  const words = struckWords(targets.slice(0, 3), names);
  const more = targets.length - words.length;
  return `${head}: ${[...words, ...(more > 0 ? [`and ${more} more`] : [])].join('; ')}`;
}

function undoneBy(strike: Strike, names: BookNames): readonly Strike[] {
  const target = names.entries(strike.entry).at(0);
  return target?.kind === STRIKE ? (target.strikes ?? [strike]) : [strike];
}

/** Fields that the kind does not name: of a later version, kept and shown. */
function furtherFields(kind: KindName, body: BodyOf<KindName>): readonly string[] {
  const { schema } = KINDS[kind];
  const known = 'entries' in schema ? schema.entries : {};
  return Object.entries(body)
    .filter(([field]) => !Object.hasOwn(known, field))
    .map(([field, value]) => `${field}: ${typeof value === 'string' ? value : canonical(value)}`);
}

function fieldByField(kind: string, body: object, { unit }: Said): string {
  const parts = Object.entries(body).map(([field, value]: [string, unknown]) => {
    if (typeof value === 'string') return `${field} ${value}`;
    const typed = typedOf(value);
    return `${field} ${typed === undefined ? canonical(value) : withUnit(typed, unit)}`;
  });
  return sentenceOf(capital(kind), parts);
}

function typedOf(value: unknown): { readonly mm: number; readonly text: string } | undefined {
  if (typeof value !== 'object' || value === null || !('mm' in value) || !('text' in value)) {
    return undefined;
  }
  const { mm, text } = value;
  return typeof mm === 'number' && typeof text === 'string' ? { mm, text } : undefined;
}
