import { readLength } from '../readingText.ts';
import { UNITS, showUnit, type CountedUnit } from '../units.ts';
import { LENGTH_COLUMNS, type Column, type LengthColumn } from './columns.ts';
import type { Conditions } from './conditions.ts';
import { fault, type Fault } from './fault.ts';
import type { SplitFile } from './splitFile.ts';

/** Units that the person gave for columns whose header has none; `unit` holds for all that are not named. */
export interface GivenUnits {
  readonly units?: Partial<Readonly<Record<LengthColumn, CountedUnit>>>;
  readonly unit?: CountedUnit;
}

/** A question to the person: which unit is this column in? */
export interface NeededUnit {
  readonly column: LengthColumn;
  readonly header: string;
  readonly row: number;
}

export interface ColumnUnits {
  readonly units: ReadonlyMap<LengthColumn, CountedUnit>;
  readonly needs: readonly NeededUnit[];
  readonly faults: readonly Fault[];
}

/** Which unit each length column is in: its header says, else a `# gap unit:` line, else the person, else the cells
 *  themselves where every one states its own. Otherwise it is asked for: nothing is guessed. In the wide form the
 *  cells under the lines are the gaps. */
export function columnUnits(
  columns: readonly Column[],
  file: SplitFile,
  stated: Readonly<Conditions>,
  given: GivenUnits,
): ColumnUnits {
  const units = new Map<LengthColumn, CountedUnit>();
  const needs: NeededUnit[] = [];
  const faults: Fault[] = [];
  const byLine: Partial<Record<LengthColumn, CountedUnit | undefined>> = {
    station: stated.stationUnit,
    offset: stated.offsetUnit,
    gap: stated.gapUnit,
  };

  for (const [is, { header, inHeader, places }] of lengthColumns(columns)) {
    const line = byLine[is];
    if (inHeader !== undefined && line !== undefined && inHeader.unit !== line.unit) {
      faults.push(
        fault(
          file.header.row,
          header,
          header,
          `${UNITS[line.unit].plural}, as the "${is} unit" line says, or no such line (mixed units)`,
        ),
      );
    }
    const unit = inHeader ?? line ?? given.units?.[is] ?? given.unit ?? unitOfCells(file, places);
    if (unit !== undefined) {
      units.set(is, unit);
      continue;
    }
    needs.push({ column: is, header, row: file.header.row });
    faults.push(
      fault(
        file.header.row,
        header,
        header,
        `the unit of ${is}: in the header as ${is}_mm, ${is} (in) or ${is} (1/32 in)${
          is in byLine ? `, in a "# ${is} unit: mm" line` : ''
        }, or given beside the file`,
      ),
    );
  }
  return { units, needs, faults };
}

/** The unit as a person reads it back. */
export function shownUnits(units: ReadonlyMap<LengthColumn, CountedUnit>): Record<string, string> {
  return Object.fromEntries([...units].map(([is, unit]) => [is, showUnit(unit)]));
}

interface Found {
  readonly header: string;
  readonly inHeader?: CountedUnit;
  readonly places: number[];
}

function lengthColumns(columns: readonly Column[]): Map<LengthColumn, Found> {
  const found = new Map<LengthColumn, Found>();
  columns.forEach((column, place) => {
    if (column.is === 'a line') {
      const gap = found.get('gap');
      if (gap === undefined) found.set('gap', { header: column.header, places: [place] });
      else gap.places.push(place);
    } else if (isLengthColumn(column)) {
      const unit = column.unit === undefined ? {} : { inHeader: column.unit };
      found.set(column.is, { header: column.header, ...unit, places: [place] });
    }
  });
  return found;
}

function isLengthColumn(column: Column): column is Extract<Column, { is: LengthColumn }> {
  return lengths.has(column.is);
}

const lengths: ReadonlySet<string> = new Set(LENGTH_COLUMNS);

/** The unit of the first cell, if every cell that is not empty or void states one; later ones must agree with it. */
function unitOfCells(file: SplitFile, places: readonly number[]): CountedUnit | undefined {
  let first: CountedUnit | undefined;
  for (const { cells } of file.rows) {
    for (const place of places) {
      const cell = (cells[place] ?? '').trim();
      if (cell === '' || /^x(\s|$)/i.test(cell)) continue;
      const read = readLength(cell);
      if (read.ok) first ??= { unit: read.unit };
      else if (read.reason === 'no unit') return undefined;
    }
  }
  return first;
}
