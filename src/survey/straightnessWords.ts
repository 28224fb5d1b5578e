import { measuredParts, showStretch, type WorkUnit } from './figures.ts';
import type { LineStraightness } from './lineStraightness.ts';

/** Straightness parameters for people: a row a parameter, to no more digits than one reading bears. */
export interface StraightnessWords {
  readonly rows: readonly {
    readonly symbol: string;
    readonly meaning: string;
    readonly value: string;
  }[];
  readonly note: string;
}

export function straightnessWords(found: LineStraightness, unit: WorkUnit): StraightnessWords {
  // A step of an inch fraction is coarse enough at one standard uncertainty.
  const u = unit === 'in' ? found.u / 2 : found.u;
  const shown = (mm: number) => `${measuredParts(mm, u, unit).size} ${unit}`;
  const own = measuredParts(0, found.u, unit).spread;
  const datum =
    found.placements > 1
      ? ` The ${found.placements} placements are brought into one datum by the fit.`
      : '';
  return {
    rows: [
      { symbol: 'STRt', meaning: 'peak to valley, least-squares line', value: shown(found.STRt) },
      { symbol: 'STRp', meaning: 'peak above that line', value: shown(found.STRp) },
      { symbol: 'STRv', meaning: 'valley below that line', value: shown(found.STRv) },
      { symbol: 'STRq', meaning: 'root mean square from that line', value: shown(found.STRq) },
      {
        symbol: 'STRt (MZ)',
        meaning: 'peak to valley, minimum zone',
        value: shown(found.minimumZone),
      },
    ],
    note: `ISO 12780-1, of the ${found.readings} readings from ${showStretch(found.from, found.to, unit)} as they stand, each ± ${own} ${unit}: not of the surface between them.${datum}`,
  };
}
