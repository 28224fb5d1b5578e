import type { Panel } from './fitPanel.ts';

/** On each line, from the aftmost to the foremost station that was read on it, by any placement. */
export function readStretches({
  placements,
  space,
}: Pick<Panel, 'placements' | 'space'>): readonly (readonly [number, number])[] {
  const low = new Float64Array(space.lines.length).fill(Infinity);
  const high = new Float64Array(space.lines.length).fill(-Infinity);
  for (const { line, x } of placements) {
    for (let i = 0; i < x.length; i++) {
      low[line[i]] = Math.min(low[line[i]], x[i]);
      high[line[i]] = Math.max(high[line[i]], x[i]);
    }
  }
  return Array.from(low, (from, i) => [from, high[i]] as const);
}

/** Whether a station lies within what was read of a line. */
export function readThere(
  stretches: readonly (readonly [number, number])[],
  line: number,
  x: number,
): boolean {
  const [from, to] = stretches[line];
  const slack = (to - from) * 1e-9;
  return x >= from - slack && x <= to + slack;
}
