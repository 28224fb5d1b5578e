import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { base64Of } from './base64.ts';
import { hullDatabase } from './database.ts';
import { entryIn, isDesign } from './entryStore.ts';
import { reasonOf } from './reasonOf.ts';

export type Rescue =
  | {
      readonly ok: true;
      /** The entry file. */
      readonly text: string;
      readonly entries: number;
      readonly attachments: number;
      /** What lay in the database and is no entry, as JSON, so that nothing is kept back. */
      readonly unread: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** What PouchDB's `idb` adapter (version 9) puts before a database's name, and calls its stores. */
const PREFIX = '_pouch_';
const DOCUMENTS = 'by-sequence';
const FILES = 'attach-store';

/** Reads what a hull's database holds straight from IndexedDB, writing nothing, and makes an entry file of it: for a
 *  disk so full, or a database so damaged, that it cannot be opened for writing. Every revision is read, since entries
 *  never change. */
export async function rescue(factory: IDBFactory, hull: string): Promise<Rescue> {
  let database: IDBDatabase;
  try {
    database = await openAsItIs(factory, `${PREFIX}${hullDatabase(hull)}`);
  } catch (error) {
    return { ok: false, reason: reasonOf(error) };
  }
  try {
    return await read(database);
  } catch (error) {
    return { ok: false, reason: reasonOf(error) };
  } finally {
    database.close();
  }
}

/** Opens a database in the version that it has; one that does not exist is not made. */
function openAsItIs(factory: IDBFactory, name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = factory.open(name);
    let isNew = false;
    request.onupgradeneeded = () => {
      isNew = true;
      request.transaction?.abort();
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () =>
      reject(isNew ? new Error('there is no such database on this device') : errorOf(request));
  });
}

async function read(database: IDBDatabase): Promise<Rescue> {
  const stores = [DOCUMENTS, FILES].filter((store) => database.objectStoreNames.contains(store));
  if (!stores.includes(DOCUMENTS)) {
    return { ok: false, reason: 'the database holds no documents that this can read' };
  }
  const transaction = database.transaction(stores, 'readonly');
  const documents = await answer(transaction.objectStore(DOCUMENTS).getAll());
  const files = stores.includes(FILES)
    ? await answer(transaction.objectStore(FILES).getAll())
    : ([] as unknown[]);
  const entries: Entry[] = [];
  const unread: string[] = [];
  const wanted = new Map<string, { entry: string; name: string; type: string; digest: string }>();
  for (const stored of documents) {
    const document = withId(stored);
    if (document === undefined || isDesign(document._id)) continue;
    const found = entryIn(document);
    if (!found.ok) {
      unread.push(JSON.stringify(stored));
      continue;
    }
    entries.push(found.entry);
    for (const file of filesOf(document)) wanted.set(`${file.entry} ${file.name}`, file);
  }
  const bodies = new Map(files.filter(isFile).map(({ digest, body }) => [digest, body]));
  const attachments: Attachment[] = [];
  for (const { entry, name, type, digest } of wanted.values()) {
    const body = bodies.get(digest);
    if (body === undefined) unread.push(JSON.stringify({ entry, name, type, digest }));
    else attachments.push({ entry, name, type, base64: await textOf(body) });
  }
  return {
    ok: true,
    text: writeEntryFile(bookOf(entries), attachments),
    entries: entries.length,
    attachments: attachments.length,
    unread,
  };
}

/** The document of a stored revision: its id stands in a field of its own, with the revision behind `::`. */
function withId(stored: unknown): { readonly _id: string; [field: string]: unknown } | undefined {
  if (!isRecord(stored) || typeof stored['_doc_id_rev'] !== 'string') return undefined;
  const [, id] = /^(.*)::\d+-[^:]+$/.exec(stored['_doc_id_rev']) ?? [];
  return id === undefined ? undefined : { ...stored, _id: id };
}

function* filesOf(document: {
  readonly _id: string;
  readonly [field: string]: unknown;
}): Generator<{
  entry: string;
  name: string;
  type: string;
  digest: string;
}> {
  const listed = document['_attachments'];
  if (!isRecord(listed)) return;
  for (const [name, file] of Object.entries(listed)) {
    if (!isRecord(file)) continue;
    const { content_type: type, digest } = file;
    if (typeof type === 'string' && typeof digest === 'string') {
      yield { entry: document._id, name, type, digest };
    }
  }
}

function isFile(stored: unknown): stored is { digest: string; body: Blob | string } {
  return (
    isRecord(stored) &&
    typeof stored['digest'] === 'string' &&
    (typeof stored['body'] === 'string' || stored['body'] instanceof Blob)
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

/** The adapter keeps Blobs, or base64 where a browser could not store those. */
async function textOf(body: Blob | string): Promise<string> {
  return typeof body === 'string' ? body : base64Of(new Uint8Array(await body.arrayBuffer()));
}

function answer(request: IDBRequest<unknown[]>): Promise<unknown[]> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(errorOf(request));
  });
}

function errorOf(request: IDBRequest): Error {
  return request.error ?? new Error('the browser gave no reason');
}
