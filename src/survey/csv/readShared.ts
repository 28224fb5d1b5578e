import { FARTHEST_STATION, STATION_EXPECTED } from '../bounds.ts';
import { readLength } from '../readingText.ts';
import type { Typed } from '../survey.ts';
import type { LengthColumn } from './columns.ts';
import {
  readAftMark,
  readBlocksAt,
  readDirection,
  readFace,
  readGaugeReads,
  readHeld,
  readYesNo,
} from './conditions.ts';
import type { LayFacts, MeasuredRow } from './measuredRow.ts';
import type { RowReader } from './rowReader.ts';
import type { FileRow } from './splitFile.ts';
import { readTextCell } from './textCell.ts';

/** What a row says whatever line it is of: everything but its side, offset and measurement. */
export type Shared = Omit<MeasuredRow, 'side' | 'offset' | 'gap' | 'void' | 'later' | 'gapColumn'>;

/** Reads those cells; faults found here concern the row as a whole. */
export function readShared(
  reader: RowReader,
  { row, cells }: FileRow,
  unknown: readonly { place: number; name: string }[],
): Shared {
  const division = positive(reader, 'read_to');
  const reads = reader.choice('reads', readGaugeReads);
  const station = readStation(reader);
  const limit = positive(reader, 'limit');
  const line = reader.words('line');
  const landmark = reader.words('landmark');
  const direction = reader.choice('direction', readDirection);
  const overKeel = reader.choice('over_keel', readYesNo) === 'yes';
  if (overKeel && (direction === undefined || direction === 'fore and aft')) {
    reader.refuse('over_keel', 'yes', 'a direction, athwart or diagonal, beside it');
  }
  const weight = reader.count('weight');
  const note = reader.words('note');
  const extra = unknown.flatMap(({ place, name }) => {
    const text = readTextCell(cells[place] ?? '');
    return text === '' ? [] : [[name, text] as const];
  });
  const shared: Shared = {
    row,
    stationColumn: reader.header('station'),
    placement: reader.words('placement') ?? '1',
    repeat: reader.count('repeat') ?? 1,
    look: reader.count('look') ?? 1,
    lay: readLay(reader),
    source: `row ${row}`,
    ...(station === undefined ? {} : { station }),
    ...(direction === undefined || direction === 'fore and aft' ? {} : { direction }),
    ...(overKeel && { overKeel: true as const }),
    ...(line === undefined ? {} : { line }),
    ...(landmark === undefined ? {} : { landmark }),
    ...(limit === undefined ? {} : { limit }),
    ...(division === undefined ? {} : { division }),
    ...(reads === undefined ? {} : { reads }),
    ...(weight === undefined ? {} : { weight }),
    ...(note === undefined ? {} : { note }),
    ...(extra.length === 0 ? {} : { extra: Object.fromEntries(extra) }),
  };
  reader.sharedFaults = reader.faults.length;
  return shared;
}

function readStation(reader: RowReader): Typed | undefined {
  const station = reader.length('station');
  if (station === undefined) return undefined;
  if (station.mm < 0) {
    reader.refuse('station', station.text, '0 or more: stations count forward from the transom');
    return undefined;
  }
  if (station.mm > FARTHEST_STATION) {
    reader.refuse('station', station.text, STATION_EXPECTED);
    return undefined;
  }
  return readTyped(reader, station, 'station_typed');
}

/** The text as first typed, where a file carries it beside the number; one that says another length is a fault, one
 *  that says no length any more (a spreadsheet has made a date of it) gives way to the number. */
export function readTyped(
  reader: RowReader,
  cell: Typed,
  is: 'station_typed' | 'gap_typed',
): Typed {
  const text = reader.words(is);
  if (text === undefined) return cell;
  const reads = (['mm', 'in'] as const).flatMap((unit) => {
    const read = readLength(text, { unit });
    return read.ok ? [read.mm] : [];
  });
  if (reads.some((mm) => Math.abs(mm - cell.mm) < 1e-6)) return { mm: cell.mm, text };
  if (reads.length > 0) reader.refuse(is, text, `what the number beside it says, ${cell.text}`);
  return cell;
}

function positive(reader: RowReader, is: LengthColumn): number | undefined {
  const length = reader.length(is);
  if (length === undefined) return undefined;
  if (length.mm > 0) return length.mm;
  reader.refuse(is, length.text, 'more than 0, or nothing');
  return undefined;
}

function readLay(reader: RowReader): LayFacts {
  const held = reader.choice('held', readHeld);
  const block = reader.length('block');
  const blockFore = positive(reader, 'fore_block');
  const blocksAt = reader.choice('blocks_at', readBlocksAt);
  const aftEnd = reader.length('aft_end');
  const aftMark = reader.choice('aft_mark', readAftMark);
  const face = reader.choice('edge_face', readFace);
  const edge = reader.words('edge');
  const edgeLength = positive(reader, 'edge_length');
  const gauge = reader.words('gauge');
  const division = positive(reader, 'gauge_read_to');
  const reads = reader.choice('gauge_reads', readGaugeReads);
  const period = reader.count('support_period');
  if (block !== undefined && block.mm < 0) reader.refuse('block', block.text, '0 or more');
  return {
    ...(held === undefined ? {} : { held }),
    ...(block === undefined || block.mm === 0 ? {} : { block: block.mm }),
    ...(blockFore === undefined ? {} : { blockFore }),
    ...(blocksAt === undefined ? {} : { blocksAt }),
    ...(aftEnd === undefined ? {} : { aftEnd: aftEnd.mm }),
    ...(aftMark === undefined ? {} : { aftMark }),
    ...(face === undefined ? {} : { face }),
    ...(edge === undefined ? {} : { edge }),
    ...(edgeLength === undefined ? {} : { edgeLength }),
    ...(gauge === undefined ? {} : { gauge }),
    ...(division === undefined ? {} : { division }),
    ...(reads === undefined ? {} : { reads }),
    ...(period === undefined ? {} : { supportPeriod: period - 1 }),
  };
}
