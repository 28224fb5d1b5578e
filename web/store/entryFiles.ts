import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { parseId } from '../../src/book/id.ts';
import { readEntryFile, type EntryFileRead } from '../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { Database } from './database.ts';
import {
  entryIn,
  leavesIn,
  readAttachments,
  writeAttachments,
  writeEntries,
} from './entryStore.ts';

/** What an entry file brought to one hull. */
export interface HullImport {
  readonly hull: string;
  readonly name?: string;
  /** Entries that were not here before. */
  readonly fresh: number;
  /** Entries that were here already. */
  readonly same: number;
  /** Entries that were here with another content: both are kept, and shown as set aside. */
  readonly disputed: number;
  /** Attachments that were not here before. */
  readonly attachments: number;
  /** Of those, how many have a name that is here with another content: both are kept. */
  readonly beside: number;
}

/** What became of an entry file. Entries of the lines that could be read are kept, each hull by itself. */
export interface EntryFileReport extends Pick<EntryFileRead, 'faults' | 'unread'> {
  readonly hulls: readonly HullImport[];
  /** Attachments whose entry is neither in the file nor here; they cannot be kept. */
  readonly loose: number;
  /** Set where nothing was kept, and why. */
  readonly refused?: string;
}

/** Hulls that one file may bring: each is a database. */
export const HULL_LIMIT = 500;

/** One hull's part of an entry file. */
export interface HullPart {
  readonly hull: string;
  readonly name?: string;
  readonly invented?: boolean;
  readonly entries: readonly Entry[];
  readonly attachments: readonly Attachment[];
}

/** An entry file, parted by hull. */
export function partsOfFile(text: string): Pick<
  EntryFileReport,
  'faults' | 'unread' | 'refused'
> & {
  readonly parts: readonly HullPart[];
} {
  const { book, attachments, faults, unread } = readEntryFile(text);
  const entries = entriesOf(book);
  const byHull = new Map<string, { entries: Entry[]; attachments: Attachment[] }>();
  const partOf = (id: string): { entries: Entry[]; attachments: Attachment[] } | undefined => {
    const parsed = parseId(id);
    if (!parsed.ok) return undefined;
    const part = byHull.get(parsed.hull) ?? { entries: [], attachments: [] };
    byHull.set(parsed.hull, part);
    return part;
  };
  for (const entry of entries) partOf(entry._id)?.entries.push(entry);
  for (const attachment of attachments) partOf(attachment.entry)?.attachments.push(attachment);
  const found = { faults, unread };
  if (entries.length === 0) {
    return { ...found, parts: [], refused: 'No entry in this file can be read. Nothing was kept.' };
  }
  if (byHull.size > HULL_LIMIT) {
    const refused = `This file names ${byHull.size} hulls; at most ${HULL_LIMIT} are taken from one file. Nothing was kept.`;
    return { ...found, parts: [], refused };
  }
  const parts = [...byHull].map(([hull, part]) => ({ hull, ...namedIn(part.entries), ...part }));
  return { ...found, parts };
}

/** Takes one hull's part into its database. Rejects with the database's error; what was taken before stays, and
 *  taking the same again does no harm. */
export async function takePart(
  database: Database,
  part: HullPart,
  random: (count: number) => Uint8Array,
): Promise<{ readonly hull: HullImport; readonly loose: number }> {
  const written = await writeEntries(database, part.entries, random);
  const here = new Set(part.entries.map(({ _id }) => _id));
  const owned: Attachment[] = [];
  for (const attachment of part.attachments) {
    const known = here.has(attachment.entry) || (await exists(database, attachment.entry));
    if (known) owned.push(attachment);
  }
  const { written: attachments, beside } = await writeAttachments(database, owned);
  return {
    hull: {
      hull: part.hull,
      ...(part.name !== undefined && { name: part.name }),
      fresh: written.fresh.length,
      same: written.same.length,
      disputed: written.disputed.length,
      attachments,
      beside,
    },
    loose: part.attachments.length - owned.length,
  };
}

/** The entry file of a database, with entries and files that are known besides. */
export async function fileOf(
  database: Database,
  known: readonly Entry[],
  waiting: readonly Attachment[],
): Promise<string> {
  const entries = [...(await readEntries(database)), ...known];
  return writeEntryFile(bookOf(entries), withWaiting(await readAttachments(database), waiting));
}

/** Attachments, and those that are not among them yet. */
export function withWaiting(
  there: readonly Attachment[],
  waiting: readonly Attachment[],
): readonly Attachment[] {
  const keyOf = ({ entry, name }: Attachment): string => `${entry} ${name}`;
  const known = new Set(there.map(keyOf));
  return [...there, ...waiting.filter((each) => !known.has(keyOf(each)))];
}

/** Every content of every entry of a database. */
export async function readEntries(database: Database): Promise<readonly Entry[]> {
  return (await leavesIn(database)).flatMap((leaf) => {
    const read = entryIn(leaf);
    return read.ok ? [read.entry] : [];
  });
}

async function exists(database: Database, id: string): Promise<boolean> {
  try {
    await database.get(id);
    return true;
  } catch {
    return false;
  }
}

function namedIn(entries: readonly Entry[]): Pick<HullPart, 'name' | 'invented'> {
  const bodies = entries.flatMap((entry) => {
    const read = entry.kind === 'hull' ? readBody('hull', entry.body) : undefined;
    return read?.ok === true ? [read.body] : [];
  });
  const last = bodies.at(-1);
  return last === undefined ? {} : { name: last.name, invented: last.invented === true };
}
