import * as v from 'valibot';

import { parseId } from './id.ts';
import { shown } from './plain.ts';

/** A file that belongs to an entry: a photo, an import's original. */
export interface Attachment {
  /** The id of its entry. */
  readonly entry: string;
  /** Its name, unique within the entry. */
  readonly name: string;
  /** Media type, as in `image/jpeg`. */
  readonly type: string;
  /** Its bytes in base64 with padding (RFC 4648, section 4). */
  readonly base64: string;
}

/** One line's worth of an attachment; `part` counts from 1 to `parts`. */
export interface AttachmentPart extends Attachment {
  readonly part: number;
  readonly parts: number;
}

/** Base64 characters in one part: 1 MB, and whole groups of four, so that each part can be decoded by itself. */
export const PART_LIMIT = 1_000_000;
const PARTS_LIMIT = 1_000;

const NAME = 'a name of 1 to 200 characters that starts with no underscore';
const TYPE = 'a media type of at most 100 characters';
const PART = 'part numbers from 1 to 1000';
const count = v.pipe(
  v.number(PART),
  v.integer(PART),
  v.minValue(1, PART),
  v.maxValue(PARTS_LIMIT, PART),
);

/** What a part says of itself beside its base64. */
const partSchema = v.strictObject({
  entry: v.pipe(
    v.string(),
    v.check((id) => parseId(id).ok, 'the id of an entry'),
  ),
  name: v.pipe(
    v.string(NAME),
    v.minLength(1, NAME),
    v.maxLength(200, NAME),
    v.regex(/^[^_]/u, NAME),
  ),
  type: v.pipe(
    v.string(TYPE),
    v.maxLength(100, TYPE),
    v.regex(/^[!-.0-~]+\/[!-~]+(?: *;[ -~]*)?$/, TYPE),
  ),
  part: count,
  parts: count,
});

export type PartRead =
  | { readonly ok: true; readonly part: AttachmentPart }
  | { readonly ok: false; readonly found: string; readonly expected: string };

/** A part from what its line says of it and its base64. */
export function readPart(header: unknown, base64: string): PartRead {
  const result = v.safeParse(partSchema, header, { abortEarly: true });
  if (!result.success) {
    const [issue] = result.issues;
    const where = v.getDotPath(issue) ?? 'attachment';
    return { ok: false, found: `${where}: ${shown(issue.input)}`, expected: issue.message };
  }
  const { part, parts } = result.output;
  if (part > parts) return { ok: false, found: `part ${part} of ${parts}`, expected: PART };
  if (base64.length > PART_LIMIT) {
    const found = `${base64.length} characters of base64`;
    return { ok: false, found, expected: `at most ${PART_LIMIT}` };
  }
  // Padding ends the whole attachment, so only its last part may have it.
  const form = part === parts ? /^[A-Za-z0-9+/]*={0,2}$/ : /^[A-Za-z0-9+/]+$/;
  if (base64.length % 4 !== 0 || !form.test(base64)) {
    return { ok: false, found: shown(base64), expected: 'base64 in whole groups of four' };
  }
  return { ok: true, part: { ...result.output, base64 } };
}

/** An attachment in parts of at most 1 MB of base64, at least one.
 *  Throws RangeError where it could not be read again: its entry's id, name, type, base64 or size out of form. */
export function partsOf(attachment: Attachment): readonly AttachmentPart[] {
  const { entry, name, type, base64 } = attachment;
  const parts = Math.max(1, Math.ceil(base64.length / PART_LIMIT));
  return Array.from({ length: parts }, (_, index) => {
    const slice = base64.slice(index * PART_LIMIT, (index + 1) * PART_LIMIT);
    const read = readPart({ entry, name, type, part: index + 1, parts }, slice);
    if (!read.ok) {
      throw new RangeError(
        `attachment ${shown(name)}: got ${read.found}, expected ${read.expected}`,
      );
    }
    return read.part;
  });
}
