import type { Sharing } from './sharing.svelte.ts';
import type { SharingSettings, withoutHull } from './settings.ts';

/** What the door needs to start sharing with: the part that does it is loaded only where it is wanted. */
export interface SharingDoorOptions {
  readonly place: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> | undefined;
  readonly load: () => Promise<{
    readonly settings: () => SharingSettings | undefined;
    readonly keep: (settings: SharingSettings | undefined) => boolean;
    readonly start: (settings: SharingSettings) => Sharing;
    readonly withoutHull: typeof withoutHull;
  }>;
}

/** Where sharing settings stand in the browser's storage. */
export const SHARING_STORED_AT = 'aftrun-sharing';

/** The way to sharing, for a device that shares and for one that does not. */
export class SharingDoor {
  /** The exchange; absent where nothing is shared, and until it is loaded. */
  current = $state.raw<Sharing | undefined>();
  settings = $state.raw<SharingSettings | undefined>();
  /** Set where sharing is wanted and the part that does it could not be loaded. */
  missing = $state(false);

  readonly #options: SharingDoorOptions;
  #order: Promise<unknown> = Promise.resolve();

  constructor(options: SharingDoorOptions) {
    this.#options = options;
  }

  /** Starts sharing where it is set up, anew where it was set up otherwise, and ends it where it is no more. */
  begin(): Promise<void> {
    const begun = this.#order.then(() => this.#begin());
    this.#order = begun;
    return begun;
  }

  /** Shares with these settings from now on, or with none no more; whether the browser keeps that. */
  async share(settings: SharingSettings | undefined): Promise<boolean> {
    const kept = (await this.#options.load()).keep(settings);
    await this.begin();
    return kept;
  }

  /** A hull is being removed from this device: what the others enter of it is not to bring it back. Resolves when nothing
   *  exchanges it any more. */
  async removing(hull: string, name: string): Promise<void> {
    const { settings } = this;
    if (settings === undefined) return;
    const { withoutHull } = await this.#options.load();
    await this.share(withoutHull(settings, { hull, name }));
  }

  /** Entries of a hull were written on this device. */
  written(hull: string): void {
    this.current?.written(hull);
  }

  async #begin(): Promise<void> {
    if (this.current === undefined && !this.#wanted()) return;
    try {
      const { settings: read, start } = await this.#options.load();
      const settings = read();
      if (JSON.stringify(settings) === JSON.stringify(this.settings)) return;
      const before = this.current;
      before?.stop();
      this.settings = settings;
      this.current = undefined;
      await before?.over();
      this.current = settings === undefined ? undefined : start(settings);
      this.missing = false;
    } catch {
      this.missing = true;
    }
  }

  #wanted(): boolean {
    try {
      return (this.#options.place?.getItem(SHARING_STORED_AT) ?? null) !== null;
    } catch {
      return false;
    }
  }
}
