import { checkLay, eachOnce, stationsDiffer } from '../csv/checkLay.ts';
import type { Conditions } from '../csv/conditions.ts';
import { clip, fault, type Fault, type Warning } from '../csv/fault.ts';
import { groupRows, type Lay } from '../csv/groupRows.ts';
import { layFacts, type LayDefaults } from '../csv/layFacts.ts';
import type { LayFacts, MeasuredRow } from '../csv/measuredRow.ts';
import { exactDecimal, exactLength } from '../exactText.ts';
import { beyondEdge, gapRefusal } from '../gapRefusal.ts';
import type { LaterStation, Line, Placement, VoidStation } from '../survey.ts';
import type { Unit } from '../units.ts';
import { LogColumn, seriesOf } from './logColumn.ts';
import type { LogSeries } from './logReadings.ts';
import type { LogContext, LogRows } from './logRows.ts';

export interface LogBuilt {
  readonly lines: readonly Line[];
  readonly assumed: readonly string[];
  readonly readings: number;
}

export interface LogBuildOptions {
  readonly stated: Readonly<Conditions>;
  readonly defaults: LayDefaults;
  readonly workUnit: 'mm' | 'in';
  readonly gapUnit: Unit;
}

/** One gap column of rows that say the same. */
interface Part {
  readonly says: MeasuredRow;
  readonly column: LogColumn;
  readonly unread: readonly MeasuredRow[];
  readonly place: number;
}

/** Puts the rows of a log together by line and lay and looks at each lay as a whole, as `groupRows`, `checkLay` and
 *  `averageLog` do with the rows of a small file. What cannot stand is added to `rows.faults` and left out. */
export function buildLog(rows: LogRows, options: LogBuildOptions): LogBuilt {
  const { stated, defaults, workUnit } = options;
  const contexts = [...rows.contexts.values()];
  const parts = new Map<MeasuredRow, Part>();
  for (const { says, columns, unread } of contexts) {
    says.forEach((row, place) => {
      parts.set(row, { says: row, column: columns[place], unread: unread[place], place });
    });
  }
  const grouped = groupRows([...parts.keys()], workUnit);
  for (const context of contexts) repeatFaults(context, grouped.faults, rows);

  const assumed = new Set<string>();
  let readings = 0;
  const lines = grouped.lines.map(({ lays, ...line }): Line => {
    const placements = lays.map((lay) => {
      const facts = layFacts(lay, stated, defaults, assumed);
      const again = lay.repeat > 1 ? `, repeat ${lay.repeat}` : '';
      const called = `line ${line.name}, placement ${lay.name}${again}`;
      const its = lay.rows.flatMap((row) => parts.get(row) ?? []);
      const whole = new LogLay(lay, facts, called, its, rows, options);
      const placement = whole.placement(`${line.name}/${lay.name}/${lay.repeat}`);
      readings += whole.readings;
      return placement;
    });
    return { id: line.name, ...line, placements };
  });
  return { lines, assumed: [...assumed], readings };
}

/** What contradicts an earlier row does so in every row that says it. */
function repeatFaults(context: LogContext, faults: readonly Fault[], rows: LogRows): void {
  const own = faults.filter(({ row }) => row === context.says[0].row);
  for (const each of own) {
    for (const row of context.firstRows) rows.faults.add({ ...each, row });
    rows.faults.more(context.rows - context.firstRows.length);
  }
}

class LogLay {
  readings = 0;

  constructor(
    private readonly lay: Lay,
    private readonly facts: LayFacts & Pick<Placement, 'held'>,
    private readonly called: string,
    private readonly parts: readonly Part[],
    private readonly rows: LogRows,
    private readonly options: LogBuildOptions,
  ) {}

  placement(id: string): Placement {
    const { lay, facts, called, rows } = this;
    const { firstRow, name, repeat } = lay;
    rows.faults.addAll(checkLay({ called, firstRow, facts, rows: [], kind: 'log' }).faults);
    const parts = this.parts.map((part) => ({ ...part, column: this.#believed(part) }));
    const gauge = this.#gauge(parts);
    const looked = parts.map(({ says, column }) => ({ look: says.look, column }));
    const all = seriesOf(looked.length === 0 ? [{ look: 1, column: new LogColumn() }] : looked);
    this.readings = parts.reduce((sum, { column }) => sum + column.count, 0);
    this.#allAtOne(all);
    this.#warnOfEnds(all);
    const { refused, ...unread } = this.#once(
      all,
      parts.flatMap((part) => part.unread),
    );
    const series = refused.size === 0 ? all : without(all, refused);
    return {
      id,
      name,
      repeat,
      ...facts,
      ...gauge,
      readings: [],
      ...(this.readings > 0 && { log: { count: this.readings, series } }),
      ...unread,
    };
  }

  /** A part's readings without those that cannot be. */
  #believed({ says, column, place }: Part): LogColumn {
    const refusal = (gap: number) => gapRefusal(gap, this.facts, says.division);
    if (column.count === 0) return column;
    if (refusal(column.leastGap) === undefined && refusal(column.mostGap) === undefined) {
      return column;
    }
    const kept = new LogColumn();
    for (let i = 0; i < column.count; i += 1) {
      const [x, gap, row] = [column.x[i], column.gap[i], column.row[i]];
      const expected = refusal(gap);
      if (expected === undefined) {
        kept.push(x, gap, row);
        if (column.weight !== undefined && column.weight[i] !== 1) kept.weigh(column.weight[i]);
      } else if (this.rows.faults.wants(row)) {
        const found = this.rows.texts.get(`${row} ${place}`) ?? this.#text(gap);
        this.rows.faults.add(fault(row, says.gapColumn, found, expected));
      } else this.rows.faults.more(1);
    }
    return kept;
  }

  /** One division and one way of reading for the whole lay. */
  #gauge(parts: readonly Part[]): Partial<Pick<Placement, 'division' | 'reads'>> {
    const read = parts.filter(({ column }) => column.count > 0);
    const common = <K extends 'division' | 'reads'>(key: K, header: string) => {
      const own = read.map(({ says }) => says[key] ?? this.facts[key]);
      const other = read.find((_, i) => own[i] !== own[0]);
      if (other !== undefined) {
        const expected = `one in a lay of a log: ${String(own[0] ?? 'not stated')}, as earlier rows of ${this.called} have`;
        this.rows.faults.add(
          fault(other.says.row, header, String(other.says[key] ?? ''), expected),
        );
      }
      return own[0] === undefined ? {} : { [key]: own[0] };
    };
    return { ...common('division', 'read_to'), ...common('reads', 'reads') };
  }

  #allAtOne({ x, row }: LogSeries): void {
    if (this.readings < 2 || x[0] !== x[x.length - 1]) return;
    const expected = stationsDiffer(this.readings, this.called);
    const [first] = this.parts;
    const all = fault(row[0], first.says.stationColumn, this.#text(x[0]), expected);
    this.rows.faults.add({ ...all, rows: this.readings });
  }

  /** Void stations and those put off that nothing else is said of. */
  #once(
    series: LogSeries,
    unread: readonly MeasuredRow[],
  ): Pick<Placement, 'voids' | 'later'> & { readonly refused: ReadonlySet<number> } {
    const refused = new Set<number>();
    const voids: VoidStation[] = [];
    const later: LaterStation[] = [];
    const seen = new Map<string, MeasuredRow>();
    for (const row of [...unread].sort((a, b) => a.row - b.row)) {
      const { station, note, extra, source } = row;
      if (station === undefined) continue;
      const key = `${station.mm} ${row.look}`;
      const twin = seen.get(key);
      const at = twin === undefined && row.look === 1 ? placeOf(series.x, station.mm) : -1;
      if (at >= 0 && series.row[at] > row.row) {
        const there = clip(row.void ?? row.later ?? '');
        const expected = eachOnce(this.called, row.row, there);
        const found = station.text;
        this.rows.faults.add(fault(series.row[at], row.stationColumn, found, expected));
        const many = series.weight === undefined ? 1 : series.weight[at];
        this.rows.faults.more(many - 1);
        this.readings -= many;
        refused.add(at);
      } else if (at >= 0 || twin !== undefined) {
        const there = twin === undefined ? this.#gapOn(series.row[at]) : (twin.void ?? twin.later);
        const expected = eachOnce(this.called, twin?.row ?? series.row[at], there ?? '');
        this.rows.faults.add(fault(row.row, row.stationColumn, station.text, expected));
        continue;
      }
      seen.set(key, row);
      const around = {
        ...(note === undefined ? {} : { note }),
        ...(extra === undefined ? {} : { extra }),
        source,
      };
      if (row.void !== undefined) voids.push({ station, reason: row.void, ...around });
      else if (row.later !== undefined) later.push({ station, reason: row.later, ...around });
    }
    return { voids, later, refused };
  }

  /** The gap of a row, before it was averaged. */
  #gapOn(row: number): string {
    for (const { column } of this.parts) {
      const at = placeOf(column.row.subarray(0, column.count), row);
      if (at >= 0) return this.#text(column.gap[at]);
    }
    return '';
  }

  #warnOfEnds({ x, row }: LogSeries): void {
    const said = (mm: number) => beyondEdge({ mm, text: this.#text(mm) }, this.facts);
    if (x.length === 0) return;
    if (said(x[0]) === undefined && said(x[x.length - 1]) === undefined) return;
    const [first] = this.parts;
    for (let i = 0; i < x.length; i += 1) {
      const words = said(x[i]);
      if (words === undefined) continue;
      const { stationColumn: column } = first.says;
      const warning: Warning = { row: row[i], column, text: `${this.called}: ${words}` };
      this.rows.warnings.add(warning);
    }
  }

  /** A length whose text as typed is no longer known. */
  #text(mm: number): string {
    const { gapUnit } = this.options;
    return exactDecimal(mm, gapUnit) ?? exactLength(mm, gapUnit);
  }
}

function without(series: LogSeries, refused: ReadonlySet<number>): LogSeries {
  const keep = (_: number, i: number): boolean => !refused.has(i);
  const { x, gap, row, weight } = series;
  return {
    x: x.filter(keep),
    gap: gap.filter(keep),
    row: row.filter(keep),
    ...(weight !== undefined && { weight: weight.filter(keep) }),
  };
}

/** Index of a value in ascending values; -1 where it is not among them. */
function placeOf(values: Float64Array | Uint32Array, value: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < value) low = middle + 1;
    else high = middle;
  }
  return values[low] === value ? low : -1;
}
