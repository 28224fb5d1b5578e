import { bestPlane } from '../../../src/fit/surface/bestPlane.ts';
import { fitPanel, type Panel } from '../../../src/fit/surface/fitPanel.ts';
import type { PanelPlacement } from '../../../src/fit/surface/panelReadings.ts';
import { FIVE, round } from './panelSupport.ts';

export const STRETCH = [0, 1500] as const;
export const ALL = FIVE.lines.map((_, i) => [i, i] as const);
export const before = round(-1, [900, 300], [300, 200]);
export const dent = round(-2, [500, 450], [250, 200]);

export function fitted(
  placements: readonly PanelPlacement[],
  lines: readonly number[] = FIVE.lines,
): Panel {
  const panel = fitPanel(lines, placements, 15);
  if (!panel.ok) throw new Error(panel.reason);
  return panel;
}

/** The dent off its best plane, at 13 stations of every line. */
export function dentOff(lines: readonly number[], twist = false): Float64Array {
  const nodes = lines.flatMap((y) => FIVE.stations.map((x) => ({ x, y })));
  const edge = (y: number) => (y === lines[0] || y === lines[lines.length - 1] ? 75 : 150);
  const z = Float64Array.from(nodes, ({ x, y }) => dent(x, y));
  bestPlane(
    nodes.map(({ x }) => x),
    nodes.map(({ y }) => y),
    nodes.map(({ y }) => edge(y)),
    twist,
  )(z);
  return z;
}
