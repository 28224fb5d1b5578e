import { FILE_HEAD, FILE_VERSION } from '../../src/book/fileLine.ts';
import type { FileFault } from '../../src/book/readEntryFile.ts';

/** What a file is instead, in two or three sentences, where neither its first line nor any other is an entry file's; absent
 *  where it is one, whole or not. `hulls`: how many it has entries of. */
export function notEntryFile(faults: readonly FileFault[], hulls: number): string | undefined {
  const head = hulls === 0 ? faults.find(({ column }) => column === 'version') : undefined;
  if (head === undefined || faults.some(({ column }) => OF_ENTRIES.has(column))) return undefined;
  const found = head.found.trim();
  const is = KINDS.find(([known]) => known.test(found));
  const said = is === undefined ? 'This is not an entry file.' : is[1];
  const legible = is === undefined || is[2];
  const begins = legible && found !== '' ? `, this one with “${found}”` : '';
  return `${said} An entry file begins with “${FILE_HEAD}${FILE_VERSION}”${begins}. Nothing was kept.`;
}

/** Only a line of an entry file can be wrong in these. */
const OF_ENTRIES: ReadonlySet<string> = new Set(['crc', 'entry', 'attachment', 'count', 'sha256']);

/** By the first line: what it is taken for, what is said of it, and whether a person could read that line. */
const KINDS: readonly (readonly [RegExp, string, boolean])[] = [
  [/^$|^an empty file$/, 'There is nothing in this file.', false],
  [
    new RegExp(`^${FILE_HEAD}`),
    'This entry file is of a version that this app does not read.',
    true,
  ],
  [
    /^PK[^ -~]/,
    'This is a packed file (zip): unpack it, and take the entry file that is in it.',
    false,
  ],
  // Bytes that are no text, or no letters: the file was read as UTF-8.
  // eslint-disable-next-line no-control-regex -- that is what no text has
  [/[\ufffd\u0000-\u0008]/, 'This is a picture, a document or the like, and no text.', false],
  [
    /^#|[,;\t].*[,;\t]/,
    'This looks like a table of readings: a CSV file is taken in on its hull’s page.',
    true,
  ],
];
