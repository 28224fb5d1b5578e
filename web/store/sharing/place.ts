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

/** What a device finds of its marks on the server. */
interface Left {
  readonly mark?: unknown;
  readonly before?: unknown;
  readonly rev?: string;
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
    return kept !== undefined && isOf(kept, await this.#left(kept.key));
  }

  /** From where to look. */
  async seq(): Promise<Seq> {
    const kept = await this.#options.keeper.place();
    return kept?.choice === this.#options.choice ? kept.seq : 0;
  }

  /** Keeps the beginning, on whatever database this is. */
  async begin(): Promise<void> {
    const kept = await this.#options.keeper.place();
    const key = kept?.key ?? this.#made();
    await this.#keep(0, key, kept, await this.#left(key));
  }

  /** Keeps a place; false, and nothing is kept, where the server's database is another than it was. What it has is looked
   *  at in the same breath: a mark left on another one would let it pass for this one. */
  async keep(seq: Seq): Promise<boolean> {
    const kept = await this.#options.keeper.place();
    if (kept === undefined) return false;
    const left = await this.#left(kept.key);
    if (!isOf(kept, left)) return false;
    await this.#keep(seq, kept.key, kept, left);
    return true;
  }

  /** The new mark is kept first there, then here, or else a break between the two would make the server's database seem
   *  older than it is. */
  async #keep(seq: Seq, key: string, kept: PlaceKept | undefined, { rev }: Left): Promise<void> {
    const { keeper, remote, choice } = this.#options;
    const next: PlaceKept = { seq, choice, key, mark: this.#made() };
    await remote.keepLocal(next.key, {
      mark: next.mark,
      ...(kept !== undefined && { before: kept.mark }),
      ...(rev !== undefined && { _rev: rev }),
    });
    await keeper.keepPlace(next);
  }

  async #left(key: string): Promise<Left> {
    const left = await this.#options.remote.local(key);
    if (left === undefined) return {};
    const { mark, before, _rev: rev } = left;
    return { mark, before, ...(rev !== undefined && { rev }) };
  }

  #made(): string {
    return [...this.#options.random(10)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  }
}

/** Whether what was found is the mark that was kept. The answer to the last mark may have been lost on the way. */
function isOf({ mark: kept }: PlaceKept, { mark, before }: Left): boolean {
  return kept === mark || kept === before;
}
