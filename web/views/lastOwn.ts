import type { Entry } from '../../src/book/entry.ts';

/** The last entry of some kinds that one device stated of a survey and that stands. `owns`: whether a device is that
 *  one. */
export function lastOwn(
  standing: readonly Entry[],
  survey: string,
  kinds: readonly string[],
  owns: (device: string) => boolean,
): Entry | undefined {
  let last: Entry | undefined;
  for (const entry of standing) {
    if (!kinds.includes(entry.kind) || !entry._id.includes(`:${survey}:`)) continue;
    if (owns(entry.device) && (last === undefined || entry._id > last._id)) last = entry;
  }
  return last;
}
