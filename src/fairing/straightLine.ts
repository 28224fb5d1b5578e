/** A straight line over a stretch: level + slope·(x − middle). Same units as the profile it was drawn through. */
export interface StraightLine {
  readonly middle: number;
  readonly level: number;
  readonly slope: number;
}

export function heightOn({ middle, level, slope }: StraightLine, x: number): number {
  return level + slope * (x - middle);
}
