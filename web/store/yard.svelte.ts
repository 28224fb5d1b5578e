/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { newKey } from '../../src/book/id.ts';
import { draftOf } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { HullContents } from './backup/hullRecord.ts';
import type { NamedHull } from './backup/writeBackup.ts';
import { hullDatabase, hullOfDatabase } from './database.ts';
import { DEMO_HULL } from './demoHull.ts';
import { writeEntries } from './entryStore.ts';
import { failureOf, type StoreFailure } from './failure.ts';
import { Handles } from './handles.ts';
import { HullRecords } from './hullRecords.ts';
import { HullStore } from './hullStore.svelte.ts';
import { OpenHulls } from './openHulls.ts';
import type { Summary } from './summaries.svelte.ts';
import { SummaryKeeper } from './summaryKeeper.ts';
import { workOutHere, type WorkOut } from './summaryClient.ts';
import type { Surroundings } from './surroundings.ts';
import { takeIn, type HullPart, type PartsTaken } from './takeIn.ts';

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

/** Every hull on this device, in a list, and the way to each: `open` while it is worked on, `records` as it leaves the
 *  device, `takeIn` as it comes. */
export class Yard {
  state = $state.raw<'opening' | 'ready' | 'failed'>('opening');
  /** Why the state is `failed`. */
  failure = $state.raw<StoreFailure | undefined>();

  readonly #around: Surroundings;
  readonly #handles: Handles;
  readonly #workOut: WorkOut;
  readonly #keeper: SummaryKeeper;
  readonly #written: (hull: string) => void;
  readonly #removing: (hull: string, name: string) => Promise<void>;
  readonly #stopSeeing: () => void;
  readonly #open: OpenHulls;
  /** Hulls that are being removed by this tab. */
  readonly #leaving = new Set<string>();
  readonly ready: Promise<void>;
  readonly records: HullRecords;

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
    this.#handles = new Handles(around.open, around.after);
    this.#keeper = new SummaryKeeper({
      around,
      handles: this.#handles,
      engine,
      workOut,
      isOpen: (hull) => this.#open.has(hull),
      gone: (hull) => {
        this.#open.removed(hull);
        around.unsaved.forget(hull);
      },
    });
    this.#open = new OpenHulls((hull) => this.#storeOf(hull));
    this.records = new HullRecords({
      after: around.after,
      handles: this.#handles,
      open: this.#open,
      rescue,
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
    return this.#open.open(hull);
  }

  #storeOf(hull: string): HullStore {
    return new HullStore({
      hull,
      around: this.#around,
      handles: this.#handles,
      beforeWrite: () => this.#keeper.mark(hull),
      written: () => {
        this.#keeper.soon(hull);
        this.#written(hull);
      },
    });
  }

  /** Lets a hull's store go, unless something of it waits to be saved. */
  release(hull: string): void {
    this.#open.release(hull);
  }

  /** Entries of any hull that no database has taken: leaving now would lose them. */
  get pending(): number {
    return this.#open.pending;
  }

  /** Entries of a hull that no database has taken yet. */
  pendingOf(hull: string): number {
    return this.#open.pendingOf(hull);
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

  /** Takes parts of entry files, each into its hull's database, and tells what was new: see `takeIn.ts`. */
  takeIn(parts: readonly HullPart[]): Promise<PartsTaken> {
    return takeIn(parts, {
      handles: this.#handles,
      random: this.#around.random,
      isHere: async (hull) => (await this.#keeper.summaries.get(hull)) !== undefined,
      before: (hull, known) => this.#keeper.mark(hull, known),
      written: async (hull) => {
        await this.#open.readAgain(hull);
        this.#keeper.soon(hull);
        this.#written(hull);
      },
    });
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

  /** What is here of a hull, its files by name. A hull that is not here gets no database by being looked for. Rejects
   *  with the database's error. */
  async contents(hull: string): Promise<HullContents | undefined> {
    await this.ready;
    const isHere = this.#keeper.summaries.all.has(hull) || this.#open.has(hull);
    return isHere ? this.records.contents(hull) : undefined;
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
    this.#open.close();
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
    // Their stores take in what a page before this one had no time to save.
    for (const hull of this.#around.unsaved.hulls()) this.open(hull);
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
}

const COLLATOR = new Intl.Collator();

function byName(a: Summary, b: Summary): number {
  const [first, second] = [a, b].map(({ name }) => name ?? '');
  return COLLATOR.compare(first, second) || (a.hull < b.hull ? -1 : 1);
}
