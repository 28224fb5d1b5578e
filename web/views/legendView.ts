import { hatchPath, type Box } from './hatch.ts';
import { readingMark } from './readingMark.ts';
import { LETTERS } from './sectionMarks.ts';

/** A sign of the profiles with what it means, drawn in a box of 34 by 18. */
export interface LegendEntry {
  readonly key: string;
  readonly words: string;
  readonly letter?: string;
  readonly box?: Box;
  readonly hatch?: string;
  readonly path?: string;
  readonly mark?: string;
}

const BOX: Box = { x: 1, y: 1, width: 32, height: 16 };
const BAR = 'M17,2V16';

const ENTRIES: readonly LegendEntry[] = [
  {
    key: 'hook',
    words: 'hook: hollow, to fill',
    letter: LETTERS.hook,
    box: BOX,
    hatch: hatchPath(BOX, 7, 'rising'),
  },
  {
    key: 'rocker',
    words: 'rocker: proud',
    letter: LETTERS.rocker,
    box: BOX,
    hatch: hatchPath(BOX, 7, 'falling'),
  },
  { key: 'fair', words: 'fair, proven', letter: LETTERS.fair, box: BOX },
  {
    key: 'undecided',
    words: 'undecided: not proven either way',
    letter: LETTERS.undecided,
    box: BOX,
  },
  { key: 'reading', words: 'reading, 95 %', path: BAR, mark: readingMark(0, 17, 9, 3.4) },
  { key: 'again', words: 'second look', path: BAR, mark: readingMark(0, 17, 9, 3.4) },
  { key: 'placement', words: 'second placement', path: BAR, mark: readingMark(1, 17, 9, 3.4) },
  { key: 'ahead', words: 'ahead of the limit, not judged', mark: readingMark(0, 17, 9, 3.4) },
  { key: 'void', words: 'void', path: 'M12.5,4.5l9,9m0,-9l-9,9' },
  { key: 'later', words: 'come back later', mark: readingMark(0, 17, 9, 4.5) },
  {
    key: 'surface',
    words: 'surface, with its band of 95 %',
    box: { x: 1, y: 4, width: 32, height: 10 },
    path: 'M1,9H33',
  },
  { key: 'chord', words: 'straight line that shows the departure', path: 'M1,9H33' },
  { key: 'allowed', words: 'allowed beside it', path: 'M1,9H33' },
  { key: 'edge', words: 'straightedge as laid', path: 'M1,9H33M1.5,4V14M32.5,4V14' },
];

/** The signs with these keys, in their own order; all where none are named. */
export function legendEntries(only?: readonly string[]): readonly LegendEntry[] {
  return only === undefined ? ENTRIES : ENTRIES.filter(({ key }) => only.includes(key));
}
