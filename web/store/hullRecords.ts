import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import type { HullContents, RecordPiece } from './backup/hullRecord.ts';
import { hullDatabase } from './database.ts';
import { fileOf, withWaiting } from './entryFiles.ts';
import type { Handles } from './handles.ts';
import type { OpenHulls } from './openHulls.ts';
import type { Surroundings } from './surroundings.ts';
import { within } from './within.ts';

/** How long a database may take to give a hull's record before it is read past, ms. */
const GIVEN_WITHIN = 60_000;

export interface HullRecordsOptions {
  readonly after: Surroundings['after'];
  readonly handles: Handles;
  readonly open: OpenHulls;
  /** What a hull's database holds, read past PouchDB; for when it cannot be opened. */
  readonly rescue: (hull: string) => Promise<string>;
}

/** The record of a hull as it leaves the device: what its database holds, and what waits in this tab to be saved. Where
 *  the database does not open, it is read past it; where that fails too, the record is what this tab knows. */
export class HullRecords {
  readonly #options: HullRecordsOptions;

  constructor(options: HullRecordsOptions) {
    this.#options = options;
  }

  /** The entry file of a hull. Rejects where nothing of it is known. */
  async entryFile(hull: string): Promise<string> {
    const { after, handles, open } = this.#options;
    const waiting = await open.waitingFiles(hull);
    try {
      return await handles.within(hullDatabase(hull), (database) =>
        within(GIVEN_WITHIN, fileOf(database, open.entries(hull), waiting), after),
      );
    } catch {
      return this.#rescued(hull, waiting);
    }
  }

  /** The same piece by piece, its files one part at a time. */
  async *pieces(hull: string): AsyncGenerator<RecordPiece> {
    const { handles, open } = this.#options;
    const { recordOf, recordIn } = await import('./backup/hullRecord.ts');
    const waiting = await open.waitingFiles(hull);
    const handle = handles.take(hullDatabase(hull));
    try {
      const database = await handle.database();
      const contents = await this.contents(hull).catch(() => undefined);
      if (contents === undefined) yield* recordIn(await this.#rescued(hull, waiting));
      else yield* recordOf(database, contents, waiting);
    } finally {
      handle.release();
    }
  }

  /** What is here of a hull, its files by name. Rejects with the database's error. A hull that is not here gets a
   *  database by being looked for. */
  async contents(hull: string): Promise<HullContents> {
    const { after, handles, open } = this.#options;
    const { contentsOf } = await import('./backup/hullRecord.ts');
    return handles.within(hullDatabase(hull), (database) =>
      within(GIVEN_WITHIN, contentsOf(database, open.entries(hull)), after),
    );
  }

  async #rescued(hull: string, waiting: readonly Attachment[]): Promise<string> {
    const known = this.#options.open.entries(hull);
    try {
      const { book, attachments } = readEntryFile(await this.#options.rescue(hull));
      const entries = [...entriesOf(book), ...known];
      return writeEntryFile(bookOf(entries), withWaiting(attachments, waiting));
    } catch (error) {
      if (known.length === 0) throw error;
      return writeEntryFile(bookOf(known), waiting);
    }
  }
}
