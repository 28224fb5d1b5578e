import { DEPTH_LIMIT, isPlainObject } from './plain.ts';

/** The one way to write a value as JSON: members sorted by UTF-16 code units, no white space, so that the same value
 *  always has the same bytes. `-0` is written as 0.
 *  Throws RangeError on what JSON cannot say (undefined, NaN, infinities, functions, dates, …) rather than writing null, and
 *  on nesting deeper than 64, which a ring of objects also meets.
 *  Source: RFC 8785 (JSON Canonicalization Scheme), section 3.2; a lone surrogate, which that scheme refuses, is
 *  written as its escape, so that whatever a person typed is kept. */
export function canonical(value: unknown): string {
  return written(value, 0);
}

function written(value: unknown, depth: number): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') {
    return JSON.stringify(value);
  }
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError(`got ${value}, expected a finite number`);
    return JSON.stringify(value);
  }
  if (typeof value !== 'object') {
    throw new RangeError(`got ${typeof value}, expected a value that JSON can say`);
  }
  if (depth >= DEPTH_LIMIT) {
    throw new RangeError(`got nesting deeper than ${DEPTH_LIMIT}, expected at most that`);
  }
  if (Array.isArray(value)) {
    return `[${Array.from(value, (item) => written(item, depth + 1)).join(',')}]`;
  }
  if (!isPlainObject(value)) {
    throw new RangeError('got an object of a class, expected a plain object');
  }
  const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([key, item]) => `${JSON.stringify(key)}:${written(item, depth + 1)}`).join(',')}}`;
}
