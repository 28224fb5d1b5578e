import type { Attachment } from '../../src/book/attachment.ts';
import type { Entry } from '../../src/book/entry.ts';
import { hullDatabase, type Database } from './database.ts';
import { writeAttachments, writeEntries } from './entryStore.ts';
import { failureOf } from './failure.ts';
import type { Handles } from './handles.ts';
import type { HullFacts } from './hullFacts.ts';

/** One hull's part of an entry file. */
export interface HullPart {
  readonly hull: string;
  readonly name?: string;
  readonly invented?: boolean;
  readonly entries: readonly Entry[];
  readonly attachments: readonly Attachment[];
}

/** What a part brought to its hull. */
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

export interface PartsTaken {
  readonly hulls: readonly HullImport[];
  /** Attachments whose entry is neither in the parts nor here; they cannot be kept. */
  readonly loose: number;
}

export interface TakeInOptions {
  readonly handles: Handles;
  readonly random: (count: number) => Uint8Array;
  /** Whether a hull is on this device. */
  readonly isHere: (hull: string) => Promise<boolean>;
  /** Called before entries of a hull are written, with what is known of it. */
  readonly before: (hull: string, known: Partial<HullFacts>) => Promise<void>;
  /** Called when entries of a hull were written. */
  readonly written: (hull: string) => Promise<void>;
}

/** Takes parts of entry files, each into its hull's database, and tells what was new. Rejects with a sentence for the
 *  person where the database fails; what was taken until then stays, and the same may be taken again. */
export async function takeIn(
  parts: readonly HullPart[],
  { handles, random, isHere, before, written }: TakeInOptions,
): Promise<PartsTaken> {
  const hulls: HullImport[] = [];
  let loose = 0;
  for (const part of parts) {
    const { hull, name, invented, entries, attachments } = part;
    try {
      if (entries.length > 0) {
        await before(hull, {
          ...(name !== undefined && { name }),
          ...(invented !== undefined && { invented }),
        });
      } else if (!(await isHere(hull))) {
        loose += attachments.length;
        continue;
      }
      const taken = await handles.within(hullDatabase(hull), (database) =>
        takePart(database, part, random),
      );
      hulls.push(taken.hull);
      loose += taken.loose;
    } catch (error) {
      const { words } = failureOf(error);
      const done = `${hulls.length} of ${parts.length} hulls were taken.`;
      throw new Error(`${words} ${done} Take the same file again once that is mended.`, {
        cause: error,
      });
    }
    await written(hull);
  }
  return { hulls, loose };
}

/** Takes one hull's part into its database. Rejects with the database's error; what was taken before stays, and
 *  taking the same again does no harm. */
async function takePart(
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

async function exists(database: Database, id: string): Promise<boolean> {
  try {
    await database.get(id);
    return true;
  } catch {
    return false;
  }
}
