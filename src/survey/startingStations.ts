import type { Typed } from './survey.ts';
import { UNITS } from './units.ts';

const FINE = { mm: { step: 75, to: 450 }, in: { step: 3, to: 18 } } as const;
const COARSE = { mm: 150, in: 6 } as const;

/** Stations to start from: every 3 in to 18 in, then every 6 in to the limit of the straight run; in mm every 75 to
 *  450, then every 150. The limit itself is the last. Common practice, no source: closer near the transom.
 *  `limit`: mm. Throws RangeError on a limit that is not above 0 and finite. */
export function startingStations(limit: number, unit: 'mm' | 'in' = 'mm'): readonly Typed[] {
  if (!(Number.isFinite(limit) && limit > 0)) {
    throw new RangeError(`limit: got ${limit} mm, expected above 0`);
  }
  const { mm } = UNITS[unit];
  const end = limit / mm;
  const places: number[] = [];
  for (
    let place = 0;
    place < end - 1e-9;
    place += place < FINE[unit].to ? FINE[unit].step : COARSE[unit]
  ) {
    places.push(place);
  }
  const last = Number(end.toFixed(3));
  return [
    ...places.map((place) => ({ mm: place * mm, text: `${place} ${unit}` })),
    { mm: limit, text: `${last} ${unit}` },
  ];
}
