import PouchDB from 'pouchdb-browser';

import type { Database } from './database.ts';
import { refusedLater } from './refusedLater.ts';
import { strictDurability } from './strictDurability.ts';

/** Opens PouchDB databases in this browser's IndexedDB. The `idb` adapter is named because reports of lost data are
 *  open against the other one. */
export function pouchInBrowser(): (name: string) => Database {
  strictDurability();
  refusedLater();
  return (name) => new PouchDB(name, { adapter: 'idb' }) as unknown as Database;
}

/** Opens a database on a server by its address. It is not made where it is not there. */
export function pouchOverHttp(
  address: string,
  fetch: (url: string, options?: RequestInit) => Promise<Response>,
): Database {
  return new PouchDB(address, { skip_setup: true, fetch } as object) as unknown as Database;
}

/** What the `idb` adapter puts before the names of its databases in IndexedDB. */
export const IDB_PREFIX = '_pouch_';
