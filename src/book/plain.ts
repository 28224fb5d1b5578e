/** Nesting that an entry may have. */
export const DEPTH_LIMIT = 64;
/** Length of the longest text in an entry, in UTF-16 code units. */
export const TEXT_LIMIT = 1_000_000;
/** Number of values in an entry: an import of 20,000 rows of 25 columns fits twice. */
export const VALUE_LIMIT = 1_000_000;

export type PlainCopy =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly where: string; readonly reason: string; readonly found: string };

/** A copy of a value that holds nothing but what JSON can say, within the limits above; or the first place that does
 *  not. The copy shares no object with the value, so that nobody can change an entry afterwards. Keys that a plain
 *  object could take for more than a name (`__proto__`) are refused, not dropped: what a hostile file brings must
 *  show. `-0` comes back as 0, as canonical JSON writes it. */
export function plainCopy(value: unknown): PlainCopy {
  try {
    return { ok: true, value: copied(value, [], { values: 0 }) };
  } catch (error) {
    if (error instanceof NotPlain) {
      return { ok: false, where: error.where, reason: error.reason, found: error.found };
    }
    throw error;
  }
}

/** A value in at most 80 characters, for a message. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(cut(value));
  if (value === null || typeof value === 'number' || typeof value === 'boolean') {
    return String(value);
  }
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' ? 'an object' : `a ${typeof value}`;
}

/** The first 60 characters of a text, with an ellipsis where there were more. */
export function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

class NotPlain extends Error {
  readonly where: string;
  constructor(
    path: readonly (string | number)[],
    readonly reason: string,
    readonly found: string,
  ) {
    super(reason);
    this.where = path.map((step) => cut(String(step))).join('.');
  }
}

function copied(value: unknown, path: (string | number)[], seen: { values: number }): unknown {
  seen.values += 1;
  if (seen.values > VALUE_LIMIT) {
    throw new NotPlain(path, `at most ${VALUE_LIMIT} values`, 'more');
  }
  if (value === null || typeof value === 'boolean') return value;
  if (typeof value === 'string') return copiedText(value, path);
  if (typeof value === 'number' && Number.isFinite(value)) return value === 0 ? 0 : value;
  if (typeof value !== 'object') {
    throw new NotPlain(path, 'a value that JSON can say', shown(value));
  }
  if (path.length >= DEPTH_LIMIT) {
    throw new NotPlain(path.slice(0, 3), `nesting of at most ${DEPTH_LIMIT}`, 'deeper');
  }
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    for (let index = 0; index < value.length; index += 1) {
      path.push(index);
      list.push(copied(value[index], path, seen));
      path.pop();
    }
    return list;
  }
  return copiedObject(value, path, seen);
}

function copiedText(text: string, path: readonly (string | number)[]): string {
  if (text.length <= TEXT_LIMIT) return text;
  throw new NotPlain(path, `text of at most ${TEXT_LIMIT} characters`, `${text.length} characters`);
}

function copiedObject(value: object, path: (string | number)[], seen: { values: number }): object {
  if (!isPlainObject(value)) throw new NotPlain(path, 'a plain object', 'an object of a class');
  const object: Record<string, unknown> = {};
  for (const [key, item] of Object.entries(value)) {
    path.push(key);
    copiedText(key, path);
    if (key === '__proto__') throw new NotPlain(path, 'an ordinary name', '"__proto__"');
    object[key] = copied(item, path, seen);
    path.pop();
  }
  return object;
}

/** Whether an object is of no class; also true of one of another window, whose Object.prototype is not ours. */
export function isPlainObject(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}
