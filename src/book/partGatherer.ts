import type { Attachment, AttachmentPart } from './attachment.ts';
import type { FileFault } from './entryFileScan.ts';

/** Where a part stands, and what is kept of it. */
export interface PlacedPart<Piece> {
  readonly row: number;
  /** Of its whole line: two parts of one digest are one. */
  readonly digest: string;
  /** Its base64, or where that is to be found. */
  readonly piece: Piece;
}

interface Gathered<Piece> {
  /** Attachments of which every part is there, in the order of their first lines, with their pieces in order. */
  readonly whole: readonly (Omit<Attachment, 'base64'> & { readonly pieces: readonly Piece[] })[];
  readonly faults: readonly FileFault[];
  /** Rows of parts that belong to no whole attachment. */
  readonly unread: readonly number[];
}
type Header = Omit<AttachmentPart, 'base64'>;

/** Puts the parts of attachments together again, whatever order their lines stand in. An attachment that lacks a part
 *  is not made up of the others: they are reported and handed back by their rows. */
export class PartGatherer<Piece> {
  readonly #byKey = new Map<string, Map<number, Header & PlacedPart<Piece>>>();
  readonly #faults: FileFault[] = [];
  readonly #unread: number[] = [];

  add(part: Header, placed: PlacedPart<Piece>): void {
    const { row, digest } = placed;
    const key = `${part.entry} ${part.name}`;
    const known = this.#byKey.get(key);
    if (known === undefined) {
      this.#byKey.set(key, new Map([[part.part, { ...part, ...placed }]]));
      return;
    }
    const twin = known.get(part.part);
    if (twin?.digest === digest) {
      this.#fault(row, `the part of line ${twin.row} again`, 'each part once');
      return;
    }
    const [first] = known.values();
    if (twin !== undefined || part.parts !== first.parts || part.type !== first.type) {
      this.#fault(
        row,
        `another attachment named ${JSON.stringify(part.name)}`,
        `one that goes with line ${first.row}`,
      );
      this.#unread.push(row);
      return;
    }
    known.set(part.part, { ...part, ...placed });
  }

  /** Everything taken so far. */
  result(): Gathered<Piece> {
    const whole: Gathered<Piece>['whole'][number][] = [];
    const faults = [...this.#faults];
    const unread = [...this.#unread];
    for (const parts of this.#byKey.values()) {
      const [{ entry, name, type, parts: needed, row }] = parts.values();
      if (parts.size === needed) {
        const inOrder = [...parts.values()].sort((a, b) => a.part - b.part);
        whole.push({ entry, name, type, pieces: inOrder.map(({ piece }) => piece) });
        continue;
      }
      const found = `${parts.size} of ${needed} parts of ${JSON.stringify(name)}`;
      faults.push({ row, column: 'attachment', found, expected: 'every part' });
      for (const part of parts.values()) unread.push(part.row);
    }
    return { whole, faults, unread };
  }

  #fault(row: number, found: string, expected: string): void {
    this.#faults.push({ row, column: 'attachment', found, expected });
  }
}
