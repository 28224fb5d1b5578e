import type { OpenDatabase } from './database.ts';
import type { UnsavedShelf } from './unsavedShelf.ts';

/** Who states something, on what, with which version of the app. */
export interface Signature {
  readonly by: string;
  readonly device: string;
  readonly app: string;
}

/** Everything around the store that is not the store: storage, clock, randomness, other tabs. */
export interface Surroundings {
  readonly open: OpenDatabase;
  readonly now: () => Date;
  /** That many random bytes. */
  readonly random: (count: number) => Uint8Array;
  /** Calls back after some milliseconds; the answer calls it off. */
  readonly after: (milliseconds: number, call: () => void) => () => void;
  /** Calls back whenever the page comes to be seen again; the answer ends that. */
  readonly onVisible: (call: () => void) => () => void;
  /** Calls back whenever the page goes out of sight or ends, which may be the last that it hears; the answer ends that. */
  readonly onLeaving: (call: () => void) => () => void;
  /** Where entries stand that no database has taken when the page goes. */
  readonly unsaved: UnsavedShelf;
  /** Does something while no other tab does anything under that name. */
  readonly alone: (name: string, work: () => Promise<void>) => Promise<void>;
  /** Names of the databases that exist; absent where the browser does not tell. */
  readonly databaseNames: () => Promise<readonly string[] | undefined>;
  /** Gives room kept back for a full disk to the databases; whether there was any. */
  readonly freeReserve: () => Promise<boolean>;
  readonly signature: () => Signature;
  /** Whether an entry's device is this one. */
  readonly owns: (device: string) => boolean;
}
