import { parseId } from '../../../src/book/id.ts';
import type { Database } from '../database.ts';
import { isDemo } from '../demoHull.ts';
import { missingHere } from './exchange.ts';
import type { RemoteChange } from './remote.ts';
import { carries, type SharingSettings } from './settings.ts';

export interface IncomingOptions {
  readonly settings: Pick<SharingSettings, 'carry' | 'without'>;
  readonly now: () => Date;
  /** Whether a hull is on this device. */
  readonly has: (hull: string) => boolean;
  readonly within: <T>(hull: string, use: (local: Database) => Promise<T>) => Promise<T>;
}

/** What has come on the server, as ids, and is not here. */
export class Incoming {
  readonly #options: IncomingOptions;
  /** By hull and id. */
  readonly #missing = new Map<string, Map<string, RemoteChange>>();
  readonly #foreign = new Set<string>();

  constructor(options: IncomingOptions) {
    this.#options = options;
  }

  /** Looks at changes on the server; the hulls of which this device has not all that it carries. */
  async look(changes: readonly RemoteChange[]): Promise<readonly string[]> {
    const wanted: string[] = [];
    for (const [hull, list] of this.#carried(changes)) {
      const ids = this.#options.has(hull)
        ? new Set(await this.#options.within(hull, (local) => missingHere(local, list)))
        : undefined;
      const missing = list.filter(({ id }) => ids === undefined || ids.has(id));
      if (missing.length === 0) continue;
      const known = this.#missing.get(hull) ?? new Map<string, RemoteChange>();
      for (const change of missing) known.set(change.id, change);
      this.#missing.set(hull, known);
      wanted.push(hull);
    }
    return wanted;
  }

  /** What of a hull was seen on the server and not here. */
  missing(hull: string): readonly RemoteChange[] {
    return [...(this.#missing.get(hull)?.values() ?? [])];
  }

  /** Everything that was missing is here. */
  level(): void {
    this.#missing.clear();
  }

  /** How many documents on the server are no entries of any hull. */
  get foreign(): number {
    return this.#foreign.size;
  }

  #carried(changes: readonly RemoteChange[]): ReadonlyMap<string, readonly RemoteChange[]> {
    const { settings, now, has } = this.#options;
    const year = now().getUTCFullYear();
    const byHull = new Map<string, RemoteChange[]>();
    for (const change of changes) {
      const parsed = parseId(change.id);
      if (!parsed.ok) {
        if (!change.id.startsWith('_')) this.#foreign.add(change.id);
        continue;
      }
      const { hull, time } = parsed;
      if (isDemo(hull) || !(has(hull) || carries(settings, hull, time, year))) continue;
      const list = byHull.get(hull);
      if (list === undefined) byHull.set(hull, [change]);
      else list.push(change);
    }
    return byHull;
  }
}
