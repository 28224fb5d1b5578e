import { group } from 'd3';
import { heightWords, type ProfileRow, type ProfileTable } from './profileTable.ts';

/** A station that the cursor stops at, with what is said of it: the table's own figures. */
export interface ProfileStop {
  readonly station: number;
  readonly x: number;
  /** On the surface; absent where that is not known. */
  readonly y?: number;
  /** False while a zoom leaves it out. */
  readonly shown: boolean;
  readonly label: string;
  readonly words: string;
}

interface Mapping {
  readonly x: (mm: number) => number;
  readonly y: (z: number) => number;
  readonly shown: (mm: number) => boolean;
  readonly surface: (mm: number) => number | undefined;
}

export function profileStops(
  { rows, unit }: ProfileTable,
  { x, y, shown, surface }: Mapping,
): readonly ProfileStop[] {
  return [...group(rows, (row) => row.stationText)].map(([text, here]) => {
    const { station, surface: height, section } = here[0];
    const z = surface(station);
    const label = `${text} ${unit}`;
    return {
      station,
      x: x(station),
      ...(z !== undefined && { y: y(z) }),
      shown: shown(station),
      label,
      words: [
        `${label} forward of the transom`,
        ...here.map(readWords),
        ...(height ? [`surface ${heightWords(height, unit)}`] : []),
        ...(section ? [section.word] : []),
      ].join('; '),
    };
  });
}

function readWords({ state, gapText, remark }: ProfileRow): string {
  if (state !== 'read') return remark;
  return `gap as typed ${gapText ?? ''}${remark === '' ? '' : ` (${remark})`}`;
}
