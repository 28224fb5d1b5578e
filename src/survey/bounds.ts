/** Beyond these a length was mistyped. House limits, mm, each with how it is said. */
export interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly expected: string;
}

/** Gaps, tolerances, divisions and repeatabilities. */
export const GAP_BOUNDS: Bounds = {
  least: 0.01,
  most: 100,
  expected: 'a gap between 0.01 mm and 100 mm',
};

/** Lengths along the hull: gauge lengths, limits. */
export const LENGTH_BOUNDS: Bounds = {
  least: 1,
  most: 100_000,
  expected: 'a length between 1 mm and 100 m',
};

/** Any length along a boat or of what is laid on it, either way of where it is counted from. */
export const LONGEST: Bounds = {
  least: -100_000,
  most: 100_000,
  expected: 'a length of at most 100 m',
};

/** No station lies farther forward of the transom: the aft running surface ends long before. */
export const FARTHEST_STATION = 30_000;
export const STATION_EXPECTED = 'a station within 30 m of the transom';

/** No line lies farther out from the keel. */
export const FARTHEST_OFFSET = 10_000;
export const OFFSET_EXPECTED = 'an offset within 10 m of the keel';
export const OFFSET_BOUNDS: Bounds = { least: 0, most: FARTHEST_OFFSET, expected: OFFSET_EXPECTED };

/** What was expected instead of a length; undefined where it may be. */
export function outside(mm: number, { least, most, expected }: Bounds): string | undefined {
  return mm < least || mm > most ? expected : undefined;
}
