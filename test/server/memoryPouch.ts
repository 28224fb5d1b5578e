import { createRequire } from 'node:module';

import type { Database } from '../../web/store/database.ts';

export interface MemoryPouch {
  new (name: string, options: object): Database;
  defaults(options: object): unknown;
  plugin(plugin: unknown): void;
}

const require = createRequire(import.meta.url);

/** PouchDB with databases in memory, for servers and tablets in node. The browser's build asks for `self` while it
 *  loads. */
export const memoryPouch = ((): MemoryPouch => {
  const globals = globalThis as { self?: unknown };
  const before = globals.self;
  globals.self = globalThis;
  const loaded = require('pouchdb-browser') as MemoryPouch & { readonly default?: MemoryPouch };
  if (before === undefined) delete globals.self;
  const made = loaded.default ?? loaded;
  made.plugin(require('pouchdb-adapter-memory'));
  return made;
})();
