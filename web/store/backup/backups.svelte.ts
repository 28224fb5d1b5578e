import * as v from 'valibot';

import { isKey } from '../../../src/book/id.ts';

const hulls = v.record(
  v.pipe(v.string(), v.check(isKey)),
  v.object({
    /** When it was backed up last, ISO 8601. */
    at: v.exactOptional(v.string()),
    /** How many entries it had then. */
    entries: v.exactOptional(v.pipe(v.number(), v.safeInteger(), v.minValue(0))),
    /** When it was first seen without a backup. */
    seen: v.exactOptional(v.string()),
  }),
);
const schema = v.object({ hulls: v.fallback(hulls, {}) });

/** What this device knows of its own backups of a hull. */
export type HullBackup = v.InferOutput<typeof hulls>[string];
export type Backups = Readonly<Record<string, Readonly<HullBackup>>>;

const STORED_AT = 'aftrun-backups';

/** When what was last backed up on this device. Where the browser keeps no settings it lasts as long as the page. */
export class BackupLog {
  hulls = $state.raw<Backups>({});

  readonly #storage: Pick<Storage, 'getItem' | 'setItem'> | undefined;
  /** The text that `hulls` were read from. */
  #text: string | undefined;

  constructor(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined) {
    this.#storage = storage;
    this.readAgain();
  }

  /** A backup was made: of these hulls, each with so many entries. */
  made(at: Date, entriesOf: ReadonlyMap<string, number>): void {
    this.#change(
      [...entriesOf].map(([hull, entries]) => [hull, { at: at.toISOString(), entries }]),
    );
  }

  /** These hulls stand here; one that is new to this is without a backup from now on. */
  seen(at: Date, here: readonly string[]): void {
    this.readAgain();
    const fresh = here.filter((hull) => !Object.hasOwn(this.hulls, hull));
    if (fresh.length === 0) return;
    this.#change(fresh.map((hull) => [hull, { seen: at.toISOString() }]));
  }

  /** Takes what another tab has noted. */
  readAgain(): void {
    try {
      const text = this.#storage?.getItem(STORED_AT);
      if (text === null || text === undefined || text === this.#text) return;
      this.#text = text;
      const read = v.safeParse(schema, JSON.parse(text));
      if (read.success) this.hulls = read.output.hulls;
    } catch {
      // Blocked, or something else stands there: as if nothing was ever noted.
    }
  }

  #change(changes: readonly (readonly [string, HullBackup])[]): void {
    this.readAgain();
    this.hulls = { ...this.hulls, ...Object.fromEntries(changes) };
    try {
      this.#storage?.setItem(STORED_AT, JSON.stringify({ hulls: this.hulls }));
    } catch {
      // No room, or blocked: known as long as the page is open.
    }
  }
}
