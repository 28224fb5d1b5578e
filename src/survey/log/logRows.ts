import Papa from 'papaparse';
import type { Columns, LengthColumn } from '../csv/columns.ts';
import { fault, type Fault, type Warning } from '../csv/fault.ts';
import type { MeasuredRow } from '../csv/measuredRow.ts';
import { readRows } from '../csv/readRows.ts';
import { decimalOf, type FileRow, type SplitFile } from '../csv/splitFile.ts';
import { FARTHEST_STATION } from '../bounds.ts';
import { LARGEST_GAP } from '../gapRefusal.ts';
import type { CountedUnit } from '../units.ts';
import type { ByteRow } from './byteRows.ts';
import { FaultList } from './faultList.ts';
import { layCalled } from './layCalled.ts';
import { LogColumn } from './logColumn.ts';
import type { LogPlan } from './logPlan.ts';
import { BARE, isBlankCell, plainNumber } from './plainNumber.ts';
import { backwards, readTime, TIME_EXPECTED } from './readTime.ts';

/** Rows that say the same of everything but their readings: one line (or, in the wide form, one a column), one lay. */
export interface LogContext {
  /** What they say, one a gap column, as rows without readings. */
  readonly says: readonly MeasuredRow[];
  /** Their readings, one a gap column. */
  readonly columns: readonly LogColumn[];
  /** Void rows and those put off, one list a gap column. */
  readonly unread: readonly MeasuredRow[][];
  rows: number;
  readonly firstRows: number[];
  readonly clock: Clock;
}

interface Clock {
  readonly called: string;
  time: number;
  row: number;
  text: string;
}

export interface LogRowsOptions {
  readonly plan: LogPlan;
  readonly head: Columns;
  readonly units: ReadonlyMap<LengthColumn, CountedUnit>;
  readonly file: SplitFile;
  readonly workUnit: 'mm' | 'in';
}

const MOST_TEXTS = 50;
const HASH = 35;
const KEY_MARK = '\u0000';

/** Takes the rows of a log one by one. A row whose cells are plain is read from its bytes; any other by the same code
 *  that reads every row of a small file, so that both find the same faults in the same words. */
export class LogRows {
  readonly faults = new FaultList<Fault>();
  readonly warnings = new FaultList<Warning>();
  readonly contexts = new Map<string, LogContext>();
  /** `#` lines below the header. */
  readonly late: FileRow[] = [];
  count = 0;
  blank = 0;
  /** Whether a cell showed a decimal comma that nobody had expected. */
  sawComma = false;
  /** Texts of gaps that may turn out not to be possible, by row and gap column. */
  readonly texts = new Map<string, string>();

  readonly #options: LogRowsOptions;
  readonly #comma: boolean;
  readonly #decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  readonly #gaps: Float64Array;
  readonly #clocks = new Map<string, Clock>();
  #context: LogContext | undefined;
  /** The shared cells of the row before, as bytes, one after the other. */
  #before = new Uint8Array(256);
  readonly #beforeEnds: Int32Array;

  constructor(options: LogRowsOptions) {
    this.#options = options;
    this.#comma = options.file.decimal === ',';
    this.#gaps = new Float64Array(options.plan.gaps.length);
    this.#beforeEnds = new Int32Array(options.plan.shared.length);
  }

  /** Counts a row that cannot be read, since its columns cannot. */
  pass(row: ByteRow): void {
    if (row.bytes[row.starts[0]] === HASH) this.late.push(this.#decoded(row));
    else if (!isBlankCell(row.bytes, row.start, row.end)) this.count += 1;
  }

  take(row: ByteRow): void {
    const { bytes, starts, ends } = row;
    if (bytes[starts[0]] === HASH) {
      this.late.push(this.#decoded(row));
      return;
    }
    // Lines left empty are no rows, and there may be millions.
    if (row.cells === 1 && isBlankCell(bytes, row.start, row.end)) return;
    const columns = this.#options.head.columns.length;
    let plain = !row.odd && columns <= starts.length;
    for (let c = columns; plain && c < row.cells; c += 1) {
      plain = isBlankCell(bytes, starts[c], ends[c]);
    }
    if (plain) {
      // Cells that a row leaves off are empty.
      for (let c = row.cells; c < columns; c += 1) starts[c] = ends[c] = row.end;
      const context = this.#sameAsBefore(row) ? this.#context : this.#contextOf(row);
      if (context !== undefined && this.#takePlain(row, context)) return;
    }
    this.#takeOther(row);
  }

  /** A row whose figures are plain, read from its bytes; false, and nothing taken, for any other. */
  #takePlain(row: ByteRow, context: LogContext): boolean {
    const { bytes, starts, ends } = row;
    const { plan } = this.#options;
    const comma = this.#comma;
    const at = plan.station;
    const station = plainNumber(bytes, starts[at], ends[at], plan.stationScale, comma);
    if (!(station >= 0 && station <= FARTHEST_STATION)) return false;
    for (const c of plan.careful) if (!isBlankCell(bytes, starts[c], ends[c])) return false;
    let weight = 1;
    if (plan.weight !== undefined) {
      const c = plan.weight;
      if (!isBlankCell(bytes, starts[c], ends[c])) {
        weight = plainNumber(bytes, starts[c], ends[c], BARE, false);
        if (!(Number.isInteger(weight) && weight >= 1 && weight < 1e9 && bytes[starts[c]] !== 48)) {
          return false;
        }
      }
    }
    let blank = 0;
    for (let k = 0; k < plan.gaps.length; k += 1) {
      const c = plan.gaps[k];
      const gap = plainNumber(bytes, starts[c], ends[c], plan.gapScale, comma);
      if (gap !== gap) {
        if (!isBlankCell(bytes, starts[c], ends[c])) return false;
        blank += 1;
      }
      this.#gaps[k] = gap;
    }
    if (blank > 0) {
      for (const c of plan.besideBlank) if (!isBlankCell(bytes, starts[c], ends[c])) return false;
    }
    this.#accept(context, row.row);
    this.blank += blank;
    if (plan.time !== undefined) this.#readTime(row, context, plan.time);
    for (let k = 0; k < plan.gaps.length; k += 1) {
      const gap = this.#gaps[k];
      if (gap !== gap) continue;
      context.columns[k].push(station, gap, row.row);
      if (weight !== 1) context.columns[k].weigh(weight);
      if (gap < 0 || gap > LARGEST_GAP) {
        const c = plan.gaps[k];
        this.#remember(row.row, k, () => this.#decoder.decode(bytes.subarray(starts[c], ends[c])));
      }
    }
    return true;
  }

  /** Any other row. */
  #takeOther(row: ByteRow): void {
    const fileRow = this.#decoded(row);
    if (fileRow.cells.every((cell) => cell.trim() === '')) return;
    const { head, units, file, plan } = this.#options;
    if (file.decimal === undefined && decimalOf([fileRow], file.delimiter) === ',') {
      this.sawComma = true;
    }
    const read = readRows(head.columns, units, { ...file, rows: [fileRow] });
    this.faults.addAll(read.faults);
    this.warnings.addAll(read.warnings);
    this.blank += read.blank;
    const context = this.#contextOf(row, fileRow);
    this.#context = undefined;
    if (read.rows.length === 0 || context === undefined) {
      this.count += 1;
      return;
    }
    this.#accept(context, row.row);
    if (plan.time !== undefined && row.cells > plan.time) {
      this.#checkTime(fileRow.cells[plan.time], fileRow.row, context, plan.time);
    }
    for (const measured of read.rows) {
      const k = plan.gaps.findIndex((c) => head.columns[c].header === measured.gapColumn);
      const { station, gap } = measured;
      if (station === undefined) continue;
      if (gap !== undefined) {
        context.columns[k].push(station.mm, gap.mm, measured.row);
        if (measured.weight !== undefined) context.columns[k].weigh(measured.weight);
        this.#remember(measured.row, k, () => gap.text);
      } else if (measured.void !== undefined || measured.later !== undefined) {
        context.unread[k].push(measured);
      }
    }
  }

  #remember(row: number, column: number, text: () => string): void {
    if (this.texts.size < MOST_TEXTS) this.texts.set(`${row} ${column}`, text().trim());
  }

  #accept(context: LogContext, row: number): void {
    this.count += 1;
    context.rows += 1;
    if (context.firstRows.length < MOST_TEXTS) context.firstRows.push(row);
  }

  #readTime(row: ByteRow, context: LogContext, c: number): void {
    const { bytes, starts, ends } = row;
    const time = plainNumber(bytes, starts[c], ends[c], BARE, this.#comma);
    const { clock } = context;
    if (time >= clock.time) {
      clock.time = time;
      clock.row = row.row;
      clock.text = '';
    } else
      this.#checkTime(
        this.#decoder.decode(bytes.subarray(starts[c], ends[c])),
        row.row,
        context,
        c,
      );
  }

  #checkTime(text: string, row: number, { clock }: LogContext, c: number): void {
    if (text.trim() === '') return;
    const { header } = this.#options.head.columns[c];
    const time = readTime(text);
    if (time === undefined) {
      this.faults.add(fault(row, header, text.trim(), TIME_EXPECTED));
      return;
    }
    if (time < clock.time) {
      const before = clock.text === '' ? String(clock.time) : clock.text;
      this.faults.add(fault(row, header, text.trim(), backwards(clock.row, before, clock.called)));
    }
    clock.time = time;
    clock.row = row;
    clock.text = text.trim();
  }

  #sameAsBefore({ bytes, starts, ends }: ByteRow): boolean {
    if (this.#context === undefined) return false;
    const { shared } = this.#options.plan;
    const before = this.#before;
    let at = 0;
    for (let k = 0; k < shared.length; k += 1) {
      const start = starts[shared[k]];
      const length = ends[shared[k]] - start;
      if (at + length !== this.#beforeEnds[k]) return false;
      for (let i = 0; i < length; i += 1) if (before[at + i] !== bytes[start + i]) return false;
      at += length;
    }
    return true;
  }

  /** What a row says beside its readings, found among those before or read; undefined where that has a fault. */
  #contextOf(row: ByteRow, decoded?: FileRow): LogContext | undefined {
    const { shared, gaps } = this.#options.plan;
    const cells = (decoded ?? this.#decoded(row)).cells;
    const key = shared.map((c) => cells[c] ?? '').join(KEY_MARK);
    let context = this.contexts.get(key);
    if (context === undefined) {
      const bare = cells.map((cell, c) => (shared.includes(c) ? cell : ''));
      const { head, units, file } = this.#options;
      const only = { row: row.row, cells: bare.slice(0, head.columns.length) };
      const { rows: says, faults } = readRows(head.columns, units, { ...file, rows: [only] });
      if (faults.length > 0 || says.length !== gaps.length) return undefined;
      context = {
        says,
        columns: says.map(() => new LogColumn()),
        unread: says.map(() => []),
        rows: 0,
        firstRows: [],
        clock: this.#clockOf(says[0]),
      };
      this.contexts.set(key, context);
    }
    if (decoded === undefined) this.#keepBefore(row, context);
    return context;
  }

  #keepBefore({ bytes, starts, ends }: ByteRow, context: LogContext): void {
    const { shared } = this.#options.plan;
    const size = shared.reduce((sum, c) => sum + ends[c] - starts[c], 0);
    if (size > this.#before.length) this.#before = new Uint8Array(2 * size);
    let at = 0;
    shared.forEach((c, k) => {
      this.#before.set(bytes.subarray(starts[c], ends[c]), at);
      at += ends[c] - starts[c];
      this.#beforeEnds[k] = at;
    });
    this.#context = context;
  }

  #clockOf(row: MeasuredRow): Clock {
    const called = layCalled(row, this.#options.workUnit);
    const known = this.#clocks.get(called) ?? { called, time: -Infinity, row: 0, text: '' };
    this.#clocks.set(called, known);
    return known;
  }

  #decoded({ bytes, starts, ends, cells, row, start, end, odd }: ByteRow): FileRow {
    if (!odd) {
      const texts = Array.from({ length: cells }, (_, c) =>
        this.#decoder.decode(bytes.subarray(starts[c], ends[c])),
      );
      return { row, cells: texts };
    }
    const { delimiter } = this.#options.file;
    const text = this.#decoder.decode(bytes.subarray(start, end)).replace(/\r$/, '');
    return { row, cells: Papa.parse<string[]>(text, { delimiter, newline: '\n' }).data[0] ?? [] };
  }
}
