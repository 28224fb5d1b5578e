import type { LineAssessment } from '../../src/survey/assessment.ts';

/** How many profiles stand side by side in a width, px; even, so that port and starboard of an offset are neighbours,
 *  save where there is room for one only. */
export function gridColumns(width: number): number {
  if (width < 640) return 1;
  return width < 1300 ? 2 : 4;
}

const SIDES = { port: 0, starboard: 1, centre: 2 } as const;

/** From the keel outwards, port beside starboard at each offset; the centre line first. */
export function inGridOrder(lines: readonly LineAssessment[]): readonly LineAssessment[] {
  return [...lines].sort(
    ({ line: a, part: p }, { line: b, part: q }) =>
      Number(b.side === 'centre') - Number(a.side === 'centre') ||
      a.offset - b.offset ||
      SIDES[a.side] - SIDES[b.side] ||
      p - q,
  );
}
