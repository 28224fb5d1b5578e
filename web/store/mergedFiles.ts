import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import type { EntryFileRead } from '../../src/book/readEntryFile.ts';
import { HULL_LIMIT, partsOfFile, type HullPart } from './entryFiles.ts';

/** A file as the person chose it. */
export interface NamedText {
  readonly name: string;
  readonly text: string;
}

/** What became of reading one of several files. */
export interface FileRead extends Pick<EntryFileRead, 'faults' | 'unread'> {
  readonly name: string;
  /** Set where nothing of it can be taken, and why. */
  readonly refused?: string;
}

/** Several entry files as one, each hull by itself: their union, so that it does not matter which comes first. An
 *  attachment that comes twice is taken once; of two that have one name and other contents both are. */
export function mergedFiles(files: readonly NamedText[]): {
  readonly files: readonly FileRead[];
  readonly parts: readonly HullPart[];
  readonly refused?: string;
} {
  const reads: FileRead[] = [];
  const byHull = new Map<string, HullPart[]>();
  for (const { name, text } of files) {
    const { parts, ...read } = partsOfFile(text);
    reads.push({ name, ...read });
    for (const part of parts) byHull.set(part.hull, [...(byHull.get(part.hull) ?? []), part]);
  }
  if (byHull.size > HULL_LIMIT) {
    const refused = `These files name ${byHull.size} hulls; at most ${HULL_LIMIT} are taken at once. Nothing was kept.`;
    return { files: reads, parts: [], refused };
  }
  return { files: reads, parts: [...byHull.values()].map(merged) };
}

function merged(parts: readonly HullPart[]): HullPart {
  if (parts.length === 1) return parts[0];
  const entries: readonly Entry[] = entriesOf(bookOf(parts.flatMap((part) => part.entries)));
  const attachments = new Map<string, Attachment>();
  for (const each of parts.flatMap((part) => part.attachments)) {
    attachments.set(`${each.entry} ${each.name} ${each.base64}`, each);
  }
  return {
    ...parts[0],
    ...parts.findLast(({ name }) => name !== undefined),
    entries,
    attachments: [...attachments].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, each]) => each),
  };
}
