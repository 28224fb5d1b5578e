import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { parseId } from '../../src/book/id.ts';
import type { Standing } from '../../src/book/standing.ts';
import { bookNames, type BookNames } from '../../src/survey/bookWords/bookNames.ts';
import { entryWords, struckWords, type EntryWords } from '../../src/survey/bookWords/entryWords.ts';
import type { Disagreement } from '../../src/survey/fold/report.ts';
import { STRIKE, strikeActOf } from '../../src/survey/strikeKind.ts';
import { dayAndTime, type ZoneOffset } from './dayAndTime.ts';
import { deviceWords } from './deviceWords.ts';

/** Who struck something, when, why, and what stands in its place. */
export interface StrikeNote {
  readonly by: string;
  readonly device: string;
  readonly day: string;
  readonly time: string;
  readonly undone: boolean;
  readonly why?: string;
  /** What stands instead; absent where nothing does. */
  readonly instead?: string;
}

/** An entry as a line of the book. */
export interface BookLine extends EntryWords {
  /** Its id, with a count behind it where the id came with more than one content. */
  readonly key: string;
  readonly id: string;
  readonly day: string;
  readonly time: string;
  readonly instant: number;
  /** The key of its survey, or `'0'`. */
  readonly survey: string;
  readonly by: string;
  readonly device: string;
  readonly why?: string;
  /** What it was written in the place of. */
  readonly replaces: readonly string[];
  /** Empty where it is not struck. */
  readonly struck: readonly StrikeNote[];
  readonly struckRows: ReadonlyMap<number, readonly StrikeNote[]>;
  /** Why it is kept and not counted, where it is not. */
  readonly setAside: readonly string[];
  /** What other standing entries say of the same thing. */
  readonly doubts: readonly string[];
  /** Everything that a search looks through, in lower case. */
  readonly text: string;
}

export interface BookFrom {
  /** Every content of every entry of one hull. */
  readonly entries: readonly Entry[];
  readonly standing: Standing;
  readonly disagreements: readonly Disagreement[];
  /** Of an entry, or of a row of one: `<id>#<row>`. */
  readonly setAside: readonly { readonly id: string; readonly reason: string }[];
  readonly offset: ZoneOffset;
}

const REASONS: Readonly<Record<string, string>> = {
  cycle: 'it strikes itself, by way of others',
  'two contents': 'its id came with two contents',
};

/** Every entry of a hull as a line, in the order of the book: by day; within a day each survey for itself, in the
 *  order in which they were first written in; within that by time. Nothing is left out. */
export function bookLines(from: BookFrom): readonly BookLine[] {
  const { entries, standing, offset } = from;
  const stand = new Set(standing.standing.map(({ _id }) => _id));
  const names = bookNames(entries, (id) => stand.has(id));
  const struckBy = new Map(standing.struck.map(({ entry, by }) => [entry._id, by]));
  const rowNotes = rowStrikes(standing.standing, (entry) => noteOf(entry, names, offset));
  const aside = groupedReasons(from.setAside);
  const doubts = doubtsById(from.disagreements);
  const seen = new Map<string, number>();
  const keyOf = (id: string): string => {
    const before = seen.get(id);
    seen.set(id, before === undefined ? 1 : before + 1);
    return before === undefined ? id : `${id} ${before}`;
  };
  const lines = entries.map((entry): BookLine => {
    const { _id: id, at, by, device, why } = entry;
    const words = entryWords(entry, names);
    const strikers = (struckBy.get(id) ?? []).flatMap((striker) => names.entries(striker));
    const parsed = parseId(id);
    const replaces =
      entry.kind === STRIKE || entry.strikes === undefined ? [] : struckWords(entry.strikes, names);
    return {
      ...words,
      key: keyOf(id),
      id,
      ...dayAndTime(at, offset),
      survey: parsed.ok ? parsed.survey : '',
      by,
      device: deviceWords(device),
      ...(why !== undefined && { why }),
      replaces,
      struck: strikers.map((striker) => noteOf(striker, names, offset)),
      struckRows: rowNotes.get(id) ?? NO_ROWS,
      setAside: aside.get(id) ?? [],
      doubts: doubts.get(id) ?? [],
      text: [words.words, by, device, why ?? '', words.raw ?? ''].join(' ').toLowerCase(),
    };
  });
  return inBookOrder(lines);
}

/** What is kept of a hull and is no entry, so that it has no line: documents that could not be read. */
export function looseNotes(from: Pick<BookFrom, 'entries' | 'setAside'>) {
  const known = bookOf(from.entries);
  return from.setAside.filter(({ id }) => {
    const own = id.split('#', 1)[0] ?? id;
    return !known.entries.has(own) && !known.conflicts.has(own);
  });
}

const NO_ROWS: ReadonlyMap<number, readonly StrikeNote[]> = new Map();

function noteOf(striker: Entry, names: BookNames, offset: ZoneOffset): StrikeNote {
  const { day, time } = dayAndTime(striker.at, offset);
  return {
    by: striker.by,
    device: deviceWords(striker.device),
    day,
    time,
    undone: strikeActOf(striker) === 'undo',
    ...(striker.why !== undefined && { why: striker.why }),
    ...(striker.kind !== STRIKE && { instead: entryWords(striker, names).words }),
  };
}

function rowStrikes(
  standers: readonly Entry[],
  note: (entry: Entry) => StrikeNote,
): ReadonlyMap<string, ReadonlyMap<number, readonly StrikeNote[]>> {
  const found = new Map<string, Map<number, StrikeNote[]>>();
  for (const entry of standers) {
    for (const { entry: id, row } of entry.strikes ?? []) {
      if (row === undefined) continue;
      const own = found.get(id) ?? new Map<number, StrikeNote[]>();
      found.set(id, own.set(row, [...(own.get(row) ?? []), note(entry)]));
    }
  }
  return found;
}

/** Reasons by entry; those of its rows counted. */
function groupedReasons(setAside: BookFrom['setAside']): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, { own: string[]; rows: Map<string, number> }>();
  for (const { id, reason } of setAside) {
    const [entry = id, row] = id.split('#');
    const known = found.get(entry) ?? { own: [], rows: new Map<string, number>() };
    found.set(entry, known);
    const words = REASONS[reason] ?? reason;
    const count = known.rows.get(words);
    if (row !== undefined) known.rows.set(words, count === undefined ? 1 : count + 1);
    else if (!known.own.includes(words)) known.own.push(words);
  }
  return new Map(
    [...found].map(([id, { own, rows }]) => [
      id,
      [...own, ...[...rows].map(([words, n]) => `${n} ${n === 1 ? 'row' : 'rows'}: ${words}`)],
    ]),
  );
}

function doubtsById(
  disagreements: readonly Disagreement[],
): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const { about, entries } of disagreements) {
    for (const id of new Set(entries.map((each) => each.split('#', 1)[0] ?? each))) {
      const known = found.get(id);
      if (known === undefined) found.set(id, [about]);
      else known.push(about);
    }
  }
  return found;
}

function inBookOrder(lines: readonly BookLine[]): readonly BookLine[] {
  const byTime = lines.toSorted((a, b) => a.instant - b.instant || (a.key < b.key ? -1 : 1));
  // A part keeps the place of its first line: those of one day stay together.
  const parts = new Map<string, BookLine[]>();
  for (const line of byTime) {
    const part = `${line.day} ${line.survey}`;
    const known = parts.get(part);
    if (known === undefined) parts.set(part, [line]);
    else known.push(line);
  }
  return [...parts.values()].flat();
}
