import { readFileSync } from 'node:fs';
import { assess } from '../survey/assess.ts';
import { readCsv } from '../survey/csv/readCsv.ts';
import type { Fault } from '../survey/csv/fault.ts';
import { readAssessArguments } from './assessArguments.ts';
import { assessmentJson } from './assessmentJson.ts';
import { assessmentText } from './assessmentText.ts';

const MOST_FAULTS = 50;
const NOT_UTF8 = 'not text in UTF-8; save it as CSV in UTF-8 and try again';

/** `aftrun assess FILE.csv`: the verdict on standard output, what is wrong on standard error. */
export function assessCommand(args: readonly string[]): number {
  const asked = readAssessArguments(args);
  if (!asked.ok) return refuse(2, `aftrun assess: ${asked.message}`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(asked.file));
  } catch (error) {
    const why = error instanceof TypeError ? NOT_UTF8 : reasonOf(error);
    return refuse(1, `${asked.file}: ${why}`);
  }
  const read = readCsv(text);
  for (const warning of read.warnings)
    process.stderr.write(printable(`${place(warning)}${warning.text}\n`));
  if (!read.ok) return refuse(1, ...faultLines(asked.file, read.faults));

  const assessment = assess(read.survey, asked.options);
  const { resolution } = asked.options;
  process.stdout.write(
    asked.json
      ? `${JSON.stringify(assessmentJson(assessment, resolution))}\n`
      : printable(assessmentText(assessment, read.recognised.assumed, resolution)),
  );
  return 0;
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

function refuse(status: number, ...lines: readonly string[]): number {
  process.stderr.write(printable(`${lines.join('\n')}\n`));
  return status;
}

/** Text from a file, without the control characters that would steer a terminal. */
function printable(text: string): string {
  return text.replace(/[^\P{Cc}\n]/gu, '\ufffd');
}

function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'ENOENT') return 'no such file';
  if (code === 'EISDIR') return 'a folder, expected a CSV file';
  return error instanceof Error ? error.message : String(error);
}
