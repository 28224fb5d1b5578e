import * as v from 'valibot';

import { defineKind } from './kind.ts';
import { reference, words } from './pieces.ts';

/** Rows that one import holds at most. */
export const IMPORT_ROWS = 20_000;

/** What the columns of an import are called. `act` is reading, void or later; `placement` counts from 0 in the body's
 *  `placements`; `station`, `gap` and `division` are mm. A cell that says nothing is null. Other columns are kept. */
export const IMPORT_COLUMNS = [
  'act',
  'placement',
  'station',
  'station text',
  'gap',
  'gap text',
  'look',
  'division',
  'reads',
  'weight',
  'reason',
  'note',
] as const;

/** The column for readings of placements across: which of the body's `lines`, from 0. */
export const LINE_COLUMN = 'line';

/** What a column of the file that the tool does not know is called before its own heading. */
export const EXTRA_COLUMN = 'file: ';

/** A file that is kept whole beside the entry because its rows are too many for one: a log. */
const keptFile = v.looseObject({
  /** The attachment in which it stands, gzipped. */
  name: words,
  /** Of its bytes before they were gzipped, in hexadecimal. */
  sha256: v.pipe(v.string('expected text'), v.regex(/^[0-9a-f]{64}$/, 'expected a SHA-256')),
  /** Units that the person gave beside the file, by column. */
  given: v.record(v.string(), v.string('expected text')),
  /** For each of \`placements\`: which lay of the file it is, and how many readings that has. */
  lays: v.array(
    v.looseObject({
      lay: words,
      count: v.pipe(v.number('expected a count'), v.safeInteger('expected a count')),
    }),
  ),
});

const ROWS = `expected at most ${IMPORT_ROWS} rows`;

/** Readings, voids and stations put off that came from a file, one a row; or, where they are
 *  too many, the file itself, kept as an attachment of the entry (its rows then cannot be struck singly). A strike with `row` (its place in `rows`,
 *  from 0) strikes one of them. */
export const importKind = defineKind({
  kind: 'import',
  scope: 'survey',
  refers: ['placements', 'lines'],
  schema: v.pipe(
    v.looseObject({
      /** The file's name. */
      file: v.exactOptional(words),
      /** Which heading of the file was read as what. */
      mapping: v.record(v.string(), v.string('expected text')),
      /** The unit that each figure stood in. */
      units: v.record(v.string(), v.string('expected text')),
      count: v.pipe(v.number('expected a count'), v.safeInteger('expected a count')),
      placements: v.array(reference),
      /** The lines that placements across were read on. */
      lines: v.exactOptional(v.array(reference)),
      kept: v.exactOptional(keptFile),
      columns: v.array(v.string('expected text')),
      rows: v.pipe(
        v.array(
          v.array(
            v.union(
              [v.string(), v.pipe(v.number(), v.finite()), v.null()],
              'expected text, a number or null',
            ),
          ),
          'expected rows',
        ),
        v.maxLength(IMPORT_ROWS, ROWS),
      ),
    }),
    v.check(
      (body) => body.kept !== undefined || body.count === body.rows.length,
      'expected as many rows as `count` says',
    ),
    v.check(
      ({ kept, placements }) => kept === undefined || kept.lays.length === placements.length,
      'expected a lay of the kept file for each placement',
    ),
    v.check(
      (body) => IMPORT_COLUMNS.slice(0, 4).every((column) => body.columns.includes(column)),
      'expected columns for act, placement, station and station text',
    ),
  ),
});
