import type { HullCompared } from '../store/backup/restore.ts';
import { compared, entriesAt, restoreHull } from '../store/backup/restore.ts';
import { scanFile, type PlacedHull, type ScannedFile } from '../store/backup/scanFile.ts';
import { Stopped } from '../store/backup/writeBackup.ts';
import { reasonOf } from '../store/reasonOf.ts';
import type { HullToTake, Yard } from '../store/yard.svelte.ts';
import { breathe } from './breathe.ts';

/** A hull of the backup beside what is here; `problem`: why they could not be set side by side. */
export type HullInBackup =
  | (HullCompared & { readonly problem?: undefined })
  | { readonly hull: string; readonly name: string | undefined; readonly problem: string };

export interface RestorePreview {
  readonly scanned: ScannedFile;
  readonly hulls: readonly HullInBackup[];
}

export interface HullRestored {
  readonly hull: string;
  readonly name: string | undefined;
  readonly fresh: number;
  readonly files: number;
  readonly beside: number;
  readonly loose: number;
}

export interface RestoreWork {
  readonly doing: 'reading' | 'comparing' | 'restoring';
  /** Of the whole, 0 to 1. */
  readonly share: number;
  /** Hulls done with. */
  readonly hulls: number;
}

/** Looks a backup through, sets it beside what is here, and takes it in when it is told to; a hull at a time, so that
 *  a whole yard never stands in memory. */
export class RestoreDesk {
  work = $state.raw<RestoreWork | undefined>();
  preview = $state.raw<RestorePreview | undefined>();
  restored = $state.raw<readonly HullRestored[] | undefined>();
  problem = $state.raw('');
  told = $state.raw('');

  readonly #yard: Yard;
  #stopped = false;

  constructor(yard: Yard) {
    this.#yard = yard;
  }

  /** Reads a file and compares; changes nothing. */
  async look(file: Blob): Promise<void> {
    this.preview = undefined;
    this.restored = undefined;
    await this.#attempt('Stopped. Nothing was changed.', async () => {
      const stopped = (): boolean => this.#stopped;
      const scanned = await scanFile(file, {
        progress: (share) => this.#tell('reading', share, 0),
        pause: breathe,
        stopped,
      });
      const hulls: HullInBackup[] = [];
      for (const placed of scanned.hulls) {
        this.#tell('comparing', hulls.length / scanned.hulls.length, hulls.length);
        hulls.push(await this.#compared(file, placed));
        await this.#breathe();
      }
      this.preview = { scanned, hulls };
    });
  }

  /** Takes in everything that the preview shows. What is here already is left as it is. */
  async restore(): Promise<void> {
    const { preview } = this;
    if (preview === undefined) return;
    const { file, hulls } = preview.scanned;
    const restored: HullRestored[] = [];
    const done = await this.#attempt('', async () => {
      for (const placed of hulls) {
        this.#tell('restoring', restored.length / hulls.length, restored.length);
        const { hull, name } = placed;
        const takeIn = this.#yard.takeIn.bind(this.#yard);
        restored.push({ hull, name, ...(await restoreHull(file, placed, takeIn, breathe)) });
        await this.#breathe();
      }
    });
    this.restored = restored;
    if (done) this.preview = undefined;
    else if (this.problem === '') {
      this.told = `Stopped after ${restored.length} of ${hulls.length} hulls. What was restored stays; the same backup may be restored again.`;
    }
  }

  /** One hull of the backup, to be read entry by entry. */
  async toRead(hull: string): Promise<HullToTake | undefined> {
    const { scanned } = this.preview ?? {};
    const placed = scanned?.hulls.find((each) => each.hull === hull);
    if (scanned === undefined || placed === undefined) return undefined;
    const here = await this.#yard.contents(hull);
    const { name } = placed;
    return {
      part: {
        hull,
        ...(name !== undefined && { name }),
        entries: await entriesAt(scanned.file, placed.entries),
        attachments: [],
      },
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

  async #compared(file: Blob, placed: PlacedHull): Promise<HullInBackup> {
    let here;
    try {
      here = await this.#yard.contents(placed.hull);
    } catch (error) {
      return { hull: placed.hull, name: placed.name, problem: reasonOf(error) };
    }
    return compared(file, placed, here);
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
