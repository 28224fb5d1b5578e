import type { Fault } from '../survey/csv/fault.ts';
import { readCsv, type CsvRead } from '../survey/csv/readCsv.ts';
import { NOT_TEXT, readLog, type LogRead } from '../survey/log/readLog.ts';
import { MOST } from '../survey/csv/splitFile.ts';
import type { Survey } from '../survey/survey.ts';
import { readInput } from './readInput.ts';

const MOST_FAULTS = 50;
/** Longest file that is read, bytes: a log of some thirty million rows. */
const LARGEST = 1_000_000_000;
const LONG_BY_HAND = `more than ${MOST.characters} characters; a log of so much says # kind: log above its header`;
const NOT_UTF8 = 'not text in UTF-8; save it as CSV in UTF-8 and try again';

/** A survey from a CSV file, for any command; a log by the way that is made for a million rows. What is odd about it goes to standard error; undefined where the file
 *  could not be used, with the reasons said there, faulty rows by row, column, found and expected. */
export function readSurveyFile(
  file: string,
): Pick<Extract<CsvRead, { ok: true }>, 'survey' | 'recognised'> | undefined {
  let read: CsvRead | LogRead;
  try {
    const bytes = readInput(file, LARGEST);
    // A log may be too long for its rows to be held one by one.
    read = readLog(bytes) ?? byHand(bytes);
  } catch (error) {
    complain(`${file}: ${error instanceof TypeError ? NOT_UTF8 : reasonOf(error)}`);
    return undefined;
  }
  if (!read.ok && read.faults[0]?.found === NOT_TEXT) {
    complain(`${file}: ${NOT_UTF8}`);
    return undefined;
  }
  for (const warning of read.warnings) complain(`${place(warning)}${warning.text}`);
  const unsaid = isLog(read) ? read.warningCount - read.warnings.length : 0;
  if (unsaid > 0) complain(`and ${unsaid} more of the kind`);
  if (!read.ok) {
    const count = isLog(read) && !read.ok ? read.faultCount : read.faults.length;
    complain(...faultLines(file, read.faults, count));
  }
  return read.ok ? read : undefined;
}

function byHand(bytes: Uint8Array): CsvRead {
  // A character takes up to four bytes.
  if (bytes.length > 4 * MOST.characters) throw new Error(LONG_BY_HAND);
  return readCsv(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
}

function isLog(read: CsvRead | LogRead): read is LogRead {
  return 'warningCount' in read;
}

/** To standard error, a line each. */
export function complain(...lines: readonly string[]): void {
  process.stderr.write(printable(`${lines.join('\n')}\n`));
}

/** Text from a file, without the control characters that would steer a terminal. */
export function printable(text: string): string {
  return text.replace(/[^\P{Cc}\n]/gu, '\ufffd');
}

/** What went wrong with a file, in words. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'ENOENT') return 'no such file';
  if (code === 'EISDIR') return 'a folder, expected a CSV file';
  if (code === 'EACCES') return 'may not be opened';
  return error instanceof Error ? error.message : String(error);
}

function faultLines(file: string, faults: readonly Fault[], all: number): string[] {
  const count = `${file}: ${all} fault${all === 1 ? '' : 's'}; nothing was assessed.`;
  const shown = faults
    .slice(0, MOST_FAULTS)
    .map(
      (f) =>
        `  ${place(f)}found ${f.found === '' ? 'nothing' : `'${f.found}'`}, expected ${f.expected}`,
    );
  const rest = all - shown.length;
  return [count, ...shown, ...(rest > 0 ? [`  and ${rest} more`] : [])];
}

function place({ row, column }: { readonly row: number; readonly column: string }): string {
  return `row ${row}${column === '' ? '' : `, ${column.startsWith('column ') ? column : `column ${column}`}`}: `;
}

/** Says on standard error where surveys that are taken as one hull's name more than one. */
export function complainOfHulls(surveys: readonly Survey[]): void {
  const hulls = new Set(surveys.flatMap(({ hull }) => hull ?? []));
  if (hulls.size > 1) complain(`the files name more than one hull: ${[...hulls].join('; ')}`);
}
