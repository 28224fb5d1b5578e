import type { Attachment, AttachmentPart } from './attachment.ts';

interface Gathered {
  readonly attachments: readonly Attachment[];
  readonly faults: readonly Fault[];
  readonly unread: readonly Line[];
}
interface Fault {
  readonly row: number;
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}
interface Line {
  readonly row: number;
  readonly text: string;
}
type PlacedPart = AttachmentPart & Line;

/** Puts the parts of attachments together again, whatever order their lines stand in. An attachment that lacks a part
 *  is not made up of the others: they are reported and handed back as lines. */
export class PartGatherer {
  readonly #byKey = new Map<string, Map<number, PlacedPart>>();
  readonly #faults: Fault[] = [];
  readonly #unread: Line[] = [];

  /** Takes the part that stands on line `row`, whose whole text is `text`. */
  add(part: AttachmentPart, row: number, text: string): void {
    const key = `${part.entry} ${part.name}`;
    const known = this.#byKey.get(key);
    if (known === undefined) {
      this.#byKey.set(key, new Map([[part.part, { ...part, row, text }]]));
      return;
    }
    const twin = known.get(part.part);
    if (twin?.text === text) {
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
      this.#unread.push({ row, text });
      return;
    }
    known.set(part.part, { ...part, row, text });
  }

  /** Everything taken so far, attachments in the order of their first lines. */
  result(): Gathered {
    const attachments: Attachment[] = [];
    const faults = [...this.#faults];
    const unread = [...this.#unread];
    for (const parts of this.#byKey.values()) {
      const [{ entry, name, type, parts: needed, row }] = parts.values();
      if (parts.size === needed) {
        const inOrder = [...parts.values()].sort((a, b) => a.part - b.part);
        attachments.push({ entry, name, type, base64: inOrder.map((p) => p.base64).join('') });
        continue;
      }
      const found = `${parts.size} of ${needed} parts of ${JSON.stringify(name)}`;
      faults.push({ row, column: 'attachment', found, expected: 'every part' });
      for (const part of parts.values()) unread.push({ row: part.row, text: part.text });
    }
    return { attachments, faults, unread };
  }

  #fault(row: number, found: string, expected: string): void {
    this.#faults.push({ row, column: 'attachment', found, expected });
  }
}
