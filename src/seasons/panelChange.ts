import { normalTail } from '../fit/normalTail.ts';
import { PROVEN } from '../fit/proven.ts';
import { comparePanels } from '../fit/surface/agreement.ts';
import { changeMap, type ChangeMap } from '../fit/surface/changeMap.ts';
import { twistOf } from '../fit/surface/twist.ts';
import { showMeasured, showPlace, type WorkUnit } from '../survey/figures.ts';
import { tiedPanels, type PanelFitted, type TiedPanel } from '../survey/panels/tiedPanels.ts';
import { listed } from '../survey/sentence.ts';
import type { Line } from '../survey/survey.ts';
import type { Comparison } from './comparison.ts';

type Outcome = 'moved' | 'not moved' | 'cannot tell';

/** What a panel did between two surveys, each taken from its own best plane (and twist, where one of them has no diagonal).
 *  Lengths in mm. */
export interface PanelChange {
  /** Of the second survey's panel. */
  readonly side: TiedPanel['side'];
  /** The lines that both have, as in the second survey, from the keel outwards. */
  readonly lines: readonly Line[];
  readonly outcome: Outcome;
  /** Where the means differ most, second less first, positive where it came out towards the water. */
  readonly size: number;
  readonly u: number;
  readonly at: number;
  readonly line: string;
  /** How the fourth corner changed, where both have a diagonal and the same lines are innermost and outermost. */
  readonly corner?: { readonly size: number; readonly u: number; readonly outcome: Outcome };
  /** Where it came out and went in, second less first: a grid, worked out when asked for. */
  readonly map: () => ChangeMap;
}

/** Each side that both surveys tied into one surface, by itself or with the other, and whose lines may be compared at all. Moved where at some place more
 *  than the least change is proven; not moved where within the change that matters everywhere is. */
export function panelChanges(comparison: Comparison): readonly PanelChange[] {
  const { first, second } = comparison;
  if (first.survey.across === undefined || second.survey.across === undefined) return [];
  const before = tiedPanels(first);
  return tiedPanels(second).flatMap((panel) =>
    before.flatMap((earlier) => changeOf(earlier, panel, comparison)),
  );
}

function changeOf(
  earlier: TiedPanel,
  later: TiedPanel,
  { lines, least, tolerance, second }: Comparison,
): readonly PanelChange[] {
  const [before, after] = [earlier.outcome, later.outcome];
  if (!before.ok || !after.ok) return [];
  const pairs = later.lines.flatMap(({ id }, j) => {
    const change = lines.find((each) => each.second.line.id === id && each.outcome.ok);
    const i = earlier.lines.findIndex((line) => line.id === change?.first.line.id);
    return i < 0 ? [] : [[i, j] as const];
  });
  const from = Math.max(before.judged[0], after.judged[0]);
  const to = Math.min(before.judged[1], after.judged[1]);
  if (pairs.length < 2 || !(to > from)) return [];
  const stretch = [from, to] as const;
  const modes = { firstSystematic: before.systematic, secondSystematic: after.systematic };
  const beyond = (limit: number) =>
    comparePanels(before.panel, after.panel, pairs, stretch, limit, modes);
  const found = beyond(least);
  const outcome =
    found.verdict === 'unlike'
      ? 'moved'
      : beyond(tolerance).verdict === 'alike'
        ? 'not moved'
        : 'cannot tell';
  const shared = pairs.map(([, j]) => later.lines[j]);
  const corner = cornerOf(earlier, later, pairs, stretch, {
    least,
    tolerance,
    over: second.tolerance.over,
  });
  const { size, u, at, line } = found;
  return [
    {
      side: later.side,
      lines: shared,
      outcome,
      size,
      u,
      at,
      line: shared[line ?? FIRST].name,
      ...(corner && { corner }),
      map: () => changeMap(before.panel, after.panel, pairs, stretch, modes),
    },
  ];
}

/** The only line, where no other is named. */
const FIRST = 0;

function cornerOf(
  earlier: TiedPanel,
  later: TiedPanel,
  pairs: readonly (readonly [number, number])[],
  stretch: readonly [number, number],
  { least, tolerance, over }: { least: number; tolerance: number; over: number },
): PanelChange['corner'] {
  const has = (i: number, j: number) => pairs.some(([a, b]) => a === i && b === j);
  if (
    earlier.side !== later.side ||
    !has(0, 0) ||
    !has(earlier.lines.length - 1, later.lines.length - 1)
  )
    return undefined;
  const twist = ({ panel, systematic }: PanelFitted) =>
    twistOf(panel, stretch, { tolerance, over }, systematic);
  if (!earlier.outcome.ok || !later.outcome.ok) return undefined;
  const [before, after] = [twist(earlier.outcome), twist(later.outcome)];
  if (before === undefined || after === undefined) return undefined;
  const size = after.corner - before.corner;
  const u = Math.hypot(after.cornerU, before.cornerU);
  const past = (limit: number) => normalTail((limit - size) / u) + normalTail((limit + size) / u);
  const outcome =
    past(least) >= PROVEN ? 'moved' : past(tolerance) <= 1 - PROVEN ? 'not moved' : 'cannot tell';
  return { size, u, outcome };
}

/** "port", "both sides". */
function sidesOf(lines: readonly Line[]): string {
  const [{ side }] = lines;
  return lines.every((line) => line.side === side) ? side : 'both sides';
}

/** A sentence or two a panel. */
export function panelChangeWords(change: PanelChange, { control }: Comparison, unit: WorkUnit) {
  const { lines, outcome, size, u, at, line, corner } = change;
  const by = `${showMeasured(Math.abs(size), u, unit)} ${size > 0 ? 'towards the water' : 'away from the water'} near ${showPlace(at, unit)} on ${line}`;
  const shape =
    outcome === 'moved'
      ? `has moved, by ${by}`
      : outcome === 'not moved'
        ? `has not moved by as much as matters (at most ${by})`
        : `may have moved or not, it cannot be told (${by})`;
  const turned = corner && showMeasured(Math.abs(corner.size), corner.u, unit);
  const twist =
    corner === undefined
      ? 'Whether its twist has changed is not told: it takes a diagonal in both surveys, over the same lines.'
      : corner.outcome === 'moved'
        ? `Its twist has changed: the fourth corner by ${turned}. See how the hull stood both times.`
        : corner.outcome === 'not moved'
          ? `Its twist has not changed by as much as matters (fourth corner: ${turned}).`
          : `Whether its twist has changed cannot be told (fourth corner: ${turned}).`;
  const hull =
    control === 'moved' && (outcome === 'moved' || corner?.outcome === 'moved')
      ? ' The control line moved too: lay none of it to the hull.'
      : '';
  return `As one surface, ${sidesOf(lines)}, lines ${listed(lines.map(({ name }) => name))}, ${shape}. ${twist}${hull}`;
}
