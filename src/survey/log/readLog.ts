import type { GivenUnits, NeededUnit } from '../csv/columnUnits.ts';
import { isKnownKey } from '../csv/conditions.ts';
import { fault, type Fault, type Warning } from '../csv/fault.ts';
import { noRows, readHead, toSurvey, type FileHead } from '../csv/fileHead.ts';
import type { LayDefaults } from '../csv/layFacts.ts';
import { recognise, type Recognised } from '../csv/recognised.ts';
import { hashText, type HashLine, type SplitFile } from '../csv/splitFile.ts';
import type { Survey } from '../survey.ts';
import { beginLog, type Begun } from './beginLog.ts';
import { buildLog } from './buildLog.ts';
import { LONGEST_ROW } from './byteRows.ts';
import { HEAD_BYTES, readTop } from './logHead.ts';
import type { LogRows } from './logRows.ts';

export interface ReadLogOptions extends GivenUnits {
  readonly defaults?: LayDefaults;
}

/** What a log says: as `CsvRead`, but of the faults and warnings only the first 50 with how many there are, and the
 *  readings as columns. */
export type LogRead = {
  readonly recognised: Recognised;
  readonly warnings: readonly Warning[];
  readonly warningCount: number;
} & (
  | { readonly ok: true; readonly survey: Survey }
  | {
      readonly ok: false;
      readonly faults: readonly Fault[];
      readonly faultCount: number;
      readonly needs: readonly NeededUnit[];
      readonly partial: Survey;
    }
);

export type LogOutcome =
  | { readonly is: 'read'; readonly read: LogRead }
  /** The file says that it is none: it is for `readCsv`. */
  | { readonly is: 'no log' }
  /** Only now is it known how the file is to be read: once more from its beginning, with this. */
  | { readonly is: 'again'; readonly options: ReadLogOptions & Known };

/** What an earlier reading of the same file has found out. */
export interface Known {
  readonly decimal?: ',';
  readonly lateLines?: readonly HashLine[];
}

/** What is found where a file is none of text. */
export const NOT_TEXT = 'not text in UTF-8';
export const UTF8 = 'CSV in UTF-8';

/** Reads a log (`# kind: log`) from its bytes, in whatever pieces they come: parsed, checked row by row by the rules
 *  of `readCsv`, and gathered in columns, so that a million rows need some 20 MB beside the piece at hand.
 *  Besides, a `time` column that runs backwards within a lay is a fault. A unit that stands only in the cells is asked
 *  for. Feed every piece to `push`, then ask `finish`. */
export class LogReader {
  /** Rows taken so far. */
  get rows(): number {
    return this.#begun === undefined ? 0 : this.#begun.rows.count;
  }
  readonly #options: ReadLogOptions & Known;
  #gathered: Uint8Array[] = [];
  #size = 0;
  #ended: LogOutcome | undefined;
  #begun: Begun | undefined;
  /** Kept from the first byte on that is no ASCII. */
  #decoder: TextDecoder | undefined;

  constructor(options: ReadLogOptions & Known = {}) {
    this.#options = options;
  }

  /** Whether anything after this can still matter. */
  get done(): boolean {
    return this.#ended !== undefined;
  }

  push(bytes: Uint8Array): void {
    if (this.#ended !== undefined || !this.#isText(bytes)) return;
    if (this.#begun !== undefined) {
      this.#begun.bytes.push(bytes);
      return;
    }
    this.#gathered.push(bytes.slice());
    this.#size += bytes.length;
    if (this.#size >= HEAD_BYTES) this.#begin();
  }

  finish(): LogOutcome {
    if (this.#ended === undefined && this.#begun === undefined) this.#begin();
    if (this.#ended !== undefined || this.#begun === undefined) {
      return this.#ended ?? this.#refuse(fault(1, '', '', UTF8));
    }
    try {
      this.#decoder?.decode();
    } catch {
      return this.#refuse(this.#notText());
    }
    const { bytes, rows, file, head, top } = this.#begun;
    bytes.finish();
    if (bytes.unclosed !== undefined) {
      const expected = 'quoted cells closed by a "';
      const found = 'a quotation mark that is never closed';
      return this.#refuse(fault(bytes.unclosed, '', found, expected));
    }
    if (bytes.tooLong !== undefined) {
      const found = `a row of more than ${LONGEST_ROW} bytes`;
      return this.#refuse(
        fault(bytes.tooLong, '', found, 'rows that end; perhaps a " is not closed'),
      );
    }
    if (rows.sawComma) return { is: 'again', options: { ...this.#options, decimal: ',' } };
    const late = rows.late.map(({ row, cells }): HashLine => {
      const line = cells.join(top.delimiter);
      return { row, text: hashText(line, top.delimiter, file.header.cells.length) };
    });
    const telling = late.some(({ text }) => isKnownKey(text.split(':', 1)[0]));
    if (this.#options.lateLines === undefined && late.length > 0 && telling) {
      return { is: 'again', options: { ...this.#options, lateLines: late } };
    }
    return { is: 'read', read: this.#build(rows, file, head, late) };
  }

  #build(rows: LogRows, file: SplitFile, first: FileHead, late: readonly HashLine[]): LogRead {
    const known = this.#options.lateLines !== undefined || late.length === 0;
    const head = known
      ? first
      : readHead({ ...file, hashLines: [...file.hashLines, ...late] }, this.#options);
    rows.faults.addAll(head.faults);
    rows.warnings.addAll(head.warnings);
    if (rows.count === 0) rows.faults.add(noRows(file.header.row));
    const built = buildLog(rows, {
      stated: head.conditions.stated,
      defaults: this.#options.defaults ?? {},
      workUnit: head.workUnit,
      gapUnit: head.units.get('gap')?.unit ?? 'mm',
    });
    const survey = toSurvey(head.conditions, head.workUnit, built.lines);
    const { form, columns } = head.head;
    const seen = recognise(file, form, columns, head.units, head.conditions.recognised, {
      survey,
      blank: rows.blank,
      assumed: built.assumed,
    });
    const counts = { ...seen.counts, rows: rows.count, readings: built.readings };
    const { faults, warnings } = rows;
    const common = {
      recognised: { ...seen, counts },
      warnings: warnings.first(),
      warningCount: warnings.count,
    };
    if (faults.count === 0) return { ok: true, survey, ...common };
    return {
      ok: false,
      faults: faults.first(),
      faultCount: faults.count,
      needs: head.needs,
      partial: survey,
      ...common,
    };
  }

  #begin(): void {
    const bytes = joined(this.#gathered, this.#size);
    this.#gathered = [];
    const read = readTop(bytes);
    if (!read.ok) {
      this.#refuse(read.fault);
      return;
    }
    const begun = beginLog(read.top, bytes, this.#options);
    if (begun === undefined) this.#ended = { is: 'no log' };
    else {
      this.#begun = begun;
      begun.bytes.push(bytes.subarray(begun.from));
    }
  }

  /** Whether a piece is text in UTF-8: what follows may end in the middle of a letter. */
  #isText(bytes: Uint8Array): boolean {
    if (bytes.includes(0)) {
      const expected = 'a CSV file as plain text in UTF-8';
      this.#refuse(fault(1, '', 'characters that are not text', expected));
      return false;
    }
    if (this.#decoder === undefined && isAscii(bytes)) return true;
    this.#decoder ??= new TextDecoder('utf-8', { fatal: true });
    try {
      this.#decoder.decode(bytes, { stream: true });
      return true;
    } catch {
      this.#refuse(this.#notText());
      return false;
    }
  }

  #notText(): Fault {
    return fault(1, '', NOT_TEXT, UTF8);
  }

  #refuse(only: Fault): LogOutcome {
    const counts = { rows: 0, readings: 0, blank: 0, voids: 0, later: 0, lines: 0, placements: 0 };
    this.#ended = {
      is: 'read',
      read: {
        ok: false,
        faults: [only],
        faultCount: 1,
        needs: [],
        partial: { conditions: {}, support: [], workUnit: 'mm', kind: 'log', lines: [] },
        recognised: { units: {}, columns: [], conditions: [], assumed: [], counts },
        warnings: [],
        warningCount: 0,
      },
    };
    return this.#ended;
  }
}

function joined(parts: readonly Uint8Array[], size: number): Uint8Array {
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function isAscii(bytes: Uint8Array): boolean {
  let high = 0;
  for (let at = 0; at < bytes.length; at += 1) high |= bytes[at];
  return high < 128;
}

/** Bytes that a reader is fed at a time. */
const PIECE = 1 << 20;

/** Reads a log that is in memory as a whole; undefined where the file says that it is none. */
export function readLog(bytes: Uint8Array, options: ReadLogOptions = {}): LogRead | undefined {
  let known: ReadLogOptions & Known = options;
  // Each reason to begin again is met at most once.
  for (let turn = 0; turn < 4; turn += 1) {
    const reader = new LogReader(known);
    for (let at = 0; at < bytes.length && !reader.done; at += PIECE) {
      reader.push(bytes.subarray(at, at + PIECE));
    }
    const outcome = reader.finish();
    if (outcome.is === 'no log') return undefined;
    if (outcome.is === 'read') return outcome.read;
    known = outcome.options;
  }
  throw new RangeError('a log that can be read: it asked to be read again without end');
}
