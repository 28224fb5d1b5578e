import type { Survey } from '../survey.ts';
import type { CountedUnit } from '../units.ts';
import { shownUnits } from './columnUnits.ts';
import type { Column, Form, LengthColumn } from './columns.ts';
import type { RecognisedCondition } from './conditions.ts';
import type { Delimiter, SplitFile } from './splitFile.ts';

/** What was recognised in a file, to be shown before anything is kept. */
export interface Recognised {
  readonly form?: Form;
  readonly delimiter?: Delimiter;
  readonly decimal?: '.' | ',';
  /** Unit by column, "mm" or "1/32 in". */
  readonly units: Readonly<Record<string, string>>;
  readonly columns: readonly Column[];
  readonly conditions: readonly RecognisedCondition[];
  /** What was taken although the file does not say it, in words. */
  readonly assumed: readonly string[];
  readonly counts: {
    readonly rows: number;
    readonly readings: number;
    readonly blank: number;
    readonly voids: number;
    readonly later: number;
    readonly lines: number;
    readonly placements: number;
  };
}

/** Gathers it from what the parts of the reading found. */
export function recognise(
  file: SplitFile,
  form: Form | undefined,
  columns: readonly Column[],
  units: ReadonlyMap<LengthColumn, CountedUnit>,
  conditions: readonly RecognisedCondition[],
  found: { survey: Survey; blank: number; assumed: readonly string[] },
): Recognised {
  const { lines, across = [] } = found.survey;
  const placements = [...lines.flatMap((line) => line.placements), ...across];
  const count = (of: 'readings' | 'voids' | 'later') =>
    placements.reduce((sum, placement) => sum + placement[of].length, 0);
  return {
    ...(form === undefined ? {} : { form }),
    delimiter: file.delimiter,
    ...(file.decimal === undefined ? {} : { decimal: file.decimal }),
    units: shownUnits(units),
    columns,
    conditions,
    assumed: found.assumed,
    counts: {
      rows: file.rows.length,
      readings: count('readings'),
      blank: found.blank,
      voids: count('voids'),
      later: count('later'),
      lines: lines.length,
      placements: placements.length,
    },
  };
}
