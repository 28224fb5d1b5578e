import { lineName } from '../lineName.ts';
import type { Direction, Side } from '../survey.ts';
import { fault, type Fault } from './fault.ts';
import type { LayFacts, MeasuredRow } from './measuredRow.ts';

/** All rows of one laying of the edge. */
export interface Lay {
  readonly name: string;
  readonly repeat: number;
  /** Where the straightedge lay across lines; the lay then has its rows on each of them. */
  readonly direction?: Direction;
  readonly overKeel?: true;
  readonly firstRow: number;
  readonly facts: LayFacts;
  readonly rows: readonly MeasuredRow[];
}

/** All rows of one line. */
export interface LineRows {
  readonly name: string;
  readonly side: Side;
  readonly offset: number;
  readonly landmark?: string;
  readonly limit?: number;
  readonly lays: readonly Lay[];
}

interface LayDraft {
  name: string;
  repeat: number;
  direction?: Direction;
  overKeel?: true;
  firstRow: number;
  facts: LayFacts;
  rows: MeasuredRow[];
}

interface LineDraft {
  name: string;
  side: Side;
  offset: number;
  facts: LineFacts;
  firstRow: number;
  lays: Map<string, LayDraft>;
}

interface LineFacts {
  readonly landmark?: string;
  readonly limit?: number;
}

const layColumns: Readonly<Record<keyof LayFacts, string>> = {
  held: 'held',
  block: 'block',
  blockFore: 'fore_block',
  blocksAt: 'blocks_at',
  aftEnd: 'aft_end',
  aftMark: 'aft_mark',
  face: 'edge_face',
  edge: 'edge',
  edgeLength: 'edge_length',
  gauge: 'gauge',
  division: 'gauge_read_to',
  reads: 'gauge_reads',
  supportPeriod: 'support_period',
};

/** Puts rows together by line, placement and repeat, in the order in which they first appear. What is said of a line
 *  or a lay needs to be said once; a row that contradicts an earlier one is a fault and is left out. */
export function groupRows(
  rows: readonly MeasuredRow[],
  workUnit: 'mm' | 'in',
): { readonly lines: readonly LineRows[]; readonly faults: readonly Fault[] } {
  const lines = new Map<string, LineDraft>();
  const faults: Fault[] = [];

  for (const row of rows) {
    const name = row.line ?? lineName(row.side, row.offset.mm, workUnit);
    const line = lines.get(name) ?? newLine(name, row);
    const contradiction = contradictsLine(line, row);
    if (contradiction !== undefined) {
      faults.push(contradiction);
      continue;
    }
    const lineFacts = merge<LineFacts>(
      line.facts,
      {
        ...(row.landmark === undefined ? {} : { landmark: row.landmark }),
        ...(row.limit === undefined ? {} : { limit: row.limit }),
      },
      { landmark: 'landmark', limit: 'limit' },
      `line ${name}`,
      row.row,
    );
    const key = `${row.placement}\u0000${row.repeat}\u0000${row.direction ?? ''}\u0000${row.overKeel ?? ''}`;
    const lay = line.lays.get(key) ?? newLay(row);
    const of = `line ${name}, placement ${lay.name}${lay.repeat > 1 ? `, repeat ${lay.repeat}` : ''}`;
    const layFacts = merge(lay.facts, row.lay, layColumns, of, row.row);
    if ('fault' in lineFacts || 'fault' in layFacts) {
      if ('fault' in lineFacts) faults.push(lineFacts.fault);
      if ('fault' in layFacts) faults.push(layFacts.fault);
      continue;
    }
    line.facts = lineFacts.facts;
    lay.facts = layFacts.facts;
    lay.rows.push(row);
    line.lays.set(key, lay);
    lines.set(name, line);
  }
  return {
    lines: [...lines.values()].map(({ name, side, offset, facts, lays }) => ({
      name,
      side,
      offset,
      ...facts,
      lays: [...lays.values()],
    })),
    faults,
  };
}

function newLine(name: string, row: MeasuredRow): LineDraft {
  const { side, offset } = row;
  return { name, side, offset: offset.mm, facts: {}, firstRow: row.row, lays: new Map() };
}

function newLay(row: MeasuredRow): LayDraft {
  const { placement: name, repeat, direction, overKeel, row: firstRow } = row;
  const lies = { ...(direction && { direction }), ...(overKeel && { overKeel }) };
  return { name, repeat, ...lies, firstRow, facts: {}, rows: [] };
}

function contradictsLine(line: LineDraft, row: MeasuredRow): Fault | undefined {
  const as = `as on row ${line.firstRow} for line ${line.name}`;
  if (row.side !== line.side) return fault(row.row, 'side', row.side, `${line.side}, ${as}`);
  if (Math.abs(row.offset.mm - line.offset) > 1e-6) {
    return fault(row.row, 'offset', row.offset.text, `the same offset ${as}`);
  }
  return undefined;
}

function merge<T extends object>(
  before: T,
  now: T,
  columns: Readonly<Record<keyof T, string>>,
  of: string,
  row: number,
): { facts: T } | { fault: Fault } {
  let facts = before;
  for (const key of Object.keys(now) as (keyof T & string)[]) {
    if (before[key] === undefined) facts = { ...facts, [key]: now[key] };
    else if (String(before[key]) !== String(now[key])) {
      const found = String(now[key]);
      const expected = `${String(before[key])}, as an earlier row says of ${of}`;
      return { fault: fault(row, columns[key], found, expected) };
    }
  }
  return { facts };
}
