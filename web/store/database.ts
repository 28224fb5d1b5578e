/** A document as a database keeps it: fields that start with an underscore are its own. */
export interface StoredDocument {
  readonly _id: string;
  readonly _rev?: string;
  readonly _conflicts?: readonly string[];
  readonly [field: string]: unknown;
}

export interface ReadOptions {
  readonly include_docs: true;
  readonly conflicts: true;
}

export type Seq = number | string;

export interface Change {
  readonly id: string;
  readonly seq: Seq;
  readonly deleted?: boolean;
  readonly doc?: StoredDocument;
}

export interface LiveChanges {
  on(event: 'change', heard: (change: Change) => void): LiveChanges;
  on(event: 'error', heard: (error: unknown) => void): LiveChanges;
  cancel(): void;
}

/** What an answer to one document of a bulk write says: a revision, or an error with a status. */
export interface WriteAnswer {
  readonly id?: string;
  readonly rev?: string;
  readonly error?: unknown;
  readonly status?: number;
}

/** A file that goes with an entry when it is written. */
export interface EntryFile {
  readonly name: string;
  /** Media type. */
  readonly type: string;
  readonly data: Blob;
}

export interface InlineAttachment {
  readonly content_type: string;
  /** Base64; absent where only the name was asked for. */
  readonly data?: string;
  /** Bytes. */
  readonly length?: number;
}

/** What the store asks of a PouchDB database, so that tests can hand in one that lives in memory. */
export interface Database {
  info(): Promise<{ readonly update_seq: Seq; readonly doc_count: number }>;
  allDocs(options: ReadOptions & { readonly attachments?: boolean }): Promise<{
    readonly rows: readonly { readonly id: string; readonly doc?: StoredDocument | null }[];
  }>;
  changes(
    options: ReadOptions & { readonly since: Seq; readonly live: true },
  ): LiveChanges & PromiseLike<unknown>;
  changes(
    options: ReadOptions & { readonly since: Seq },
  ): PromiseLike<{ readonly results: readonly Change[]; readonly last_seq: Seq }>;
  get(
    id: string,
    options?: { readonly rev?: string; readonly conflicts?: boolean },
  ): Promise<StoredDocument>;
  bulkDocs(
    documents: readonly StoredDocument[],
    options?: { readonly new_edits: boolean },
  ): Promise<readonly WriteAnswer[]>;
  put(document: StoredDocument): Promise<{ readonly rev: string }>;
  remove(id: string, rev: string): Promise<unknown>;
  putAttachment(
    id: string,
    name: string,
    rev: string,
    base64: string,
    type: string,
  ): Promise<unknown>;
  getAttachment(id: string, name: string, options?: { readonly rev: string }): Promise<Blob>;
  close(): Promise<void>;
  destroy(): Promise<unknown>;
}

/** Opens a database by name. What is wrong with it shows at its first answer. */
export type OpenDatabase = (name: string) => Database;

const HULL_PREFIX = 'aftrun-hull-';

export const SUMMARIES = 'aftrun-summaries';

/** The name of a hull's database. */
export function hullDatabase(hull: string): string {
  return `${HULL_PREFIX}${hull}`;
}

/** The hull that a database belongs to; absent for any other database. */
export function hullOfDatabase(name: string): string | undefined {
  return name.startsWith(HULL_PREFIX) ? name.slice(HULL_PREFIX.length) : undefined;
}
