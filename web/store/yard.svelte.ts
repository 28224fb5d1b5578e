/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import type { Attachment } from '../../src/book/attachment.ts';
import { bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { newKey } from '../../src/book/id.ts';
import { readEntryFile } from '../../src/book/readEntryFile.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { draftOf } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { HullContents, RecordPiece } from './backup/hullRecord.ts';
import type { NamedHull } from './backup/writeBackup.ts';
import { base64Of } from './base64.ts';
import { hullDatabase, hullOfDatabase } from './database.ts';
import { DEMO_HULL } from './demoHull.ts';
import {
  fileOf,
  partsOfFile,
  takePart,
  withWaiting,
  type EntryFileReport,
  type HullImport,
  type HullPart,
} from './entryFiles.ts';
import { writeEntries } from './entryStore.ts';
import { failureOf, type StoreFailure } from './failure.ts';
import { Handles } from './handles.ts';
import { HullStore } from './hullStore.svelte.ts';
import type { Summary } from './summaries.svelte.ts';
import { SummaryKeeper } from './summaryKeeper.ts';
import { workOutHere, type WorkOut } from './summaryClient.ts';
import type { Surroundings } from './surroundings.ts';
import { within } from './within.ts';

export type { Summary } from './summaries.svelte.ts';

export interface YardOptions {
  readonly around: Surroundings;
  /** Version of the app: a summary that another one worked out is worked out again. */
  readonly engine: string;
  /** What a hull's database holds, read past PouchDB; for when it cannot be opened. */
  readonly rescue: (hull: string) => Promise<string>;
  /** Works summaries out; on the page's own thread where nobody says. */
  readonly workOut?: WorkOut;
  /** Called when entries of a hull were written by this tab. */
  readonly written?: (hull: string) => void;
  /** Called when a hull is about to be removed, and waited for. */
  readonly removing?: (hull: string, name: string) => Promise<void>;
}

/** What an exchange with a server needs of the yard. */
export interface YardForSharing {
  readonly handles: Handles;
  readonly hulls: () => readonly string[];
  readonly mark: (hull: string) => Promise<void>;
  readonly came: (hull: string) => void;
}

export type EntryFilesTaken = Pick<EntryFileReport, 'hulls' | 'loose'>;

/** How long a database may take to give an entry file before it is read past, ms. */
const EXPORT_WITHIN = 60_000;

/** Every hull on this device, in a list, and the way to each. */
export class Yard {
  state = $state.raw<'opening' | 'ready' | 'failed'>('opening');
  /** Why the state is `failed`. */
  failure = $state.raw<StoreFailure | undefined>();

  readonly #around: Surroundings;
  readonly #rescue: (hull: string) => Promise<string>;
  readonly #handles: Handles;
  readonly #workOut: WorkOut;
  readonly #keeper: SummaryKeeper;
  readonly #written: (hull: string) => void;
  readonly #removing: (hull: string, name: string) => Promise<void>;
  readonly #stopSeeing: () => void;
  readonly #stores = new Map<string, HullStore>();
  /** Hulls that are being removed by this tab. */
  readonly #leaving = new Set<string>();
  readonly ready: Promise<void>;

  /** By name; the same name by key. */
  readonly hulls: readonly Summary[] = $derived.by(() =>
    [...this.#keeper.summaries.all.values()]
      .filter(({ removing }) => removing !== true)
      .sort(byName),
  );

  constructor(options: YardOptions) {
    const { around, engine, rescue, workOut = workOutHere, written, removing } = options;
    this.#written = written ?? (() => undefined);
    this.#removing = removing ?? (() => Promise.resolve());
    this.#workOut = workOut;
    this.#around = around;
    this.#rescue = rescue;
    this.#handles = new Handles(around.open, around.after);
    this.#keeper = new SummaryKeeper({
      around,
      handles: this.#handles,
      engine,
      workOut,
      isOpen: (hull) => this.#stores.has(hull),
      gone: (hull) => {
        this.#stores.get(hull)?.close('removed');
        this.#stores.delete(hull);
      },
    });
    this.#stopSeeing = around.onVisible(() => {
      if (this.state === 'failed') void this.retry();
    });
    this.ready = this.#start();
  }

  /** Makes a hull; resolves to its key when the database has its entry. */
  async newHull(body: BodyOf<'hull'>): Promise<string> {
    const draft = draftOf('hull', body);
    const hull = newKey(this.#around.random(8));
    await this.#keeper.mark(hull, { name: body.name, invented: body.invented === true });
    await this.open(hull).add([draft]);
    return hull;
  }

  /** A hull's store, opened once a tab. */
  open(hull: string): HullStore {
    const known = this.#stores.get(hull);
    if (known !== undefined) return known;
    const store = new HullStore({
      hull,
      around: this.#around,
      handles: this.#handles,
      beforeWrite: () => this.#keeper.mark(hull),
      written: () => {
        this.#keeper.soon(hull);
        this.#written(hull);
      },
    });
    this.#stores.set(hull, store);
    return store;
  }

  /** Lets a hull's store go, unless something of it waits to be saved. */
  release(hull: string): void {
    const store = this.#stores.get(hull);
    if (store === undefined || store.saving.pending > 0) return;
    this.#stores.delete(hull);
    store.close();
  }

  /** Entries of any hull that no database has taken: leaving now would lose them. */
  get pending(): number {
    return [...this.#stores.values()].reduce((sum, store) => sum + store.saving.pending, 0);
  }

  /** Entries of a hull that no database has taken yet. */
  pendingOf(hull: string): number {
    const store = this.#stores.get(hull);
    return store === undefined ? 0 : store.saving.pending;
  }

  /** Makes the demo hull where it is not here yet; resolves to its key. */
  async openDemo(): Promise<string> {
    const store = this.open(DEMO_HULL);
    await store.ready;
    if (store.entries.length === 0) {
      const { demoEntries } = await import('./demo.ts');
      const entries = demoEntries();
      await this.#keeper.mark(DEMO_HULL, await this.#workOut(entries));
      await this.#handles.within(hullDatabase(DEMO_HULL), (database) =>
        writeEntries(database, entries, this.#around.random),
      );
      await store.readAgain();
      this.#keeper.soon(DEMO_HULL);
    }
    return DEMO_HULL;
  }

  /** Removes a hull from this device, with everything that was stated of it. Its entry file is to be offered first. */
  async remove(hull: string): Promise<void> {
    const name = this.#keeper.summaries.all.get(hull)?.name ?? hull;
    this.#leaving.add(hull);
    try {
      await this.#removing(hull, name);
      await this.#keeper.summaries.markRemoving(hull);
      this.#keeper.drop(hull);
      await this.#keeper.destroy(hull);
    } finally {
      this.#leaving.delete(hull);
    }
  }

  /** Takes the entries of an entry file, whatever hulls they belong to: see `takeIn`. */
  async importEntryFile(text: string): Promise<EntryFileReport> {
    const { parts, ...found } = partsOfFile(text);
    return { ...found, ...(await this.takeIn(parts)) };
  }

  /** Takes parts of entry files, each into its hull's database, and tells what was new. Rejects with a sentence for the
   *  person where the database fails; what was taken until then stays, and the same may be taken again. */
  async takeIn(parts: readonly HullPart[]): Promise<EntryFilesTaken> {
    const hulls: HullImport[] = [];
    let loose = 0;
    for (const part of parts) {
      try {
        if (part.entries.length > 0) {
          await this.#keeper.mark(part.hull, {
            ...(part.name !== undefined && { name: part.name }),
            ...(part.invented !== undefined && { invented: part.invented }),
          });
        } else if ((await this.#keeper.summaries.get(part.hull)) === undefined) {
          loose += part.attachments.length;
          continue;
        }
        const taken = await this.#handles.within(hullDatabase(part.hull), (database) =>
          takePart(database, part, this.#around.random),
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
      await this.#stores
        .get(part.hull)
        ?.readAgain()
        .catch(() => undefined);
      this.#keeper.soon(part.hull);
      this.#written(part.hull);
    }
    return { hulls, loose };
  }

  /** The entry file of a hull, with what waits to be saved. Where its database does not open, it is read past it; where
   *  that fails too, the file holds what this tab knows. Rejects where it knows nothing. */
  async exportEntryFile(hull: string): Promise<string> {
    const known = this.#stores.get(hull)?.entries ?? [];
    const waiting = await this.#waiting(hull);
    try {
      return await this.#handles.within(hullDatabase(hull), (database) =>
        within(EXPORT_WITHIN, fileOf(database, known, waiting), this.#around.after),
      );
    } catch {
      return this.#rescued(hull, known, waiting);
    }
  }

  /** Files that this tab holds and that wait to be saved with their entries. */
  async #waiting(hull: string): Promise<readonly Attachment[]> {
    const files = [...(this.#stores.get(hull)?.waitingFiles() ?? [])];
    return Promise.all(
      files.map(async ([entry, { name, type, data }]) => {
        const base64 = base64Of(new Uint8Array(await data.arrayBuffer()));
        return { entry, name, type, base64 };
      }),
    );
  }

  /** Every hull that a backup of the yard holds: those of the list that are not invented, and databases that the list
   *  does not know, so that a list that does not open keeps nothing out. */
  async hullsToBackUp(): Promise<readonly NamedHull[]> {
    await this.ready;
    const listed = this.hulls.filter(({ invented }) => !invented);
    const { all } = this.#keeper.summaries;
    const names = (await this.#around.databaseNames().catch(() => undefined)) ?? [];
    const unlisted = names.flatMap((each) => {
      const hull = hullOfDatabase(each);
      return hull === undefined || hull === DEMO_HULL || all.has(hull) ? [] : [hull];
    });
    return [
      ...listed.map(({ hull, name = hull }) => ({ hull, name })),
      ...unlisted.map((hull) => ({ hull, name: hull })),
    ];
  }

  /** The record of a hull piece by piece, its files one part at a time; otherwise as `exportEntryFile`. */
  async *record(hull: string): AsyncGenerator<RecordPiece> {
    const { contentsOf, recordOf, recordIn } = await import('./backup/hullRecord.ts');
    const known = this.#stores.get(hull)?.entries ?? [];
    const waiting = await this.#waiting(hull);
    const handle = this.#handles.take(hullDatabase(hull));
    try {
      const database = await handle.database();
      const contents = await within(
        EXPORT_WITHIN,
        contentsOf(database, known),
        this.#around.after,
      ).catch(() => undefined);
      if (contents === undefined) yield* recordIn(await this.#rescued(hull, known, waiting));
      else yield* recordOf(database, contents, waiting);
    } finally {
      handle.release();
    }
  }

  /** What is here of a hull, its files by name. A hull that is not here gets no database by being looked for. Rejects
   *  with the database's error. */
  async contents(hull: string): Promise<HullContents | undefined> {
    await this.ready;
    const store = this.#stores.get(hull);
    if (!this.#keeper.summaries.all.has(hull) && store === undefined) return undefined;
    const { contentsOf } = await import('./backup/hullRecord.ts');
    return this.#handles.within(hullDatabase(hull), (database) =>
      within(EXPORT_WITHIN, contentsOf(database, store?.entries ?? []), this.#around.after),
    );
  }

  /** Works every summary out again, from the databases that there are. */
  async rebuild(): Promise<void> {
    const names = (await this.#around.databaseNames()) ?? [];
    const hulls = names.map(hullOfDatabase).filter((hull) => hull !== undefined);
    for (const hull of new Set([...hulls, ...this.#keeper.summaries.all.keys()])) {
      await this.#keeper.mark(hull);
      await this.#keeper.work(hull);
    }
  }

  /** What an exchange with a server needs of the yard. */
  forSharing(): YardForSharing {
    return {
      handles: this.#handles,
      hulls: () => this.hulls.map(({ hull }) => hull).filter((hull) => !this.#leaving.has(hull)),
      mark: (hull) => this.#keeper.mark(hull),
      came: (hull) => this.#keeper.soon(hull),
    };
  }

  /** Tries again to open the list. */
  async retry(): Promise<void> {
    await this.#start();
  }

  /** Closes everything; what waits to be saved is given up. */
  close(): void {
    this.#stopSeeing();
    for (const store of this.#stores.values()) store.close();
    this.#stores.clear();
    this.#keeper.close();
  }

  async #start(): Promise<void> {
    this.state = 'opening';
    try {
      await this.#openList();
    } catch (error) {
      this.failure = failureOf(error);
      this.state = 'failed';
      return;
    }
    this.failure = undefined;
    this.state = 'ready';
    // Databases without a summary: it was thrown away, or its tab ended between the two.
    const names = (await this.#around.databaseNames().catch(() => undefined)) ?? [];
    for (const hull of names.map(hullOfDatabase)) {
      if (hull === undefined || this.#keeper.summaries.all.has(hull)) continue;
      await this.#keeper.mark(hull).catch(() => undefined);
    }
  }

  async #openList(): Promise<void> {
    try {
      await this.#keeper.summaries.open();
    } catch (error) {
      if (failureOf(error).kind !== 'full' || !(await this.#around.freeReserve())) throw error;
      await this.#keeper.summaries.open();
    }
  }

  async #rescued(
    hull: string,
    known: readonly Entry[],
    waiting: readonly Attachment[],
  ): Promise<string> {
    try {
      const { book, attachments } = readEntryFile(await this.#rescue(hull));
      const entries = [...entriesOf(book), ...known];
      return writeEntryFile(bookOf(entries), withWaiting(attachments, waiting));
    } catch (error) {
      if (known.length === 0) throw error;
      return writeEntryFile(bookOf(known), waiting);
    }
  }
}

const COLLATOR = new Intl.Collator();

function byName(a: Summary, b: Summary): number {
  const [first, second] = [a, b].map(({ name }) => name ?? '');
  return COLLATOR.compare(first, second) || (a.hull < b.hull ? -1 : 1);
}
