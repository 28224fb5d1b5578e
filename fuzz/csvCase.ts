import { readCsv } from '../src/survey/csv/readCsv.ts';
import type { Fault } from '../src/survey/csv/fault.ts';
import { splitFile, type FileRow } from '../src/survey/csv/splitFile.ts';
import { writeCsv } from '../src/survey/csv/writeCsv.ts';
import { assess } from '../src/survey/assess.ts';
import { readLog } from '../src/survey/log/readLog.ts';
import type { Survey } from '../src/survey/survey.ts';

/** What became of the places of one file where a gap could stand. */
export interface CsvCounts {
  kept: number;
  void: number;
  later: number;
  blank: number;
  refused: number;
}

/** Reads a CSV file as the app does, and looks that nothing of it is lost in silence: every place where a gap could
 *  stand is kept, void, put off, blank, or in a row that is refused with a reason. Throws where that is not so. */
export function csvCase(text: string): CsvCounts {
  const counts: CsvCounts = { kept: 0, void: 0, later: 0, blank: 0, refused: 0 };
  const asLog = readLog(new TextEncoder().encode(text));
  if (asLog !== undefined) {
    if (!asLog.ok) reasonsIn(asLog.faults);
    if (asLog.ok) assess(asLog.survey);
  }
  const read = readCsv(text);
  if (!read.ok) reasonsIn(read.faults);
  const split = splitFile(text);
  if (!split.ok) {
    if (read.ok) throw new Error('a file that cannot be split was read');
    counts.refused += 1;
    return counts;
  }
  const { file } = split;
  const { columns, form } = read.recognised;
  const survey = read.ok ? read.survey : read.partial;
  const found = sourcesOf(survey);
  counts.kept = found.kept;
  counts.void = found.voids;
  counts.later = found.later;
  const lines = columns.filter(({ is }) => is === 'a line').length;
  const places = form === 'wide' ? lines : 1;
  // A reason that refuses several rows stands at the first of them.
  let besides = read.ok ? 0 : read.faults.reduce((sum, { rows = 1 }) => sum + rows - 1, 0);
  const refused = new Set(read.ok ? [] : read.faults.map(({ row }) => row));
  // Where the head cannot be understood, no row is looked at, and the reasons stand at the head.
  const whole = !read.ok && [...refused].some((row) => row <= file.header.row);
  const blankAt = columns.flatMap(({ is }, place) =>
    form === 'wide'
      ? is === 'a line'
        ? [place]
        : []
      : ['gap', 'void', 'later'].includes(is)
        ? [place]
        : [],
  );
  for (const row of file.rows) {
    if (refused.has(row.row) || whole) {
      counts.refused += places - Math.min(places, found.byRow.get(row.row) ?? 0);
      continue;
    }
    const blank = blankIn(row, blankAt, form === 'wide');
    counts.blank += blank;
    const here = found.byRow.get(row.row);
    const missing = places - (here ?? NONE) - blank;
    if (missing > 0 && besides >= missing) {
      besides -= missing;
      counts.refused += missing;
      continue;
    }
    // Of a log, readings of one station are one, with the first row as its source.
    if (survey.kind === 'hand' && missing !== 0) {
      throw new Error(`row ${row.row}: ${places} places, ${here ?? NONE} kept and ${blank} blank`);
    }
  }
  if (survey.kind === 'log' && !whole && read.ok) {
    const all = file.rows.length * places;
    if (counts.kept + counts.void + counts.later + counts.blank !== all) {
      throw new Error(`a log of ${all} places: ${JSON.stringify(counts)}`);
    }
  }
  if (read.ok) usable(read.survey);
  return counts;
}

const NONE = 0;

function reasonsIn(faults: readonly Fault[]): void {
  if (faults.length === 0) throw new Error('refused without a reason');
  for (const { row, expected } of faults) {
    if (!(Number.isInteger(row) && row >= 1)) throw new Error(`a fault at row ${row}`);
    if (expected.trim() === '') throw new Error(`row ${row}: nothing expected`);
  }
}

function sourcesOf({ lines, across = [] }: Survey) {
  const byRow = new Map<number, number>();
  let [kept, voids, later] = [NONE, NONE, NONE];
  const seen = (source: string, count: number): void => {
    const row = Number(/^row (\d+)/.exec(source)?.[1]);
    byRow.set(row, (byRow.get(row) ?? NONE) + count);
  };
  for (const lay of [...lines.flatMap(({ placements }) => placements), ...across]) {
    for (const { source, weight = 1 } of lay.readings) {
      kept += weight;
      seen(source, weight);
    }
    for (const { source } of lay.voids) seen(source, 1);
    for (const { source } of lay.later) seen(source, 1);
    voids += lay.voids.length;
    later += lay.later.length;
  }
  return { byRow, kept, voids, later };
}

function blankIn({ cells }: FileRow, at: readonly number[], wide: boolean): number {
  const empty = at.filter((place) => (cells[place] ?? '').trim() === '').length;
  return wide ? empty : Number(empty === at.length);
}

/** What is read can be judged, written, and read again as the same. */
function usable(survey: Survey): void {
  assess(survey);
  const again = readCsv(writeCsv(survey));
  if (!again.ok) {
    const [{ row, column, found, expected }] = again.faults;
    throw new Error(`written again: row ${row}, ${column}: found ${found}, expected ${expected}`);
  }
  const [before, after] = [sourcesOf(survey), sourcesOf(again.survey)];
  if (survey.kind === 'hand' && (before.kept !== after.kept || before.voids !== after.voids)) {
    throw new Error(`written again: ${before.kept} readings, then ${after.kept}`);
  }
}
