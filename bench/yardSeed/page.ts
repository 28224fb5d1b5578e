import type { Entry } from '../../src/book/entry.ts';
import { hullDatabase } from '../../web/store/database.ts';
import { writeEntries } from '../../web/store/entryStore.ts';
import { pouchInBrowser } from '../../web/store/pouch.ts';

const open = pouchInBrowser();

/** Writes made hulls where the app keeps its own; the app finds them at its next start and works their summaries out. */
const seed = async (hull: string, entries: readonly Entry[]): Promise<void> => {
  const database = open(hullDatabase(hull));
  await writeEntries(database, entries, (count) => crypto.getRandomValues(new Uint8Array(count)));
  await database.close();
};

declare global {
  interface Window {
    seed: typeof seed;
  }
}

window.seed = seed;
