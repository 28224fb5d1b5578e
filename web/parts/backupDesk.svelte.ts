/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { scanFile } from '../store/backup/scanFile.ts';
import type { BackupLog } from '../store/backup/backups.svelte.ts';
import {
  Stopped,
  writeBackup,
  type BackupProgress,
  type BackupWritten,
  type NamedHull,
} from '../store/backup/writeBackup.ts';
import { reasonOf } from '../store/reasonOf.ts';
import type { Yard } from '../store/yard.svelte.ts';
import { backupName } from '../views/backupView.ts';
import { chooseFile, shareFile, textFile, type BackupWay } from './backupWays.ts';
import { breathe } from './breathe.ts';
import { safeName, saveBlob } from './saveFile.ts';
import { today } from './today.ts';

/** What became of the last backup that was asked for. */
export interface BackupOutcome {
  readonly written: BackupWritten;
  readonly name: string;
  /** `checked`: read back from where it was saved, and found whole; `handed over`: to the browser or another app, which
   *  do not say what became of it; `ready`: made, and waiting for another tap. */
  readonly state: 'checked' | 'handed over' | 'ready';
}

/** Makes one backup at a time, of the yard or of one hull, and notes when that was. */
export class BackupDesk {
  /** What is being done, and how far it is. */
  work = $state.raw<{ doing: 'writing' | 'checking'; progress: BackupProgress } | undefined>();
  outcome = $state.raw<BackupOutcome | undefined>();
  problem = $state.raw('');
  told = $state.raw('');

  readonly #yard: Yard;
  readonly #log: BackupLog;
  /** The one hull; absent for the whole yard. */
  readonly #one: NamedHull | undefined;
  #stopped = false;
  #ready: File | undefined;

  constructor(yard: Yard, log: BackupLog, one?: NamedHull) {
    this.#yard = yard;
    this.#log = log;
    this.#one = one;
  }

  /** Makes the backup and hands it over. To be called from a tap, which a file picker and a share sheet want. */
  async make(way: BackupWay): Promise<void> {
    if (this.work !== undefined) return;
    this.outcome = undefined;
    this.problem = '';
    this.told = '';
    this.#ready = undefined;
    this.#stopped = false;
    const name = safeName(backupName(this.#one?.name, today()));
    try {
      if (way === 'file') await this.#toFile(name);
      else await this.#toBlob(name, way);
    } catch (error) {
      if (error instanceof Stopped) this.told = 'Stopped. No backup was made.';
      else this.problem = `${reasonOf(error)} No backup was made.`;
    }
    this.work = undefined;
  }

  stop(): void {
    this.#stopped = true;
  }

  /** Shares the backup that is ready. */
  async shareReady(): Promise<void> {
    const { outcome } = this;
    if (this.#ready === undefined || outcome === undefined) return;
    this.problem = '';
    try {
      await this.#share(this.#ready, outcome.written, outcome.name);
    } catch (error) {
      this.problem = reasonOf(error);
    }
  }

  async #toFile(name: string): Promise<void> {
    const chosen = await chooseFile(name);
    if (chosen === undefined) return;
    const writable = await chosen.createWritable();
    let written: BackupWritten;
    try {
      written = await this.#write((text) => writable.write(text));
      await writable.close();
    } catch (error) {
      // What stood in the file before stays as it was.
      await writable.abort().catch(() => undefined);
      throw error;
    }
    const file = await chosen.getFile();
    this.#made(written, file.name, await this.#checked(file, written));
  }

  /** Reads a file back from where it was saved; one that is not what was written is no backup. */
  async #checked(file: File, written: BackupWritten): Promise<'checked' | 'handed over'> {
    const share = (of: number): BackupProgress => ({ ...written, hulls: of * written.of });
    try {
      const { faults } = await scanFile(file, {
        progress: (read) => (this.work = { doing: 'checking', progress: share(read) }),
        pause: breathe,
        stopped: () => this.#stopped,
      });
      if (faults.length === 0) return 'checked';
    } catch (error) {
      // Stopped by the person: it was written all the same.
      if (error instanceof Stopped) return 'handed over';
      throw error;
    }
    throw new Error('The file, read back, is not what was written.');
  }

  async #toBlob(name: string, way: 'download' | 'share'): Promise<void> {
    const pieces: Blob[] = [];
    const written = await this.#write((text) => {
      // A Blob each, which a browser moves out of memory when there are many.
      pieces.push(new Blob([text]));
      return Promise.resolve();
    });
    const file = textFile(pieces, name);
    if (way === 'share') return this.#share(file, written, name);
    saveBlob(file, name);
    this.#made(written, name, 'handed over');
  }

  async #share(file: File, written: BackupWritten, name: string): Promise<void> {
    const became = await shareFile(file);
    if (became === 'shared') {
      this.#ready = undefined;
      this.#made(written, name, 'handed over');
    } else {
      this.#ready = file;
      this.outcome = { written, name, state: 'ready' };
    }
  }

  #made(written: BackupWritten, name: string, state: BackupOutcome['state']): void {
    this.outcome = { written, name, state };
    const counts = new Map(written.entriesOf);
    for (const { hull, entries, dirty } of this.#yard.hulls) {
      const known = counts.get(hull);
      // A content that two devices kept twice is one line of the file, and two of the list's count.
      if (known !== undefined && !dirty) counts.set(hull, Math.max(known, entries));
    }
    this.#log.made(new Date(), counts);
  }

  async #write(write: (text: string) => Promise<void>): Promise<BackupWritten> {
    const hulls = this.#one === undefined ? await this.#yard.hullsToBackUp() : [this.#one];
    if (hulls.length === 0) throw new Error('There is no hull here to back up.');
    return writeBackup({
      hulls,
      record: (hull) => this.#yard.records.pieces(hull),
      write,
      pause: breathe,
      progress: (progress) => (this.work = { doing: 'writing', progress }),
      stopped: () => this.#stopped,
    });
  }
}
