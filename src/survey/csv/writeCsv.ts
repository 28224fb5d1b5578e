import Papa from 'papaparse';
import { acrossLaying } from '../acrossLaying.ts';
import { exactDecimal } from '../exactText.ts';
import { readLength } from '../readingText.ts';
import type { ExtraCells, Line, Placement, Survey, Typed } from '../survey.ts';
import { knownColumn } from './columns.ts';
import { LAY_KEYS, type CommonFacts } from './measuredRow.ts';
import { writeTextCell } from './textCell.ts';
import { writeBlocksAt, writeConditions } from './writeConditions.ts';

type WorkUnit = 'mm' | 'in';

/** One row to be: what is measured (or nothing, to say that there is such a placement) and what it belongs to. */
interface OutRow {
  readonly line: Line;
  readonly placement: Placement;
  readonly direction?: string;
  readonly overKeel?: true;
  readonly station?: Typed;
  readonly gap?: Typed;
  readonly look?: number;
  readonly division?: number;
  readonly reads?: string;
  readonly weight?: number;
  readonly void?: string;
  readonly later?: string;
  readonly note?: string;
  readonly extra?: ExtraCells;
}

interface OutColumn {
  readonly header: string;
  /** Written even where no row has a value. */
  readonly always?: true;
  readonly cell: (row: OutRow) => string | undefined;
}

/** Writes a survey as CSV in the long form (RFC 4180, comma, point, CRLF): `readCsv` gives the same survey back, ids and
 *  sources aside. Numbers stand raw; what was typed otherwise ("3/32", "20,1") stands beside its number in a column of
 *  its own, out of reach of a spreadsheet that takes 3/32 for a date. Text cells that a spreadsheet would run as a
 *  formula are guarded. A line without placements has nothing to write and is left out.
 *  Throws RangeError where two lines, or two placements of a line, have the same name, and on a log, whose own file
 *  is what there is to hand on. */
export function writeCsv(survey: Survey): string {
  for (const { name, placements } of survey.lines) {
    if (placements.some(({ log }) => log !== undefined)) {
      throw new RangeError(`${name}: readings one by one expected, got a log`);
    }
  }
  const rows = [...survey.lines.flatMap(lineRows), ...acrossRows(survey)];
  refuseTwins(survey.lines);
  const common = commonFacts(rows);
  const stationUnit = unitFor(rows, ({ station }) => station?.mm, survey.workUnit);
  const gapUnit = unitFor(rows, ({ gap }) => gap?.mm, survey.workUnit);
  const columns = [
    ...allColumns(rows, survey.workUnit, stationUnit, gapUnit, common),
    ...extraColumns(rows),
  ].filter(({ always, cell }) => always === true || rows.some((row) => cell(row) !== undefined));

  const columnsSay = stationUnit === 'in' || gapUnit === 'in' ? 'in' : 'mm';
  const conditions = writeConditions(survey, common, columnsSay);
  const table = Papa.unparse(
    {
      fields: columns.map(({ header }) => header),
      data: rows.map((row) => columns.map(({ cell }) => cell(row) ?? '')),
    },
    { newline: '\r\n' },
  );
  const text = [...conditions, table.replace(/(\r\n)+$/, '')].join('\r\n');
  return `${text.replaceAll('\u0000', '')}\r\n`;
}

function allColumns(
  rows: readonly OutRow[],
  workUnit: WorkUnit,
  stationUnit: WorkUnit,
  gapUnit: WorkUnit,
  common: CommonFacts,
): readonly OutColumn[] {
  const words = (header: string, of: (row: OutRow) => string | undefined): OutColumn => ({
    header,
    cell: (row) => {
      const text = of(row);
      return text === undefined || text === '' ? undefined : writeTextCell(text);
    },
  });
  const length = (name: string, of: (row: OutRow) => number | undefined): OutColumn => {
    const unit = unitFor(rows, of, workUnit);
    return {
      header: `${name}_${unit}`,
      cell: (row) => {
        const mm = of(row);
        return mm === undefined ? undefined : exactDecimal(mm, unit);
      },
    };
  };
  const count = (header: string, of: (row: OutRow) => number | undefined): OutColumn => ({
    header,
    cell: (row) => of(row)?.toString(),
  });
  const lay = <K extends keyof CommonFacts>(key: K, row: OutRow): Placement[K] | undefined =>
    common[key] === undefined ? row.placement[key] : undefined;
  const unlessOne = (value: number | undefined) => (value === 1 ? undefined : value);

  return [
    { ...words('side', ({ line }) => line.side), always: true },
    { ...length('offset', ({ line }) => line.offset), always: true },
    {
      header: `station_${stationUnit}`,
      always: true,
      cell: ({ station }) => station && numberCell(station, stationUnit),
    },
    { header: `gap_${gapUnit}`, always: true, cell: ({ gap }) => gap && numberCell(gap, gapUnit) },
    words('line', ({ line }) => line.name),
    words('landmark', ({ line }) => line.landmark),
    length('limit', ({ line }) => line.limit),
    words('placement', ({ placement }) => placement.name),
    words('direction', ({ direction }) => direction),
    words('over_keel', ({ overKeel }) => overKeel && 'yes'),
    count('repeat', ({ placement }) => unlessOne(placement.repeat)),
    words('held', (row) => lay('held', row)),
    length('block', (row) => lay('block', row)),
    length('fore_block', (row) => lay('blockFore', row)),
    words('blocks_at', (row) => {
      const at = lay('blocksAt', row);
      return at && writeBlocksAt(at, workUnit);
    }),
    length('aft_end', (row) => lay('aftEnd', row)),
    words('aft_mark', (row) => lay('aftMark', row)),
    words('edge_face', (row) => lay('face', row)),
    words('edge', (row) => lay('edge', row)),
    length('edge_length', (row) => lay('edgeLength', row)),
    words('gauge', (row) => lay('gauge', row)),
    length('gauge_read_to', (row) => lay('division', row)),
    words('gauge_reads', (row) => lay('reads', row)),
    count('support_period', ({ placement: { supportPeriod } }) =>
      supportPeriod === undefined ? undefined : supportPeriod + 1,
    ),
    count('look', ({ look }) => unlessOne(look)),
    length('read_to', ({ division }) => division),
    words('reads', ({ reads }) => reads),
    count('weight', ({ weight }) => weight),
    words('void', (row) => row.void),
    words('later', ({ later }) => later),
    words('note', ({ note }) => note),
    words('station_typed', ({ station }) => station && typedCell(station, stationUnit)),
    words('gap_typed', ({ gap }) => gap && typedCell(gap, gapUnit)),
  ];
}

function extraColumns(rows: readonly OutRow[]): readonly OutColumn[] {
  const headers = new Set(
    rows.flatMap(({ extra }) => (extra === undefined ? [] : Object.keys(extra))),
  );
  return [...headers].map((header) => {
    if (knownColumn(header) !== undefined) {
      throw new RangeError(`extra column "${header}": expected a name that is no column of ours`);
    }
    return {
      header: writeTextCell(header),
      cell: ({ extra }) =>
        extra !== undefined && Object.hasOwn(extra, header)
          ? writeTextCell(extra[header] ?? '')
          : undefined,
    };
  });
}

function lineRows(line: Line): readonly OutRow[] {
  return line.placements.flatMap((placement): readonly OutRow[] => {
    const rows: OutRow[] = [
      ...placement.readings,
      ...placement.voids.map(({ reason, ...rest }) => ({ ...rest, void: reason })),
      ...placement.later.map(({ reason, ...rest }) => ({ ...rest, later: reason })),
    ].map((row) => ({ ...row, line, placement }));
    return rows.length === 0 ? [{ line, placement }] : rows;
  });
}

/** Placements across, line by line: each row says on which line it stands. */
function acrossRows({ lines, across = [] }: Survey): readonly OutRow[] {
  return across.flatMap((whole) => {
    const { side, direction, readings, voids, later } = whole;
    const lies = { direction, ...(side === 'both' && { overKeel: true as const }) };
    const placement: Placement = { ...acrossLaying(whole), readings: [], voids: [], later: [] };
    return [
      ...readings,
      ...voids.map(({ reason, ...rest }) => ({ ...rest, void: reason })),
      ...later.map(({ reason, ...rest }) => ({ ...rest, later: reason })),
    ].map(({ line: id, ...row }): OutRow => {
      const line = lines.find((each) => each.id === id);
      if (line === undefined) throw new RangeError(`line ${id}: expected one of the survey`);
      return { ...row, line, placement, ...lies };
    });
  });
}

function refuseTwins(lines: readonly Line[]): void {
  const seen = new Set<string>();
  const once = (name: string) => {
    if (seen.has(name)) throw new RangeError(`${name} twice: expected each name once`);
    seen.add(name);
  };
  for (const line of lines) {
    once(`line ${line.name}`);
    for (const { name, repeat } of line.placements) {
      once(`line ${line.name}, placement ${name}, repeat ${repeat}`);
    }
  }
}

const commonKeys = ['held', ...LAY_KEYS] as const;

function commonFacts(rows: readonly OutRow[]): CommonFacts {
  const all = rows.map(({ placement }) => placement);
  const along = rows.filter(({ direction }) => direction === undefined);
  const [first] = along.length > 0 ? along.map(({ placement }) => placement) : all;
  if (first === undefined) return {};
  return Object.fromEntries(
    commonKeys.flatMap((key) => {
      const value = first[key];
      // Where an edge's aft end lies is asked of those laid fore and aft alone.
      const asked = key === 'aftEnd' || key === 'aftMark' ? along.map((r) => r.placement) : all;
      const same = asked.every((placement) => String(placement[key]) === String(value));
      return value !== undefined && same ? [[key, value]] : [];
    }),
  );
}

/** The work unit, unless a value is exact in mm alone. */
function unitFor(
  rows: readonly OutRow[],
  of: (row: OutRow) => number | undefined,
  workUnit: WorkUnit,
): WorkUnit {
  return rows.every((row) => {
    const mm = of(row);
    return mm === undefined || exactDecimal(mm, workUnit) !== undefined;
  })
    ? workUnit
    : 'mm';
}

/** The number as typed where that is a plain one in the column's unit, else the exact number. */
function numberCell({ mm, text }: Typed, unit: WorkUnit): string | undefined {
  if (/^-?\d+(\.\d+)?$/.test(text)) {
    const read = readLength(text, { unit });
    if (read.ok && read.mm === mm) return text;
  }
  return exactDecimal(mm, unit);
}

function typedCell(typed: Typed, unit: WorkUnit): string | undefined {
  return numberCell(typed, unit) === typed.text ? undefined : typed.text;
}
