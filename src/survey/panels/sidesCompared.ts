import { compareHalves, comparePanels, type Agreement } from '../../fit/surface/agreement.ts';
import { halvesOf, type Halves } from '../../fit/surface/halves.ts';
import type { Line } from '../survey.ts';
import type { PanelAssessment } from './assessPanels.ts';

/** Port against starboard. */
export type SidesCompared = Agreement & {
  readonly lines: readonly (readonly [Line, Line])[];
  /** The two are one panel, tied by straightedges right across the keel. */
  readonly isOne?: true;
  /** How the two sides' best planes lie to one another, starboard less port: where they are one, and a
   *  diagonal shows the twist. */
  readonly planes?: Halves;
  /** Straightedges lay right across the keel, and do not tie the two. */
  readonly keelOpen?: true;
};

/** Lines of both sides within this of one another's offset answer to each other, mm. */
const SAME_OFFSET = 10;

/** Where both sides have a panel of two lines or more of the same offset, or are one panel that has. */
export function sidesCompared(
  panels: readonly PanelAssessment[],
  tolerance: number,
): SidesCompared | undefined {
  const whole = panels.find((panel) => panel.side === 'both' && panel.outcome.ok);
  return whole === undefined ? sidesApart(panels, tolerance) : sidesOfOne(whole, tolerance);
}

/** Port against starboard where the two are one panel. */
function sidesOfOne(
  { lines, outcome }: PanelAssessment,
  tolerance: number,
): SidesCompared | undefined {
  if (!outcome.ok) return undefined;
  const { panel, judged, systematic } = outcome;
  const of = (side: Line['side']) => lines.filter((line) => line.side === side && line.offset > 0);
  const pairs = pairsOf(of('port'), of('starboard'));
  if (pairs.length < 2) return undefined;
  const places = pairs.map((pair) => pair.map((line) => lines.indexOf(line)) as [number, number]);
  const outward = places.sort(([, i], [, j]) => i - j);
  const found = compareHalves(panel, outward, judged, tolerance, systematic);
  const parts = {
    last: of('port').length - 1,
    first: lines.length - of('starboard').length,
  };
  const planes = halvesOf(panel, parts, judged, systematic);
  return {
    ...found,
    lines: outward.map(([i, j]) => [lines[i], lines[j]] as const),
    isOne: true,
    ...(planes && { planes }),
  };
}

/** Port against starboard where each is a panel of its own. */
function sidesApart(
  panels: readonly PanelAssessment[],
  tolerance: number,
): SidesCompared | undefined {
  const [port, starboard] = (['port', 'starboard'] as const).map((side) =>
    panels.find((panel) => panel.side === side && panel.outcome.ok),
  );
  if (port?.outcome.ok !== true || starboard?.outcome.ok !== true) return undefined;
  const lines = pairsOf(port.lines, starboard.lines);
  const pairs = lines.map(([a, b]) => [port.lines.indexOf(a), starboard.lines.indexOf(b)] as const);
  const from = Math.max(port.outcome.judged[0], starboard.outcome.judged[0]);
  const to = Math.min(port.outcome.judged[1], starboard.outcome.judged[1]);
  if (pairs.length < 2 || !(to > from)) return undefined;
  const found = comparePanels(
    port.outcome.panel,
    starboard.outcome.panel,
    pairs,
    [from, to],
    tolerance,
    {
      firstSystematic: port.outcome.systematic,
      secondSystematic: starboard.outcome.systematic,
    },
  );
  const keelOpen = port.keelOpen ?? starboard.keelOpen;
  return { ...found, lines, ...(keelOpen && { keelOpen }) };
}

/** Lines of both sides that answer to each other. */
function pairsOf(
  port: readonly Line[],
  starboard: readonly Line[],
): readonly (readonly [Line, Line])[] {
  return port.flatMap((line) => {
    const other = starboard.find(({ offset }) => Math.abs(offset - line.offset) <= SAME_OFFSET);
    return other === undefined ? [] : [[line, other] as const];
  });
}
