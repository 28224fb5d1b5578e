import { EntryFileScan, type FileFault } from '../../../src/book/entryFileScan.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { parseId } from '../../../src/book/id.ts';
import { PartGatherer } from '../../../src/book/partGatherer.ts';
import { readBody } from '../../../src/survey/kinds/readBody.ts';
import { fileLines } from './fileLines.ts';
import { Stopped } from './writeBackup.ts';

/** Bytes of a file, from the first to the one behind the last. */
export interface Place {
  readonly file: Blob;
  readonly from: number;
  readonly to: number;
}

/** A file that is kept with an entry, and where the lines of its parts stand. */
export interface PlacedFile {
  readonly entry: string;
  readonly name: string;
  readonly type: string;
  readonly pieces: readonly Place[];
  /** Bytes. */
  readonly length: number;
  /** Of its lines, to know the same content by. */
  readonly digest: string;
}

/** One hull's part of some files: where its lines stand. */
export interface PlacedHull {
  readonly hull: string;
  /** As its last entry names it. */
  readonly named?: Named;
  readonly entries: readonly Place[];
  readonly files: readonly PlacedFile[];
}

interface Named {
  /** The entry that says so. */
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
}

/** An entry file that was looked through; nothing of it but places is in memory. */
export interface ScannedFile {
  readonly hulls: readonly PlacedHull[];
  /** Empty where the file is whole. */
  readonly faults: readonly FileFault[];
  /** The lines that could not be read. */
  readonly unread: readonly Place[];
}

export interface ScanOptions {
  /** Share of the file that was read, 0 to 1. */
  readonly progress: (share: number) => void;
  readonly pause: () => Promise<void>;
  readonly stopped: () => boolean;
}

interface Building {
  named: Named | undefined;
  readonly entries: Place[];
  readonly files: PlacedFile[];
}
type Piece = Place & { readonly bytes: number; readonly digest: string };

/** Bytes that are looked at before the page may answer: a browser may hand over several MB at once. */
const STRETCH = 100_000;

/** Looks an entry file through from end to end. Rejects with `Stopped`, and where the file itself cannot be read. */
export async function scanFile(file: Blob, options: ScanOptions): Promise<ScannedFile> {
  const scan = new EntryFileScan();
  const gatherer = new PartGatherer<Piece>();
  const hulls = new Map<string, Building>();
  const places: Place[] = [];
  const unread: number[] = [];
  const of = (id: string): Building | undefined => {
    const parsed = parseId(id);
    if (!parsed.ok) return undefined;
    const known = hulls.get(parsed.hull) ?? { named: undefined, entries: [], files: [] };
    hulls.set(parsed.hull, known);
    return known;
  };
  let rested = 0;
  const breathe = async (): Promise<void> => {
    const last = places.at(-1);
    if (last !== undefined) options.progress(last.to / file.size);
    await options.pause();
    if (options.stopped()) throw new Stopped('looking through the file was stopped');
  };
  for await (const lines of fileLines(file)) {
    for (const { text, from, to } of lines) {
      if (from - rested >= STRETCH) {
        rested = from;
        await breathe();
      }
      const place = { file, from, to };
      const row = places.push(place);
      const scanned = text === undefined ? scan.takeTooLong(to - from) : scan.take(text);
      if (scanned.is === 'unread') unread.push(row);
      else if (scanned.is === 'entry') {
        const hull = of(scanned.entry._id);
        hull?.entries.push(place);
        if (hull !== undefined) hull.named = laterName(hull.named, scanned.entry);
      } else if (scanned.is === 'part') {
        const { base64, ...header } = scanned.part;
        const piece = { ...place, bytes: bytesIn(base64), digest: scanned.digest };
        gatherer.add(header, { row, digest: scanned.digest, piece });
      }
    }
    await breathe();
  }
  const gathered = gatherer.result();
  for (const { pieces, ...named } of gathered.whole) {
    const length = pieces.reduce((sum, { bytes }) => sum + bytes, 0);
    const digest = pieces.map((piece) => piece.digest).join(' ');
    of(named.entry)?.files.push({ ...named, pieces, length, digest });
  }
  return {
    hulls: [...hulls].map(([hull, { named, entries, files }]) => ({
      hull,
      ...(named !== undefined && { named }),
      entries,
      files,
    })),
    faults: [...scan.faults(), ...gathered.faults].sort((a, b) => a.row - b.row),
    unread: [...unread, ...gathered.unread].sort((a, b) => a - b).map((row) => places[row - 1]),
  };
}

/** The hulls of several files, each once, whichever comes first. */
export function hullsIn(files: readonly ScannedFile[]): readonly PlacedHull[] {
  const hulls = new Map<string, PlacedHull>();
  for (const placed of files.flatMap((file) => file.hulls)) {
    const known = hulls.get(placed.hull);
    hulls.set(placed.hull, known === undefined ? placed : joined(known, placed));
  }
  return [...hulls.values()];
}

function joined(one: PlacedHull, other: PlacedHull): PlacedHull {
  const [first, second] = [one.named, other.named];
  const named =
    second === undefined || (first !== undefined && first.id > second.id) ? first : second;
  return {
    hull: one.hull,
    ...(named !== undefined && { named }),
    entries: [...one.entries, ...other.entries],
    // The first of two contents keeps the name: which one that is must not depend on which file came first.
    files: [
      ...one.files,
      ...other.files.filter((each) => !one.files.some((known) => isSame(known, each))),
    ].sort((a, b) => (a.digest < b.digest ? -1 : 1)),
  };
}

function isSame(one: PlacedFile, other: PlacedFile): boolean {
  return one.entry === other.entry && one.name === other.name && one.digest === other.digest;
}

/** The name that a hull was given last. */
function laterName(known: Named | undefined, entry: Entry): Named | undefined {
  if (entry.kind !== 'hull' || (known !== undefined && known.id > entry._id)) return known;
  const read = readBody('hull', entry.body);
  if (!read.ok) return known;
  return { id: entry._id, name: read.body.name, invented: read.body.invented === true };
}

function bytesIn(base64: string): number {
  const padding = base64.endsWith('==') ? 2 : base64.endsWith('=') ? 1 : 0;
  return (base64.length / 4) * 3 - padding;
}
