import Papa from 'papaparse';
import { clip, fault, type Fault } from './fault.ts';

export type Delimiter = ',' | ';' | '\t';

/** A row of a file with the line it begins on, counted from 1. */
export interface FileRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/** A `# key: value` line without its `#`. */
export interface HashLine {
  readonly row: number;
  readonly text: string;
}

export interface SplitFile {
  readonly delimiter: Delimiter;
  /** The decimal mark, where the file shows it: a comma only if commas do not separate cells. */
  readonly decimal: '.' | ',' | undefined;
  readonly hashLines: readonly HashLine[];
  readonly header: FileRow;
  readonly rows: readonly FileRow[];
}

/** Splits the text of a CSV file (RFC 4180; comma, semicolon or tab; LF, CRLF or CR; with or without a byte order
 *  mark) into `#` lines, header and rows. Blank rows are left out; every row keeps the line it stood on. A `#` line
 *  that a spreadsheet has quoted or padded with empty cells is read as it was written. */
export function splitFile(
  text: string,
): { readonly ok: true; readonly file: SplitFile } | { readonly ok: false; readonly fault: Fault } {
  if (text.length > MOST.characters) return tooMuch(text.length, 'characters');
  const plain = withoutMark(text);
  if (plain.trim() === '') return unreadable('', 'a CSV file with a header and a row a reading');
  if (plain.includes('\u0000')) {
    return unreadable('characters that are not text', 'a CSV file as plain text in UTF-8');
  }
  const top = findHeader(plain);
  if (top === undefined) return unreadable('no header', 'a header row after the # lines');

  const delimiter = top.delimiter ?? delimiterOf(top.header);
  const parsed = Papa.parse<string[]>(plain.slice(top.start), { delimiter, newline: '\n' });
  const open = parsed.errors.find((error) => error.code === 'MissingQuotes');
  const [header, ...rows] = numbered(parsed.data, top.row);
  if (header === undefined) return unreadable('no header', 'a header row after the # lines');
  if (header.cells.length > MOST.columns) return tooMuch(header.cells.length, 'columns');
  if (open !== undefined) {
    const row = rows.at(-1)?.row ?? header.row;
    return {
      ok: false,
      fault: fault(row, '', 'a quotation mark that is never closed', 'quoted cells closed by a "'),
    };
  }

  const hashLines = top.lines.map(({ row, text: line }) => ({
    row,
    text: hashText(line, delimiter, header.cells.length),
  }));
  const readingRows: FileRow[] = [];
  for (const row of rows) {
    if (row.cells[0]?.startsWith('#') === true) {
      const line = row.cells.join(delimiter);
      hashLines.push({ row: row.row, text: hashText(line, delimiter, header.cells.length) });
    } else if (row.cells.some((cell) => cell.trim() !== '')) {
      readingRows.push(row);
    }
  }
  if (readingRows.length > MOST.rows) return tooMuch(readingRows.length, 'rows');
  return {
    ok: true,
    file: {
      delimiter,
      decimal: decimalOf(readingRows, delimiter),
      hashLines,
      header,
      rows: readingRows,
    },
  };
}

/** What is read row by row: more than any hand has written, and little enough to be read while a person waits. */
export const MOST = { characters: 8_000_000, columns: 1_000, rows: 100_000 } as const;

function tooMuch(count: number, of: keyof typeof MOST): { ok: false; fault: Fault } {
  const most = `at most ${MOST[of]} ${of}`;
  const log = of === 'columns' ? '' : '; a log of more says # kind: log above its header';
  return unreadable(`${count} ${of}`, most + log);
}

function unreadable(found: string, expected: string): { ok: false; fault: Fault } {
  return { ok: false, fault: fault(1, '', clip(found), expected) };
}

/** The text without its byte order mark, lines ended by LF. */
export function withoutMark(text: string): string {
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  return plain.includes('\n') ? plain : plain.replaceAll('\r', '\n');
}

/** What stands above the first row of a file. */
export interface Top {
  lines: HashLine[];
  header: string;
  row: number;
  /** Where the header begins in the text. */
  start: number;
  /** Where a spreadsheet's own `sep=;` line states it. */
  delimiter?: Delimiter;
}

/** Finds the header below the `#` lines; undefined where there is none. */
export function findHeader(text: string): Top | undefined {
  const lines: HashLine[] = [];
  let stated: Delimiter | undefined;
  let start = 0;
  for (let row = 1; start < text.length; row += 1) {
    const found = text.indexOf('\n', start);
    const end = found === -1 ? text.length : found;
    const line = text.slice(start, end).trimEnd();
    const separator = row === 1 ? /^"?sep=([,;\t])"?$/i.exec(text.slice(start, end).trim()) : null;
    if (row === 1 && /^sep=$/i.test(line)) stated = '\t';
    else if (separator !== null) stated = separator[1] as Delimiter;
    else if (/^"?\s*#/.test(line)) lines.push({ row, text: text.slice(start, end) });
    else if (line.replace(/[,;\t]/g, '') !== '') {
      const top = { lines, header: line, row, start };
      return stated === undefined ? top : { ...top, delimiter: stated };
    }
    start = end + 1;
  }
  return undefined;
}

/** What separates the cells of a header. */
export function delimiterOf(header: string): Delimiter {
  const outside = header.replace(/"[^"]*"|\([^)]*\)/g, '');
  const count = (mark: string) => outside.split(mark).length;
  if (outside.includes('\t')) return '\t';
  return count(';') > count(',') ? ';' : ',';
}

function numbered(data: readonly string[][], first: number): FileRow[] {
  let row = first;
  return data.map((cells) => {
    const start = row;
    row += 1;
    for (const cell of cells) {
      if (cell.includes('\n')) row += cell.split('\n').length - 1;
    }
    const last = cells.length - 1;
    const end = cells[last];
    if (end?.endsWith('\r') === true) cells[last] = end.slice(0, -1);
    return { row: start, cells };
  });
}

/** What a `#` line says, without the quotes and the empty cells that a spreadsheet adds when it saves one. */
export function hashText(line: string, delimiter: Delimiter, columns: number): string {
  const own = line.replace(/[\r\n]+$/, '');
  const [quoted] = own.startsWith('"')
    ? (Papa.parse<string[]>(own, { delimiter, newline: '\n' }).data[0] ?? [])
    : [];
  const bare = (quoted ?? own).trimStart().slice(1);
  const padding = delimiter.repeat(Math.max(0, columns - 1));
  return (padding !== '' && bare.endsWith(padding) ? bare.slice(0, -padding.length) : bare).trim();
}

/** The decimal mark that rows show. */
export function decimalOf(rows: readonly FileRow[], delimiter: Delimiter): '.' | ',' | undefined {
  if (delimiter === ',') return '.';
  const comma = rows.some(({ cells }) =>
    cells.some((cell) => cell.includes(',') && /^\s*-?\d+,\d+\s*$/.test(cell)),
  );
  return comma ? ',' : undefined;
}
