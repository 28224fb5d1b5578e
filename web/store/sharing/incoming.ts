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
  readonly #missing = new Map<string, Set<string>>();
  readonly #foreign = new Set<string>();

  constructor(options: IncomingOptions) {
    this.#options = options;
  }

  /** Looks at changes on the server; the hulls of which this device has not all that it carries. */
  async look(changes: readonly RemoteChange[]): Promise<readonly string[]> {
    const wanted: string[] = [];
    for (const [hull, list] of this.#carried(changes)) {
      const missing = this.#options.has(hull)
        ? await this.#options.within(hull, (local) => missingHere(local, list))
        : list.map(({ id }) => id);
      if (missing.length === 0) continue;
      this.#missing.set(hull, new Set([...(this.#missing.get(hull) ?? []), ...missing]));
      wanted.push(hull);
    }
    return wanted;
  }

  /** Ids of a hull that were seen on the server and not here. */
  missing(hull: string): readonly string[] {
    return [...(this.#missing.get(hull) ?? [])];
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
