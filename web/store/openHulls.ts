import type { Attachment } from '../../src/book/attachment.ts';
import type { Entry } from '../../src/book/entry.ts';
import { base64Of } from './base64.ts';
import type { HullStore } from './hullStore.svelte.ts';

/** The hulls that this tab has open, each once, and what of them waits to be saved: leaving now would lose that. */
export class OpenHulls {
  readonly #make: (hull: string) => HullStore;
  readonly #stores = new Map<string, HullStore>();

  constructor(make: (hull: string) => HullStore) {
    this.#make = make;
  }

  /** A hull's store, made when it is first asked for. */
  open(hull: string): HullStore {
    const store = this.#stores.get(hull) ?? this.#make(hull);
    this.#stores.set(hull, store);
    return store;
  }

  has(hull: string): boolean {
    return this.#stores.has(hull);
  }

  /** Lets a hull's store go, unless something of it waits to be saved. */
  release(hull: string): void {
    if (this.pendingOf(hull) > 0) return;
    this.#stores.get(hull)?.close();
    this.#stores.delete(hull);
  }

  /** A hull was removed from this device. */
  removed(hull: string): void {
    this.#stores.get(hull)?.close('removed');
    this.#stores.delete(hull);
  }

  /** Entries of any hull that no database has taken. */
  get pending(): number {
    return [...this.#stores.values()].reduce((sum, { saving }) => sum + saving.pending, 0);
  }

  /** Entries of a hull that no database has taken; none of one that is not open. */
  pendingOf(hull: string): number {
    const store = this.#stores.get(hull);
    return store === undefined ? 0 : store.saving.pending;
  }

  /** What this tab knows of a hull, saved or not. */
  entries(hull: string): readonly Entry[] {
    return this.#stores.get(hull)?.entries ?? [];
  }

  /** Files of a hull that wait to be saved with their entries. */
  async waitingFiles(hull: string): Promise<readonly Attachment[]> {
    const files = [...(this.#stores.get(hull)?.waitingFiles() ?? [])];
    return Promise.all(
      files.map(async ([entry, { name, type, data }]) => {
        const base64 = base64Of(new Uint8Array(await data.arrayBuffer()));
        return { entry, name, type, base64 };
      }),
    );
  }

  /** Reads what others have written to a hull, where it is open. */
  async readAgain(hull: string): Promise<void> {
    await this.#stores
      .get(hull)
      ?.readAgain()
      .catch(() => undefined);
  }

  /** Closes all; what waits to be saved is given up. */
  close(): void {
    for (const store of this.#stores.values()) store.close();
    this.#stores.clear();
  }
}
