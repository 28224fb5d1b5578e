import { leastDeviation } from '../leastDeviation.ts';
import { allowed, type Terms } from '../plan/targetProgramme.ts';
import { targetHeights, type Stretch, type TargetFigures } from '../plan/targetShape.ts';
import {
  fairAthwart,
  figuresFor,
  programmeOf,
  valued,
  type PanelTarget,
  type TiedStretch,
} from './panelProgramme.ts';

export type PanelSolved =
  | { readonly ok: true; readonly figures: readonly TargetFigures[]; readonly cost: number }
  | {
      readonly ok: false;
      /** `feather`: the target would miss the untouched hull at the forward limit by more than the feather takes up;
       *  `grind`: more than the limit would have to come off. On which line, where, and how much. */
      readonly limit: 'feather' | 'grind';
      readonly line: number;
      readonly at: number;
      readonly needs: number;
      readonly allowed: number;
    };

/** The target of least work on a panel, as `solveTarget` for a line: each place of each line counts for the length and
 *  the breadth that it stands for. One plane has three unknowns. Straight buttocks have two a line, and are held fair
 *  athwart: of any three lines the middle one may stand off the straightedge over the outer ones by `athwart` at most,
 *  over the stretch that all lines have. */
export function solvePanelTarget(
  lines: readonly TiedStretch[],
  target: PanelTarget,
  terms: Terms,
  athwart: number,
): PanelSolved {
  if (lines.length < 3) throw new RangeError(`at least 3 lines expected, got ${lines.length}`);
  const found = bestTarget(lines, target, terms, athwart);
  return found ? { ok: true, ...found } : hindered(lines, target, terms, athwart);
}

interface TargetFound {
  readonly figures: readonly TargetFigures[];
  readonly cost: number;
}

function bestTarget(
  lines: readonly TiedStretch[],
  target: PanelTarget,
  terms: Terms,
  athwart: number,
): TargetFound | undefined {
  const figures = figuresFor(lines, target);
  const programme = programmeOf(lines, figures, terms);
  const fair = target === 'one plane' ? [] : fairAthwart(lines, figures, athwart);
  const least = leastDeviation({ ...programme, limits: [...programme.limits, ...fair] });
  if (!least.ok) return undefined;
  return { figures: figures.map((f) => valued(f, least.at)), cost: least.cost };
}

/** What a limit would have to be, at least, for there to be a target: the feather's where that alone does it, else the grind
 *  limit; and where it binds. Found by trying: the limit itself is no unknown of the programme. */
function hindered(
  lines: readonly TiedStretch[],
  target: PanelTarget,
  terms: Terms,
  athwart: number,
): PanelSolved {
  const base = featherOf(lines[0].stretch);
  const eased = (taken: number) =>
    lines.map(({ stretch, ...rest }) => {
      const length = stretch.x[stretch.x.length - 1] - stretch.feathered;
      return { ...rest, stretch: { ...stretch, turn: length > 0 ? taken / length : 0 } };
    });
  const feather = leastThatDoes(base, (taken) => bestTarget(eased(taken), target, terms, athwart));
  if (feather !== undefined) {
    const misses = feather.found.figures.map(({ miss }) => Math.abs(miss));
    const line = misses.indexOf(Math.max(...misses));
    const { x } = lines[line].stretch;
    return {
      ok: false,
      limit: 'feather',
      line,
      at: x[x.length - 1],
      needs: feather.limit,
      allowed: base,
    };
  }
  const { most } = allowed(terms);
  const grind = leastThatDoes(most, (grindLimit) => {
    return bestTarget(eased(MUCH), target, { ...terms, grindLimit }, athwart);
  });
  if (grind === undefined) throw new Error('a target within relaxed limits expected');
  let worst = { line: 0, at: 0, off: -Infinity };
  lines.forEach(({ stretch }, line) => {
    const heights = targetHeights(stretch, grind.found.figures[line]);
    stretch.x.forEach((at, i) => {
      const off = stretch.z[i] - heights[i];
      if (at <= stretch.feathered && off > worst.off) worst = { line, at, off };
    });
  });
  const { line, at } = worst;
  return { ok: false, limit: 'grind', line, at, needs: grind.limit, allowed: most };
}

/** More than any bottom asks for, mm. */
const MUCH = 1000;
/** What such a limit is found to, mm. */
const FINE = 0.01;

/** The least limit from `base` upwards with which there is a target. */
function leastThatDoes(
  base: number,
  solve: (limit: number) => TargetFound | undefined,
): { readonly limit: number; readonly found: TargetFound } | undefined {
  let low = base;
  let high = Math.max(2 * base, 1);
  let found = solve(high);
  while (found === undefined && high < MUCH) {
    [low, high] = [high, 2 * high];
    found = solve(high);
  }
  if (found === undefined) return undefined;
  while (high - low > FINE) {
    const middle = (low + high) / 2;
    const now = solve(middle);
    if (now === undefined) low = middle;
    else [high, found] = [middle, now];
  }
  return { limit: high, found };
}

function featherOf({ x, feathered, turn }: Stretch): number {
  return turn * (x[x.length - 1] - feathered);
}
