import type { LaterStation, Placement, Reading, VoidStation } from '../survey.ts';
import type { LayFacts, MeasuredRow } from './measuredRow.ts';

/** A placement from the checked rows of its lay. A division (or a way of reading the gauge) that every reading states
 *  and the lay does not becomes the lay's; a reading keeps its own only where it differs. */
export function toPlacement(
  id: string,
  name: string,
  repeat: number,
  stated: LayFacts & Pick<Placement, 'held'>,
  rows: readonly MeasuredRow[],
): Placement {
  const facts = {
    ...stated,
    ...common('division', stated, rows),
    ...common('reads', stated, rows),
  };
  const readings: Reading[] = [];
  const voids: VoidStation[] = [];
  const later: LaterStation[] = [];
  for (const row of rows) {
    const { station, gap, note, extra, source } = row;
    if (station === undefined) continue;
    const around = {
      ...(note === undefined ? {} : { note }),
      ...(extra === undefined ? {} : { extra }),
      source,
    };
    if (gap !== undefined) {
      const { division, reads, weight } = row;
      readings.push({
        station,
        gap,
        look: row.look,
        ...(division === undefined || division === facts.division ? {} : { division }),
        ...(reads === undefined || reads === facts.reads ? {} : { reads }),
        ...(weight === undefined ? {} : { weight }),
        ...around,
      });
    } else if (row.void !== undefined) voids.push({ station, reason: row.void, ...around });
    else if (row.later !== undefined) later.push({ station, reason: row.later, ...around });
  }
  return { id, name, repeat, ...facts, readings, voids, later };
}

function common(
  key: 'division' | 'reads',
  stated: LayFacts,
  rows: readonly MeasuredRow[],
): LayFacts {
  if (stated[key] !== undefined) return {};
  const read = rows.filter((row) => row.gap !== undefined);
  const first = read[0]?.[key];
  return first !== undefined && read.every((row) => row[key] === first) ? { [key]: first } : {};
}
