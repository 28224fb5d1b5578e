import type { SystematicMode } from '../systematic.ts';
import type { Panel } from './fitPanel.ts';
import { panelMap, placesBetween, type PanelMap } from './panelMap.ts';
import { readStretches, readThere } from './readStretches.ts';

/** How a panel differs from another on lines that answer to each other, on a grid as `PanelMap` has it: places athwart are
 *  the second's, and `line` counts the pairs. Blank where either was not read. */
export type ChangeMap = Omit<PanelMap, 'range'>;

/** The second panel's departure less the first's, positive where it came out towards the water: each off its own best plane
 *  over those lines, where both were read, since no panel's height and tilt is known; and off its best twist where either
 *  has no diagonal. `lines`: indices in each, pair by pair, at least 2, ascending in the
 *  second. The two owe nothing to one
 *  another, so that their variances add up. */
export function changeMap(
  first: Panel,
  second: Panel,
  lines: readonly (readonly [number, number])[],
  stretch: readonly [number, number],
  {
    columns = 49,
    between = 3,
    firstSystematic = [],
    secondSystematic = [],
  }: {
    readonly columns?: number;
    readonly between?: number;
    readonly firstSystematic?: readonly SystematicMode[];
    readonly secondSystematic?: readonly SystematicMode[];
  } = {},
): ChangeMap {
  if (lines.length < 2) throw new RangeError(`at least 2 lines expected, got ${lines.length}`);
  const panels = [first, second] as const;
  const twist = panels.some(({ datum }) => datum !== 'plane');
  const read = panels.map(readStretches);
  const [before, after] = panels.map((panel, side) => {
    const own = lines.map((pair) => pair[side]);
    const places = own.map((i) => panel.space.lines[i]);
    return panelMap(panel, stretch, {
      columns,
      rows: placesBetween(places, between),
      systematic: side === 0 ? firstSystematic : secondSystematic,
      level: {
        lines: own,
        counts: (line, x) => {
          const pair = lines[own.indexOf(line)];
          return pair.every((i, each) => readThere(read[each], i, x));
        },
        twist,
      },
    });
  });
  return {
    datum: after.datum,
    x: after.x,
    y: after.y,
    line: after.line.map((line) => lines.findIndex((pair) => pair[1] === line)),
    z: after.z.map((z, i) => z - before.z[i]),
    u: after.u.map((u, i) => Math.hypot(u, before.u[i])),
    blank: after.blank.map((blank, i) => Math.max(blank, before.blank[i])),
  };
}
