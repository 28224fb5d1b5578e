import type { Seq } from '../database.ts';
import type { PlaceKept, ProgressKeeper } from './progress.ts';
import type { Remote } from './remote.ts';

export interface PlaceOptions {
  readonly keeper: ProgressKeeper;
  readonly remote: Pick<Remote, 'local' | 'keepLocal'>;
  /** The choice of hulls that is looked at, as one text: with another one it is looked from the beginning. */
  readonly choice: string;
  readonly random: (count: number) => Uint8Array;
}

/** Up to where this device has looked at what came on the server, and how it knows the server's database again: with each
 *  place it leaves a mark there. A database that was dropped and made anew, or brought back from an older copy, has
 *  another mark or none, and then nothing counts that was kept of it. Marks lie in documents that are never replicated
 *  (`_local/`), as the checkpoints of replication do. */
export class Place {
  readonly #options: PlaceOptions;

  constructor(options: PlaceOptions) {
    this.#options = options;
  }

  /** Whether the server's database is the one that it was when a place was kept last; where none was, it is taken for
   *  another. */
  async same(): Promise<boolean> {
    const kept = await this.#options.keeper.place();
    if (kept === undefined) return false;
    const { mark, before } = await this.#left(kept.key);
    // The answer to the last mark may have been lost on the way.
    return kept.mark === mark || kept.mark === before;
  }

  /** From where to look. */
  async seq(): Promise<Seq> {
    const kept = await this.#options.keeper.place();
    return kept?.choice === this.#options.choice ? kept.seq : 0;
  }

  /** Keeps a place, with a new mark: first there, then here, or else a break between the two would make the server's
   *  database seem older than it is. */
  async keep(seq: Seq): Promise<void> {
    const { keeper, remote, choice } = this.#options;
    const kept = await keeper.place();
    const next: PlaceKept = { seq, choice, key: kept?.key ?? this.#made(), mark: this.#made() };
    const { rev } = await this.#left(next.key);
    await remote.keepLocal(next.key, {
      mark: next.mark,
      ...(kept !== undefined && { before: kept.mark }),
      ...(rev !== undefined && { _rev: rev }),
    });
    await keeper.keepPlace(next);
  }

  async #left(
    key: string,
  ): Promise<{ readonly mark?: unknown; readonly before?: unknown; readonly rev?: string }> {
    const left = await this.#options.remote.local(key);
    if (left === undefined) return {};
    const { mark, before, _rev: rev } = left;
    return { mark, before, ...(rev !== undefined && { rev }) };
  }

  #made(): string {
    return [...this.#options.random(10)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  }
}
