import type { Attachment } from '../../src/book/attachment.ts';
import { canonical } from '../../src/book/canonical.ts';
import type { Entry } from '../../src/book/entry.ts';
import { readEntry, type EntryRead } from '../../src/book/envelope.ts';
import { Sha256 } from '../../src/book/sha256.ts';
import { base64Of } from './base64.ts';
import type {
  Database,
  EntryFile,
  InlineAttachment,
  StoredDocument,
  WriteAnswer,
} from './database.ts';

/** What became of entries that were written. */
export interface Written {
  /** Ids that were not there before. */
  readonly fresh: readonly string[];
  /** Ids that were there with the same content. */
  readonly same: readonly string[];
  /** Ids that were there with another content: now both are. */
  readonly disputed: readonly string[];
}

const BATCH = 500;

/** Writes entries, and resolves when the database has said that it has them. Keys are sorted, so that the same entry
 *  gets the same revision on every device. An entry that is there already is left as it is; one whose id is there
 *  with another content is kept beside it as a conflict, for the book to show both.
 *  `files`: by id of the entry; each is written with its entry or not at all.
 *  Rejects with the database's error; what was written before stays. */
export async function writeEntries(
  database: Database,
  entries: readonly Entry[],
  random: (count: number) => Uint8Array,
  files: ReadonlyMap<string, EntryFile> = new Map(),
): Promise<Written> {
  const fresh: string[] = [];
  const same: string[] = [];
  const disputed: string[] = [];
  for (let from = 0; from < entries.length; from += BATCH) {
    const batch = entries.slice(from, from + BATCH);
    const answers = await database.bulkDocs(batch.map((entry) => withFile(entry, files)));
    // Answers come in the order of the documents: an error does not always name its id.
    for (const [place, entry] of batch.entries()) {
      const answer = answers[place];
      if (!failed(answer)) fresh.push(entry._id);
      else if (answer.status !== 409) throw answerError(answer);
      else if (await has(database, entry)) same.push(entry._id);
      else {
        await addLeaf(database, entry, random);
        disputed.push(entry._id);
      }
    }
  }
  return { fresh, same, disputed };
}

/** The entry in a stored document, without the database's own fields. */
export function entryIn(document: StoredDocument): EntryRead {
  const own = Object.entries(document).filter(([key]) => key === '_id' || !key.startsWith('_'));
  return readEntry(Object.fromEntries(own));
}

/** Whether a document is the database's own rather than somebody's statement. */
export function isDesign(id: string): boolean {
  return id.startsWith('_design/');
}

/** Every content of every document of a database, by id, its own documents aside. */
export async function leavesIn(database: Database): Promise<readonly StoredDocument[]> {
  const { rows } = await database.allDocs({ include_docs: true, conflicts: true });
  const leaves: StoredDocument[] = [];
  for (const { id, doc } of rows) {
    if (!doc || isDesign(id)) continue;
    const others = (doc._conflicts ?? []).map((rev) => database.get(id, { rev }));
    leaves.push(doc, ...(await Promise.all(others)));
  }
  return leaves;
}

/** A file that is kept with an entry, and with which content of it. */
export interface StoredFile {
  readonly entry: string;
  readonly name: string;
  /** Media type. */
  readonly type: string;
  /** Bytes. */
  readonly length: number | undefined;
  readonly rev: string | undefined;
}

/** The files of some documents, each name of an entry once. */
export function filesOf(leaves: readonly StoredDocument[]): readonly StoredFile[] {
  const files = new Map<string, StoredFile>();
  for (const leaf of leaves) {
    for (const [name, { content_type: type, length }] of Object.entries(attachmentsOf(leaf))) {
      const key = `${leaf._id} ${name}`;
      if (!files.has(key)) files.set(key, { entry: leaf._id, name, type, length, rev: leaf._rev });
    }
  }
  return [...files.values()];
}

/** Every attachment of a database's entries. */
export async function readAttachments(database: Database): Promise<readonly Attachment[]> {
  const { rows } = await database.allDocs({
    include_docs: true,
    conflicts: true,
    attachments: true,
  });
  return rows.flatMap(({ id, doc }) =>
    Object.entries(attachmentsOf(doc)).flatMap(([name, { content_type, data }]) =>
      typeof data === 'string' ? [{ entry: id, name, type: content_type, base64: data }] : [],
    ),
  );
}

/** Writes attachments whose entries are there already and that are not there yet. One whose name is there with another
 *  content is kept beside it, under a name that tells it from the other. How many were new, and how many of those are
 *  kept beside another. */
export async function writeAttachments(
  database: Database,
  attachments: readonly Attachment[],
): Promise<{ readonly written: number; readonly beside: number }> {
  const done = { written: 0, beside: 0 };
  for (const attachment of attachments) {
    const { entry, name, type, base64 } = attachment;
    const document = await database.get(entry);
    if (document._rev === undefined) continue;
    const there = attachmentsOf(document);
    const taken = Object.hasOwn(there, name);
    if (taken && (await contentOf(database, entry, name)) === base64) continue;
    const own = taken ? nameBeside(attachment) : name;
    if (Object.hasOwn(there, own)) continue;
    await database.putAttachment(entry, own, document._rev, base64, type);
    done.written += 1;
    if (taken) done.beside += 1;
  }
  return done;
}

async function contentOf(database: Database, entry: string, name: string): Promise<string> {
  const file = await database.getAttachment(entry, name);
  return base64Of(new Uint8Array(await file.arrayBuffer()));
}

/** Of the content, so that the same comes under the same name on every device. */
function nameBeside({ name, base64 }: Attachment): string {
  const hash = new Sha256();
  hash.update(new TextEncoder().encode(base64));
  return `${name.slice(0, 150)} (another, ${hash.hex().slice(0, 16)})`;
}

function attachmentsOf(
  document: StoredDocument | null | undefined,
): Readonly<Record<string, InlineAttachment>> {
  return (document?.['_attachments'] ?? {}) as Readonly<Record<string, InlineAttachment>>;
}

function withFile(entry: Entry, files: ReadonlyMap<string, EntryFile>): StoredDocument {
  const file = files.get(entry._id);
  if (file === undefined) return documentOf(entry);
  const { name, type, data } = file;
  return { ...documentOf(entry), _attachments: { [name]: { content_type: type, data } } };
}

function documentOf(entry: Entry): StoredDocument {
  return JSON.parse(canonical(entry)) as StoredDocument;
}

async function has(database: Database, entry: Entry): Promise<boolean> {
  const text = canonical(entry);
  return (await leaves(database, entry._id)).some((leaf) => {
    const read = entryIn(leaf);
    return read.ok && canonical(read.entry) === text;
  });
}

async function leaves(database: Database, id: string): Promise<readonly StoredDocument[]> {
  const winner = await database.get(id, { conflicts: true });
  const others = (winner._conflicts ?? []).map((rev) => database.get(id, { rev }));
  return [winner, ...(await Promise.all(others))];
}

/** A second content of an id. Its revision is made up: two devices may make up two, and the book, which compares
 *  contents, shows them as one. */
async function addLeaf(
  database: Database,
  entry: Entry,
  random: (count: number) => Uint8Array,
): Promise<void> {
  const hex = [...random(16)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const [answer] = await database.bulkDocs([{ ...documentOf(entry), _rev: `1-${hex}` }], {
    new_edits: false,
  });
  if (answer !== undefined && failed(answer)) throw answerError(answer);
}

function failed(answer: WriteAnswer): boolean {
  return answer.error !== undefined;
}

function answerError(answer: WriteAnswer): Error {
  return answer instanceof Error
    ? answer
    : Object.assign(new Error('the database refused a document'), answer);
}
