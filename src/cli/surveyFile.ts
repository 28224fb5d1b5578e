import { readFileSync } from 'node:fs';
import type { Fault } from '../survey/csv/fault.ts';
import { readCsv, type CsvRead } from '../survey/csv/readCsv.ts';

const MOST_FAULTS = 50;
const NOT_UTF8 = 'not text in UTF-8; save it as CSV in UTF-8 and try again';

/** A survey from a CSV file, for any command. What is odd about it goes to standard error; undefined where the file
 *  could not be used, with the reasons said there, faulty rows by row, column, found and expected. */
export function readSurveyFile(file: string): Extract<CsvRead, { ok: true }> | undefined {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(file));
  } catch (error) {
    complain(`${file}: ${error instanceof TypeError ? NOT_UTF8 : reasonOf(error)}`);
    return undefined;
  }
  const read = readCsv(text);
  for (const warning of read.warnings) complain(`${place(warning)}${warning.text}`);
  if (!read.ok) complain(...faultLines(file, read.faults));
  return read.ok ? read : undefined;
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

function faultLines(file: string, faults: readonly Fault[]): string[] {
  const count = `${file}: ${faults.length} fault${faults.length === 1 ? '' : 's'}; nothing was assessed.`;
  const shown = faults
    .slice(0, MOST_FAULTS)
    .map(
      (f) =>
        `  ${place(f)}found ${f.found === '' ? 'nothing' : `'${f.found}'`}, expected ${f.expected}`,
    );
  const rest = faults.length - shown.length;
  return [count, ...shown, ...(rest > 0 ? [`  and ${rest} more`] : [])];
}

function place({ row, column }: { readonly row: number; readonly column: string }): string {
  return `row ${row}${column === '' ? '' : `, ${column.startsWith('column ') ? column : `column ${column}`}`}: `;
}
