import type { Entry } from '../../src/book/entry.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { entryId, parseId } from '../../src/book/id.ts';
import type { Signature, Surroundings } from './surroundings.ts';

/** Ids of this device go on from its last, also when its clock was set back, so that undo finds the last. One that
 *  claims to be from the far future is passed over: ids have no room beyond. */
const TIME_LIMIT = 2 ** 49;

/** Ids for as many entries, each of the survey given, or `'0'` for the hull. */
export type Ids = (surveys: readonly string[]) => readonly string[];

/** Signs what is stated of a hull on this device. The entries of one act share the random end of their ids, and each
 *  has a time of its own, later than any before. */
export class Pen {
  readonly #hull: string;
  readonly #around: Surroundings;
  #last = 0;

  constructor(hull: string, around: Surroundings) {
    this.#hull = hull;
    this.#around = around;
  }

  /** Takes note of entries that are there, so that what is signed next comes after them. */
  note(entries: readonly Entry[]): void {
    for (const { _id, device } of entries) {
      const parsed = parseId(_id);
      if (parsed.ok && parsed.time < TIME_LIMIT && this.#around.owns(device)) {
        this.#last = Math.max(this.#last, parsed.time);
      }
    }
  }

  /** The entries of one act, as copies that nobody else can change. Throws RangeError on what is no entry. */
  sign(
    make: (ids: Ids, signature: Signature & { readonly at: string }) => readonly Entry[],
  ): readonly Entry[] {
    const now = this.#around.now();
    const random = this.#around.random(10);
    const ids: Ids = (surveys) =>
      surveys.map((survey) => {
        this.#last = Math.max(now.getTime(), this.#last + 1);
        return entryId({ hull: this.#hull, survey, time: this.#last, random });
      });
    return make(ids, { at: now.toISOString(), ...this.#around.signature() }).map(ownCopy);
  }
}

/** Read as if it had come from elsewhere. */
function ownCopy(entry: Entry): Entry {
  const read = readEntry(entry);
  if (!read.ok) throw new RangeError(`${entry.kind}: ${read.reason}, got ${read.found}`);
  return read.entry;
}
