import { type Book, bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { previewUnion } from '../../src/book/previewUnion.ts';
import type { FileFault } from '../../src/book/readEntryFile.ts';
import { standing } from '../../src/book/standing.ts';
import { bookNames } from '../../src/survey/bookWords/bookNames.ts';
import { entryWords } from '../../src/survey/bookWords/entryWords.ts';
import { doubtsOf } from '../../src/survey/fold/doubtsOf.ts';
import { surveysOf } from '../../src/survey/fold/surveysOf.ts';
import { choicesOf, surveyTitles, type Choice } from './bookParts.ts';
import { bookLines, type BookLine } from './bookView.ts';
import type { ZoneOffset } from './dayAndTime.ts';

/** One statement beside another. */
export interface SaidBy {
  readonly key: string;
  readonly words: string;
  readonly by: string;
  /** Whether it is on this device already. */
  readonly here: boolean;
}

/** What taking one hull's entries would do. */
export interface HullPreview {
  /** New entries as lines of the book, as it would be afterwards. */
  readonly fresh: readonly BookLine[];
  readonly surveys: readonly Choice[];
  readonly people: readonly Choice[];
  /** First and last day of the new entries; absent where there are none. */
  readonly days?: readonly [string, string];
  /** How many entries are here already with the same content. */
  readonly same: number;
  /** Ids that would have two contents: none of them would count. */
  readonly disputed: readonly { readonly id: string; readonly said: readonly SaidBy[] }[];
  /** The same thing said twice, where something new is part of it. */
  readonly disagreements: readonly { readonly about: string; readonly said: readonly SaidBy[] }[];
  /** Entries that stand here and would be struck by what is new. */
  readonly struck: readonly BookLine[];
  /** New entries that would be kept and not counted, with the reason. */
  readonly notCounted: readonly BookLine[];
  readonly title: (survey: string) => string;
}

/** `here`: every content of the hull on this device; `brought`: of the file. Nothing is changed by looking. */
export function hullPreview(
  here: readonly Entry[],
  brought: readonly Entry[],
  offset: ZoneOffset,
): HullPreview {
  const before = bookOf(here);
  const { fresh, same, disputed, after } = previewUnion(before, bookOf(brought));
  const standingAfter = standing(after);
  const doubts = doubtsOf(standingAfter);
  const lines = bookLines({
    entries: entriesOf(after),
    standing: standingAfter,
    disagreements: doubts.disagreements,
    setAside: [...standingAfter.setAside, ...doubts.setAside],
    offset,
  });
  const isNew = new Set(fresh.map(({ _id }) => _id));
  const stoodBefore = new Set(standing(before).standing.map(({ _id }) => _id));
  const freshLines = lines.filter(({ id }) => isNew.has(id));
  const days = freshLines.map(({ day }) => day).sort();
  const first = days.at(0);
  const last = days.at(-1);
  const saidBy = sayer(after, before);
  return {
    fresh: freshLines,
    surveys: choicesOf(freshLines, ({ survey }) => survey),
    people: choicesOf(freshLines, ({ by }) => by),
    ...(first !== undefined && last !== undefined && { days: [first, last] as const }),
    same: same.length,
    disputed: disputed.map(({ id }) => ({ id, said: saidBy([id]) })),
    disagreements: doubts.disagreements
      .filter(({ entries }) => entries.some((id) => isNew.has(withoutRow(id))))
      .map(({ about, entries }) => ({ about, said: saidBy(entries) })),
    struck: lines.filter(({ id, struck }) => struck.length > 0 && stoodBefore.has(id)),
    notCounted: freshLines.filter(({ setAside }) => setAside.length > 0),
    title: surveyTitles(surveysOf(standingAfter.standing).surveys),
  };
}

const COLUMNS: Readonly<Record<string, string>> = {
  version:
    'the first line does not name a version that this app reads; lines whose own check holds are taken all the same',
  line: 'not a line of an entry file',
  crc: 'damaged, its check does not hold',
  entry: 'an entry that cannot be taken',
  attachment: 'a file kept with an entry, which cannot be taken',
  end: 'the end is missing: the file may have been cut off',
  count: 'lines are missing or were added',
  sha256: 'the file as a whole is not what was saved',
};

/** What is wrong at a place of an entry file, in a sentence. */
export function faultWords({ row, column, found, expected }: FileFault): string {
  const there = found.trim() === '' ? 'nothing' : found;
  return `Line ${row}: ${COLUMNS[column] ?? column}. Found ${there}, expected ${expected}.`;
}

/** What was taken in of a hull, in a sentence. */
export function takenWords(done: {
  readonly fresh: number;
  readonly same: number;
  readonly disputed: number;
  readonly beside: number;
}): string {
  const { fresh, same, disputed, beside } = done;
  const both = (what: string) => `, ${what} with another content here: both are kept`;
  return `${fresh} new, ${same} already here${disputed > 0 ? both(String(disputed)) : ''}${
    beside > 0 ? both(`${beside} ${beside === 1 ? 'file' : 'files'}`) : ''
  }.`;
}

function sayer(after: Book, before: Book): (ids: readonly string[]) => readonly SaidBy[] {
  const names = bookNames(entriesOf(after), () => true);
  const known = new Set(entriesOf(before));
  return (ids) =>
    ids.flatMap((id) => {
      const row = rowOf(id);
      return names.entries(withoutRow(id)).map((entry, nth) => {
        const { words, rows } = entryWords(entry, names);
        return {
          key: `${id} ${nth}`,
          words: row === undefined ? words : rows(row, row + 1).join(''),
          by: entry.by,
          here: known.has(entry),
        };
      });
    });
}

function withoutRow(id: string): string {
  return id.split('#', 1).join('');
}

function rowOf(id: string): number | undefined {
  const row = id.split('#').at(1);
  return row === undefined ? undefined : Number(row);
}
