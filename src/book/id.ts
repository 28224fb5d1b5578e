/** Ids of entries: `<hull: 12>:<survey: 12, or 0>:<time: 10><random: 16>`.
 *  Time (50 bits) and random bits (80) are written in lower-case Crockford base32, most significant first, so that
 *  ids of one survey sort by time. Time serves the order of reading only; nothing may depend on it.
 *  Source of the alphabet: D. Crockford, "Base 32" (crockford.com/base32.html): no i, l, o, u. Only the canonical
 *  lower-case letters are read, because two spellings of one id would be two ids. */

const ALPHABET = '0123456789abcdefghjkmnpqrstvwxyz';
const ID_FORM =
  /^(?<hull>[0-9a-hjkmnp-tv-z]{12}):(?<survey>0|[0-9a-hjkmnp-tv-z]{12}):(?<time>[0-9a-hjkmnp-tv-z]{10})(?<random>[0-9a-hjkmnp-tv-z]{16})$/;
const KEY_FORM = /^[0-9a-hjkmnp-tv-z]{12}$/;
const TIME_LIMIT = 2 ** 50;
const KEY_BYTES = 8;
const RANDOM_BYTES = 10;

/** What stands in place of a survey's key when an entry belongs to the hull itself. */
export const NO_SURVEY = '0';

export interface IdParts {
  /** The hull's key, 12 characters. */
  readonly hull: string;
  /** The survey's key, 12 characters, or `'0'` for the hull itself. */
  readonly survey: string;
  /** Milliseconds since 1970-01-01T00:00Z, a whole number from 0 to 2^50 − 1. */
  readonly time: number;
  /** Exactly 10 random bytes. */
  readonly random: Uint8Array;
}

export type ParsedId =
  | {
      readonly ok: true;
      readonly hull: string;
      readonly survey: string;
      readonly time: number;
      readonly random: string;
    }
  | { readonly ok: false; readonly reason: string };

/** Whether a text is the key of a hull or of a survey: 12 characters of lower-case Crockford base32. */
export function isKey(text: string): boolean {
  return KEY_FORM.test(text);
}

/** A new key for a hull or a survey: 12 characters from the first 60 bits of 8 random bytes.
 *  Throws RangeError on any other number of bytes. */
export function newKey(random: Uint8Array): string {
  return base32(bytesOf(random, KEY_BYTES)).slice(0, 12);
}

/** The id of an entry. Throws RangeError on a key, a time or a number of random bytes out of form. */
export function entryId({ hull, survey, time, random }: IdParts): string {
  requireKey('hull', hull);
  if (survey !== NO_SURVEY) requireKey('survey', survey);
  if (!Number.isInteger(time) || time < 0 || time >= TIME_LIMIT) {
    throw new RangeError(
      `time: got ${String(time)}, expected whole milliseconds from 0 to 2^50 - 1`,
    );
  }
  return `${hull}:${survey}:${timeText(time)}${base32(bytesOf(random, RANDOM_BYTES))}`;
}

/** Takes an id apart, or says what is wrong with it. `random` comes back as its 16 characters. */
export function parseId(id: string): ParsedId {
  const groups = ID_FORM.exec(id)?.groups;
  if (groups === undefined) return { ok: false, reason: whatIsWrong(id) };
  const { hull, survey, time, random } = groups as Record<keyof IdParts, string>;
  const ms = [...time].reduce((sum, letter) => sum * 32 + ALPHABET.indexOf(letter), 0);
  return { ok: true, hull, survey, time: ms, random };
}

/** First and last key of a hull's ids, or of one survey's (`'0'`: the hull's own), for reading a store by range.
 *  No id of another hull or survey lies between them, whether a store sorts by bytes or by UTF-16 code units. */
export function idRange(
  hull: string,
  survey?: string,
): { readonly startkey: string; readonly endkey: string } {
  requireKey('hull', hull);
  if (survey !== undefined && survey !== NO_SURVEY) requireKey('survey', survey);
  const prefix = survey === undefined ? `${hull}:` : `${hull}:${survey}:`;
  return { startkey: prefix, endkey: `${prefix}\ufff0` };
}

function requireKey(name: string, key: string): void {
  if (!isKey(key)) {
    throw new RangeError(
      `${name}: got ${JSON.stringify(key)}, expected 12 characters of lower-case Crockford base32`,
    );
  }
}

function bytesOf(random: Uint8Array, length: number): Uint8Array {
  if (random.length !== length) {
    throw new RangeError(`random: got ${random.length} bytes, expected ${length}`);
  }
  return random;
}

function timeText(time: number): string {
  let rest = time;
  let text = '';
  for (let place = 0; place < 10; place += 1) {
    text = ALPHABET.charAt(rest % 32) + text;
    rest = Math.floor(rest / 32);
  }
  return text;
}

/** Five bits a letter, most significant first; bits that fill no whole letter are left out. */
function base32(bytes: Uint8Array): string {
  let text = '';
  let held = 0;
  let bits = 0;
  for (const byte of bytes) {
    held = (held << 8) | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      text += ALPHABET.charAt((held >> bits) & 31);
      held &= (1 << bits) - 1;
    }
  }
  return text;
}

function whatIsWrong(id: string): string {
  const parts = id.split(':');
  if (parts.length !== 3) return `${parts.length} parts, expected hull:survey:time-and-random`;
  const [hull = '', survey = '', tail = ''] = parts;
  if (!isKey(hull)) return 'the hull is not 12 characters of lower-case Crockford base32';
  if (survey !== NO_SURVEY && !isKey(survey)) {
    return 'the survey is neither 0 nor 12 characters of lower-case Crockford base32';
  }
  if (tail.length !== 26) return `${tail.length} characters after the survey, expected 26`;
  return 'time and random are not lower-case Crockford base32';
}
