import { bookOf, entriesOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import type { HullCompared, HullRestored } from '../store/backup/restore.ts';
import { compared, entriesAt, restoreHull } from '../store/backup/restore.ts';
import { hullsIn, scanFile, type PlacedHull, type ScannedFile } from '../store/backup/scanFile.ts';
import { Stopped } from '../store/backup/writeBackup.ts';
import { reasonOf } from '../store/reasonOf.ts';
import type { Yard } from '../store/yard.svelte.ts';
import { breathe } from './breathe.ts';

/** One hull of the files, to be read entry by entry. */
export interface HullToTake {
  readonly hull: string;
  /** As the files name it, or else as it is called here. */
  readonly name?: string;
  readonly entries: readonly Entry[];
  /** Photos and logs that come with them. */
  readonly files: number;
  /** Every content of its entries on this device, saved or not. */
  readonly here: readonly Entry[];
  readonly isHere: boolean;
}

/** A hull of the files beside what is here; `problem`: why they could not be set side by side. */
export type HullInBackup =
  | (HullCompared & { readonly problem?: undefined })
  | { readonly hull: string; readonly name: string | undefined; readonly problem: string };

export interface RestorePreview {
  readonly files: readonly (ScannedFile & { readonly name: string })[];
  readonly hulls: readonly HullInBackup[];
}

export interface RestoreWork {
  readonly doing: 'reading' | 'comparing' | 'restoring';
  /** Of the whole, 0 to 1. */
  readonly share: number;
  /** Hulls done with. */
  readonly hulls: number;
}

/** Looks entry files through, sets what they hold beside what is here, and takes it in when it is told to; a hull at a
 *  time, so that a whole yard never stands in memory. Several files are taken as one, whichever comes first. */
export class RestoreDesk {
  work = $state.raw<RestoreWork | undefined>();
  preview = $state.raw<RestorePreview | undefined>();
  restored = $state.raw<readonly HullRestored[] | undefined>();
  problem = $state.raw('');
  told = $state.raw('');

  readonly #yard: Yard;
  #placed: readonly PlacedHull[] = [];
  #stopped = false;

  constructor(yard: Yard) {
    this.#yard = yard;
  }

  /** Reads files and compares; changes nothing. */
  async look(chosen: readonly File[]): Promise<void> {
    this.preview = undefined;
    this.restored = undefined;
    await this.#attempt('Stopped. Nothing was changed.', async () => {
      const stopped = (): boolean => this.#stopped;
      const all = chosen.reduce((sum, { size }) => sum + size, 0);
      const files: (ScannedFile & { readonly name: string })[] = [];
      let before = 0;
      for (const file of chosen) {
        const scanned = await scanFile(file, {
          progress: (share) => this.#tell('reading', (before + share * file.size) / all, 0),
          pause: breathe,
          stopped,
        });
        files.push({ name: file.name, ...scanned });
        before += file.size;
      }
      this.#placed = hullsIn(files);
      const hulls: HullInBackup[] = [];
      for (const placed of this.#placed) {
        this.#tell('comparing', hulls.length / this.#placed.length, hulls.length);
        hulls.push(await this.#compared(placed));
        await this.#breathe();
      }
      this.preview = { files, hulls };
    });
  }

  /** Takes in everything that the preview shows. What is here already is left as it is. */
  async restore(): Promise<void> {
    if (this.preview === undefined) return;
    const hulls = this.#placed;
    const restored: HullRestored[] = [];
    const done = await this.#attempt('', async () => {
      for (const placed of hulls) {
        this.#tell('restoring', restored.length / hulls.length, restored.length);
        const takeIn = this.#yard.takeIn.bind(this.#yard);
        restored.push(await restoreHull(placed, takeIn, breathe));
        await this.#breathe();
      }
    });
    this.restored = restored;
    if (done) this.preview = undefined;
    else if (this.problem === '') {
      this.told = `Stopped after ${restored.length} of ${hulls.length} hulls. What was taken in stays; the same may be taken in again.`;
    }
  }

  /** One hull of the files, to be read entry by entry. */
  async toRead(hull: string): Promise<HullToTake | undefined> {
    const placed = this.#placed.find((each) => each.hull === hull);
    if (placed === undefined) return undefined;
    const here = await this.#yard.contents(hull);
    const known = this.#yard.hulls.find((each) => each.hull === hull)?.name;
    const name = placed.named?.name ?? known;
    return {
      hull,
      ...(name !== undefined && { name }),
      entries: entriesOf(bookOf(await entriesAt(placed.entries))),
      files: placed.files.length,
      here: here?.entries ?? [],
      isHere: here !== undefined && here.entries.length > 0,
    };
  }

  stop(): void {
    this.#stopped = true;
  }

  leave(): void {
    this.preview = undefined;
    this.problem = '';
    this.told = 'Left. Nothing was changed.';
  }

  async #compared(placed: PlacedHull): Promise<HullInBackup> {
    let here;
    try {
      here = await this.#yard.contents(placed.hull);
    } catch (error) {
      return { hull: placed.hull, name: placed.named?.name, problem: reasonOf(error) };
    }
    return compared(placed, here);
  }

  async #attempt(stopped: string, act: () => Promise<void>): Promise<boolean> {
    this.#stopped = false;
    this.problem = '';
    this.told = '';
    let done = false;
    try {
      await act();
      done = true;
    } catch (error) {
      if (error instanceof Stopped) this.told = stopped;
      else this.problem = reasonOf(error);
    }
    this.work = undefined;
    return done;
  }

  #tell(doing: RestoreWork['doing'], share: number, hulls: number): void {
    this.work = { doing, share, hulls };
  }

  async #breathe(): Promise<void> {
    await breathe();
    if (this.#stopped) throw new Stopped('stopped');
  }
}
