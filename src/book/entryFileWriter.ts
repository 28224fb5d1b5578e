import { type AttachmentPart, readPart } from './attachment.ts';
import type { Entry } from './entry.ts';
import { attachmentLine, endLine, entryLine, FILE_HEAD, FILE_VERSION } from './fileLine.ts';
import { shown } from './plain.ts';
import { Sha256 } from './sha256.ts';

/** Writes an entry file line by line, so that a yard's whole record never stands in memory: `head`, then entries and
 *  parts of attachments in any order and of any number of hulls, then `end`. Each gives its line with its line end. */
export class EntryFileWriter {
  readonly #hash = new Sha256();
  #lines = 0;

  head(): string {
    return this.#passed(`${FILE_HEAD}${FILE_VERSION}`);
  }

  entry(entry: Entry): string {
    this.#lines += 1;
    return this.#passed(entryLine(entry));
  }

  /** Throws RangeError on a part that could not be read again. */
  part({ base64, ...header }: AttachmentPart): string {
    const read = readPart(header, base64);
    if (!read.ok) {
      throw new RangeError(
        `attachment ${shown(header.name)}: got ${read.found}, expected ${read.expected}`,
      );
    }
    this.#lines += 1;
    return this.#passed(attachmentLine(read.part));
  }

  /** The last line; ends it. */
  end(): string {
    return `${endLine(this.#lines, this.#hash.hex())}\n`;
  }

  #passed(line: string): string {
    const text = `${line}\n`;
    this.#hash.update(new TextEncoder().encode(text));
    return text;
  }
}
