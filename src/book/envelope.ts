import * as v from 'valibot';

import type { Entry } from './entry.ts';
import { parseId } from './id.ts';
import { plainCopy, shown } from './plain.ts';

/** Version of the envelope that this code writes, and the only one that it reads. A field more in the envelope or in
 *  a body does not change it; a change that would make older code judge an entry wrongly does. */
export const ENVELOPE_VERSION = 1;
/** Strikes that one entry may carry: every row of the largest import that is kept as rows. */
export const STRIKE_LIMIT = 20_000;

export type EntryRead =
  | { readonly ok: true; readonly entry: Entry }
  | { readonly ok: false; readonly reason: string; readonly found: string };

const id = (what: string) =>
  v.pipe(
    v.string(what),
    v.check((text) => parseId(text).ok, what),
  );
const text = (what: string, limit: number) => {
  const full = `${what}, of 1 to ${limit} characters`;
  return v.pipe(v.string(full), v.minLength(1, full), v.maxLength(limit, full));
};
const TIME = 'a time in ISO 8601 with a zone, such as 2026-05-04T09:30:00Z';
const ROW = 'the row of a reading, a whole number of at least 0';
const STRIKES = `a list of 1 to ${STRIKE_LIMIT} strikes`;
const STRIKE = 'a strike: { entry, row? }';

/** The envelope. Fields that it does not name are let through. */
export const envelopeSchema = v.looseObject(
  {
    _id: id('the id of an entry'),
    v: v.literal(ENVELOPE_VERSION, `envelope version ${ENVELOPE_VERSION}`),
    kind: text('the kind of entry', 64),
    at: v.pipe(v.string(TIME), v.check(isZonedTime, TIME)),
    by: text('who stated it', 200),
    device: text('the device', 200),
    app: text('the version of the app', 64),
    strikes: v.exactOptional(
      v.pipe(
        v.array(
          v.looseObject(
            {
              entry: id('the id of the entry that is struck'),
              row: v.exactOptional(v.pipe(v.number(ROW), v.safeInteger(ROW), v.minValue(0, ROW))),
            },
            STRIKE,
          ),
          STRIKES,
        ),
        v.minLength(1, STRIKES),
        v.maxLength(STRIKE_LIMIT, STRIKES),
      ),
    ),
    why: v.exactOptional(text('the reason', 10_000)),
    body: v.unknown(),
  },
  'an entry',
);

/** An entry from something unknown: a stored document, a line of a file, an answer from a server.
 *  Kinds and fields that this code does not know are kept as they are. What is no entry is refused whole, with what
 *  was expected (`reason`, behind the field's name) and what stood there (`found`); nothing is mended. The entry is a
 *  copy of its own.
 *  Names that start with an underscore, other than `_id`, belong to a database (`_rev`): they are taken off before,
 *  and are refused here, or else one device's revision would travel in the entry. */
export function readEntry(value: unknown): EntryRead {
  const copy = plainCopy(value);
  if (!copy.ok) return refused(copy.where, copy.reason, copy.found);
  const result = v.safeParse(envelopeSchema, copy.value, { abortEarly: true });
  if (!result.success) {
    const [issue] = result.issues;
    const where = v.getDotPath(issue) ?? '';
    // A field that is not there fails as the object's own issue, in valibot's words.
    const missing = issue.type === 'loose_object' && issue.expected !== 'Object';
    return refused(
      where,
      missing ? 'a value' : issue.message,
      missing ? 'nothing' : shown(issue.input),
    );
  }
  // The copy rather than valibot's output, which leaves out fields named like a constructor.
  const entry: Entry = copy.value as typeof result.output;
  const foreign = Object.keys(entry).find((key) => key.startsWith('_') && key !== '_id');
  if (foreign !== undefined) {
    return refused(foreign.slice(0, 60), 'no field of a database but _id', 'one');
  }
  return { ok: true, entry };
}

function refused(where: string, expected: string, found: string): EntryRead {
  return {
    ok: false,
    reason: where === '' ? `expected ${expected}` : `${where}: expected ${expected}`,
    found,
  };
}

/** Date, time to the second or finer, and zone, as RFC 3339 profiles ISO 8601; the day must exist. */
function isZonedTime(value: string): boolean {
  const match =
    /^(\d{4})-(\d\d)-(\d\d)T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d{1,9})?(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/.exec(
      value,
    );
  if (match === null) return false;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}
