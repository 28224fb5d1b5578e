import { expect, vi } from 'vitest';

import { draftOf, type Draft } from '../../../src/survey/kinds/draft.ts';
import type { Database } from '../../../web/store/database.ts';
import { Handles } from '../../../web/store/handles.ts';
import { HullStore } from '../../../web/store/hullStore.svelte.ts';
import type { Surroundings } from '../../../web/store/surroundings.ts';
import { UnsavedShelf, type Shelf } from '../../../web/store/unsavedShelf.ts';

interface Pouch {
  new (name: string, options: object): Database;
  plugin(plugin: unknown): void;
}

// The browser's build asks for `self` while it loads.
vi.stubGlobal('self', globalThis);
const { default: PouchDB } = (await import('pouchdb-browser')) as unknown as { default: Pouch };
const memory = 'pouchdb-adapter-memory';
PouchDB.plugin(((await import(/* @vite-ignore */ memory)) as { default: unknown }).default);
vi.unstubAllGlobals();

/** An invented hull and survey for tests. */
export const HULL = '0123456789ab';
export const SURVEY = 'cdefghjkmnpq';

let count = 0;

/** As localStorage is. */
export class ShelfInMemory implements Shelf {
  readonly #kept = new Map<string, string>();
  get length(): number {
    return this.#kept.size;
  }
  key(place: number): string | null {
    return [...this.#kept.keys()].at(place) ?? null;
  }
  getItem(key: string): string | null {
    return this.#kept.get(key) ?? null;
  }
  setItem(key: string, text: string): void {
    this.#kept.set(key, text);
  }
  removeItem(key: string): void {
    this.#kept.delete(key);
  }
}

/** One browser's storage in memory, and tabs on it. Names of its databases are its own. */
export class Machine {
  readonly #prefix = `machine-${(count += 1)}-`;
  readonly #names = new Set<string>();
  #locks = Promise.resolve();
  /** While true, whatever is written fails as a full disk does in PouchDB, and that handle is dead ever after. */
  full = false;
  /** Handles that were opened, by name. */
  readonly opened: string[] = [];
  reserve = true;
  /** While true, whatever is written waits for ever, as it does where the page is ended meanwhile. */
  still = false;
  /** Writes that wait for ever. */
  waiting = 0;
  readonly shelf: Shelf = new ShelfInMemory();

  tab(device = 'Tablet 1'): Tab {
    return new Tab(this, device);
  }

  /** A handle of its own, for looking past the store. */
  raw(name: string): Database {
    this.#names.add(name);
    return new PouchDB(this.#prefix + name, { adapter: 'memory' });
  }

  open(name: string): Database {
    this.opened.push(name);
    const database = this.raw(name);
    let dead = false;
    const guarded =
      <A extends unknown[], R>(act: (...args: A) => Promise<R>, writes: boolean) =>
      (...args: A): Promise<R> => {
        if (dead) return Promise.reject(new DOMException('closing', 'InvalidStateError'));
        if (writes && this.still) {
          this.waiting += 1;
          return new Promise(() => undefined);
        }
        if (!writes || !this.full) return act(...args);
        dead = true;
        return Promise.reject(
          Object.assign(new Error('indexed_db_went_bad'), {
            status: 500,
            name: 'indexed_db_went_bad',
            reason: 'QuotaExceededError',
          }),
        );
      };
    return new Proxy(database, {
      get: (target, key) => {
        const value = Reflect.get(target, key, target) as unknown;
        if (typeof value !== 'function') return value;
        // In memory all handles of a name share one store, whichever tab closes first.
        if (key === 'close') return () => Promise.resolve();
        const act = value.bind(target) as (...args: unknown[]) => Promise<unknown>;
        if (key === 'destroy') this.#names.delete(name);
        // In memory it gives bytes, in a browser a Blob.
        if (key === 'getAttachment') {
          return async (...args: unknown[]) => new Blob([(await act(...args)) as BlobPart]);
        }
        if (key === 'bulkDocs' || key === 'put') return guarded(act, true);
        if (key === 'get' || key === 'info') return guarded(act, false);
        return act;
      },
    });
  }

  names(): readonly string[] {
    return [...this.#names];
  }

  alone(work: () => Promise<void>): Promise<void> {
    const done = this.#locks.then(work);
    this.#locks = done.catch(() => undefined);
    return done;
  }
}

/** One tab: its clock goes a second a look, its randomness counts, its timers go off when told. */
export class Tab {
  readonly around: Surroundings;
  readonly handles: Handles;
  readonly #seen = new Set<() => void>();
  readonly #leaving = new Set<() => void>();
  #timers: { due: number; call: () => void }[] = [];
  #clock = Date.UTC(2026, 4, 4, 9, 30, 0);
  #passed = 0;
  person = 'Yard hand';

  constructor(
    readonly machine: Machine,
    readonly device: string,
  ) {
    this.around = {
      open: (name) => machine.open(name),
      now: () => new Date((this.#clock += 1000)),
      random: (length) => {
        const bytes = new Uint8Array(length);
        new DataView(bytes.buffer).setUint32(length - 4, (count += 1));
        // The first bits too, which keys are made of.
        new DataView(bytes.buffer).setUint32(0, count);
        return bytes;
      },
      after: (milliseconds, call) => this.#after(milliseconds, call),
      onVisible: (call) => {
        this.#seen.add(call);
        return () => this.#seen.delete(call);
      },
      onLeaving: (call) => {
        this.#leaving.add(call);
        return () => this.#leaving.delete(call);
      },
      unsaved: new UnsavedShelf(machine.shelf),
      alone: (_, work) => machine.alone(work),
      databaseNames: () => Promise.resolve(machine.names()),
      freeReserve: () => {
        const had = machine.reserve;
        machine.reserve = false;
        return Promise.resolve(had);
      },
      signature: () => ({ by: this.person, device: this.device, app: '0.1.0' }),
      owns: (name) => name === this.device,
    };
    this.handles = new Handles(this.around.open, this.around.after);
  }

  store(hull = HULL): HullStore {
    return new HullStore({ hull, around: this.around, handles: this.handles });
  }

  /** Lets time pass. */
  pass(milliseconds: number): void {
    this.#passed += milliseconds;
    const due = this.#timers.filter((timer) => timer.due <= this.#passed);
    this.#timers = this.#timers.filter((timer) => timer.due > this.#passed);
    for (const { call } of due) call();
  }

  /** The page comes to be seen. */
  see(): void {
    for (const call of this.#seen) call();
  }

  /** The page goes out of sight. */
  leave(): void {
    for (const call of this.#leaving) call();
  }

  #after(milliseconds: number, call: () => void): () => void {
    if (milliseconds === 0) {
      const timer = setTimeout(call, 0);
      return () => clearTimeout(timer);
    }
    const timer = { due: this.#passed + milliseconds, call };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((one) => one !== timer);
    };
  }
}

export function hullDraft(name: string): Draft {
  return draftOf('hull', { name });
}

export function surveyDraft(): Draft {
  return draftOf('survey', { workUnit: 'in', measured: 'hand', date: '2026-05-04' });
}

/** A reading of so many mm on a placement that need not be there. */
export function readingDraft(mm: number): Draft {
  return draftOf('reading', {
    placement: 'placement',
    station: { mm: 0, text: '0' },
    gap: { mm, text: String(mm) },
    look: 1,
  });
}

/** The gaps of the readings that stand, ascending. */
export function gapsIn(store: HullStore): readonly number[] {
  return store.standing.standing
    .flatMap(({ kind, body }) =>
      kind === 'reading' ? [(body as { gap: { mm: number } }).gap.mm] : [],
    )
    .sort((a, b) => a - b);
}

/** Waits until something is so. */
export async function until(ask: () => unknown): Promise<void> {
  await expect.poll(ask, { interval: 2 }).toBeTruthy();
}
