import type { Attachment } from '../../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { readLine, type FileLine } from '../../../src/book/fileLine.ts';
import { previewUnion } from '../../../src/book/previewUnion.ts';
import { standing } from '../../../src/book/standing.ts';
import type { HullPart, PartsTaken } from '../takeIn.ts';
import type { HullContents } from './hullRecord.ts';
import type { Place, PlacedFile, PlacedHull } from './scanFile.ts';

/** What taking one hull of some entry files would do. */
export interface HullCompared {
  readonly hull: string;
  readonly name: string | undefined;
  readonly isHere: boolean;
  readonly fresh: number;
  readonly same: number;
  /** Ids that would have two contents: both are kept, and neither counts until somebody has dealt with it. */
  readonly disputed: number;
  /** Entries that stand here and would be struck. */
  readonly struck: number;
  readonly freshFiles: number;
  readonly sameFiles: number;
  /** Files whose name is here with another length: what is here stays, and theirs is kept beside it. */
  readonly otherFiles: number;
  /** Files whose entry is neither in the files nor here: they cannot be kept. */
  readonly looseFiles: number;
}

/** The entries at some places. Rejects where a file has changed since it was looked through. */
export async function entriesAt(places: readonly Place[]): Promise<readonly Entry[]> {
  const entries: Entry[] = [];
  for (const { file, from, to } of together(places)) {
    const text = await file.slice(from, to).text();
    for (const line of text.replace(/^\ufeff|\r$/g, '').split(/\r?\n/)) {
      const read = readLine(line);
      if (read.is === 'entry') entries.push(read.entry);
      else throw changed();
    }
  }
  return entries;
}

/** Sets a hull's part of some files beside what is here; nothing is changed by looking. */
export async function compared(
  placed: PlacedHull,
  here: HullContents | undefined,
): Promise<HullCompared> {
  const brought = await entriesAt(placed.entries);
  const before = bookOf(here?.entries ?? []);
  const { fresh, same, disputed, after } = previewUnion(before, bookOf(brought));
  const stands = new Set(standing(after).standing.map(({ _id }) => _id));
  const twice = new Set(disputed.map(({ id }) => id));
  const struck = standing(before).standing.filter(({ _id }) => !stands.has(_id) && !twice.has(_id));
  const known = new Map(here?.files.map((each) => [`${each.entry} ${each.name}`, each.length]));
  const ids = new Set(entriesOf(after).map(({ _id }) => _id));
  const files = { freshFiles: 0, sameFiles: 0, otherFiles: 0, looseFiles: 0 };
  for (const { entry, name, length } of placed.files) {
    const key = `${entry} ${name}`;
    if (!known.has(key)) files[ids.has(entry) ? 'freshFiles' : 'looseFiles'] += 1;
    else files[known.get(key) === length ? 'sameFiles' : 'otherFiles'] += 1;
  }
  return {
    hull: placed.hull,
    name: placed.named?.name,
    isHere: here !== undefined && here.entries.length > 0,
    fresh: fresh.length,
    same: same.length,
    disputed: disputed.length,
    struck: struck.length,
    ...files,
  };
}

/** Base64 characters of files that are taken at once. */
const BATCH = 8_000_000;

/** What became of one hull that was taken in. */
export interface HullRestored {
  readonly hull: string;
  readonly name: string | undefined;
  readonly fresh: number;
  readonly same: number;
  readonly disputed: number;
  readonly files: number;
  readonly beside: number;
  readonly loose: number;
}

/** Takes one hull in: entries first, then its files a few at a time. Rejects with `takeIn`'s sentence where
 *  the database fails; what was taken until then stays, and the same may be taken again. */
export async function restoreHull(
  placed: PlacedHull,
  takeIn: (parts: readonly HullPart[]) => Promise<PartsTaken>,
  pause: () => Promise<void>,
): Promise<HullRestored> {
  const { hull, named } = placed;
  const part = { hull, ...(named && { name: named.name, invented: named.invented }) };
  const done = { fresh: 0, same: 0, disputed: 0, files: 0, beside: 0, loose: 0 };
  const take = async (
    entries: readonly Entry[],
    attachments: readonly Attachment[],
  ): Promise<void> => {
    const { hulls, loose } = await takeIn([{ ...part, entries, attachments }]);
    for (const { fresh, same, disputed, attachments: files, beside } of hulls) {
      done.fresh += fresh;
      done.same += same;
      done.disputed += disputed;
      done.files += files;
      done.beside += beside;
    }
    done.loose += loose;
    await pause();
  };
  const entries = await entriesAt(placed.entries);
  await take(entriesOf(bookOf(entries)), []);
  let batch: Attachment[] = [];
  let size = 0;
  for (const each of placed.files) {
    const attachment = await attachmentAt(each);
    batch.push(attachment);
    size += attachment.base64.length;
    if (size < BATCH) continue;
    await take([], batch);
    batch = [];
    size = 0;
  }
  if (batch.length > 0) await take([], batch);
  return { hull, name: named?.name, ...done };
}

async function attachmentAt(placed: PlacedFile): Promise<Attachment> {
  const { entry, name, type } = placed;
  const pieces: string[] = [];
  for (const { file, from, to } of placed.pieces) {
    const text = await file.slice(from, to).text();
    const read: FileLine = readLine(text.replace(/^\ufeff|\r$/g, ''));
    if (read.is !== 'attachment') throw changed();
    pieces.push(read.part.base64);
  }
  return { entry, name, type, base64: pieces.join('') };
}

/** Bytes that are read at once. */
const SLICE = 4_000_000;

/** Places that follow one another, line end by line end, as one. */
function* together(places: readonly Place[]): Generator<Place> {
  let run: Place | undefined;
  for (const place of places) {
    if (
      run !== undefined &&
      place.file === run.file &&
      place.from === run.to + 1 &&
      place.to - run.from <= SLICE
    ) {
      run = { ...run, to: place.to };
      continue;
    }
    if (run !== undefined) yield run;
    run = place;
  }
  if (run !== undefined) yield run;
}

function changed(): Error {
  return new Error('The file has changed since it was looked through. Choose it again.');
}
