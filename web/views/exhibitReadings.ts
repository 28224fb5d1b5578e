import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Line, Survey } from '../../src/survey/survey.ts';
import { inColumn } from './readingText.ts';
import { stationKey } from './readingsView.ts';
import { readingsAt } from './sheetLine.ts';

/** The readings as they were read, lines side by side, a row a station: so that anybody can work them out again. */
export interface ReadingsTableView {
  readonly heads: readonly string[];
  readonly rows: readonly { readonly station: string; readonly cells: readonly string[] }[];
}

const A_TABLE = 6;

/** Six lines to a table. A cell without a reading says why, or is a dash where nothing was read. Logs are left out:
 *  their readings stand in the file that was taken in. */
export function readingsTables(survey: Survey, unit: WorkUnit): readonly ReadingsTableView[] {
  const lines = survey.lines.filter(({ placements }) =>
    placements.some(({ readings, voids }) => readings.length + voids.length > 0),
  );
  const tables = Math.ceil(lines.length / A_TABLE);
  return Array.from({ length: tables }, (_, i) => {
    const these = lines.slice(i * A_TABLE, (i + 1) * A_TABLE);
    const stations = new Map<number, string>();
    for (const { placements } of these) {
      for (const { readings, voids, later } of placements) {
        for (const { station } of [...readings, ...voids, ...later]) {
          const key = stationKey(station.mm);
          if (!stations.has(key)) stations.set(key, inColumn(station, unit));
        }
      }
    }
    return {
      heads: these.map(({ name }) => name),
      rows: [...stations]
        .sort(([a], [b]) => a - b)
        .map(([key, station]) => ({
          station,
          cells: these.map((line) => cellOf(line, key, unit)),
        })),
    };
  });
}

function cellOf({ placements }: Line, key: number, unit: WorkUnit): string {
  const read = placements
    .flatMap(({ readings }) => readings)
    .find(({ station }) => stationKey(station.mm) === key);
  if (read !== undefined) return readingsAt(read.station.mm, placements, unit);
  const said = placements
    .flatMap(({ voids, later }) => [
      ...voids.map((at) => ({ ...at, is: 'void' })),
      ...later.map((at) => ({ ...at, is: 'put off' })),
    ])
    .find(({ station }) => stationKey(station.mm) === key);
  return said === undefined ? '–' : `${said.is}: ${said.reason}`;
}
