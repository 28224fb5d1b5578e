import type { BandFactor } from './bandSystem.ts';
import {
  checkPanelPlacements,
  liesAcross,
  straightInPlan,
  type PanelPlacement,
} from './panelReadings.ts';
import { panelSpace, type PanelSpace } from './panelSpace.ts';
import { bendsOf, panelSystem, priorLogDeterminant, solvePanel } from './panelSystem.ts';
import type { PanelSystem } from './panelSystem.ts';
import { lineWanting, tiesOf } from './ties.ts';

/** What the readings say of a panel's surface, known up to a plane: and, where no straightedge was laid on a diagonal,
 *  up to a twist, since a straightedge laid fore and aft or athwart lies flat on a panel that is only twisted. */
export interface Panel {
  readonly ok: true;
  readonly n: number;
  readonly datum: 'plane' | 'plane and twist';
  readonly space: PanelSpace;
  readonly placements: readonly PanelPlacement[];
  readonly system: PanelSystem;
  /** Accounts of the same readings, one a pair of roughnesses and a noise level, weights summing to 1. */
  readonly components: readonly PanelComponent[];
}

export interface PanelComponent {
  readonly weight: number;
  /** Scale of the integrated Wiener process along each line, x scaled to 0..1. */
  readonly roughness: number;
  /** The same athwart, y scaled to 0..1. */
  readonly athwart: number;
  /** Reading uncertainty as a multiple of the stated one. */
  readonly noise: number;
  /** Spline coefficients, then offset and tilt of each placement. */
  readonly coefficients: Float64Array;
  readonly factor: BandFactor;
}

export interface PanelRefusal {
  readonly ok: false;
  /** `not crossed`: no straightedge lay across; `not tied`: those that did leave lines at heights and tilts of their
   *  own; `too few lines`: a straightedge across two lines fits them whatever they are. */
  readonly reason: 'too few lines' | 'too few readings' | 'not crossed' | 'not tied';
}

/** Never below what is stated: a surface rougher than any bottom is expected at the floor, and that a smoother one is read
 *  would pass for readings better than they are. */
const NOISE_LEVELS = [
  { noise: 1, weight: 0.75 },
  { noise: 1.4, weight: 0.25 },
] as const;
/** The same as between noise levels, so that every level sees the same roughnesses, the floor first. */
const STEP = 1.4;
const STEPS_UP = 18;
/** Accounts that weigh less than this share of the heaviest are left out. */
const NEGLIGIBLE = 0.01;
/** Lines need this many stations each, so that they have a shape of their own. */
export const STATIONS_A_LINE = 4;

/** Fits one surface to every placement on a panel, fore-and-aft and across, in one network: each placement has an offset
 *  and a tilt of its own, and where one crosses a line it sees the same height as those along it.
 *  Along each line z is a cubic spline under the prior of `fitProfile`; athwart the same prior couples the lines, and
 *  neither touches a plane or a twist (1, x, y, x·y). Both roughnesses are averaged over their marginal likelihood from
 *  `floor` upwards, the reading uncertainty over what is stated and 1.4 times that.
 *  lines: places along the panel athwart, ascending, in x's unit, the deadrise kept out; gaps and u another unit;
 *  `floor` and `stretch` as for `fitProfile`. Throws RangeError on what is not finite or does not fit together.
 *  Refuses fewer than 3 lines, a line of fewer than 4 stations, and placements that do not tie the lines.
 *  Accuracy: a dense generalised least-squares solution by scipy to 1e-6, and the surface plate of
 *  Moody (1955) (test/fit/surface/fitPanel.test.ts). Source of the network: Moody, The Tool Engineer, October 1955;
 *  of the prior: Wood (2017), Generalized Additive Models, 5.6 (tensor products). */
export function fitPanel(
  lines: ArrayLike<number>,
  given: readonly PanelPlacement[],
  floor: number,
  stretch = Infinity,
): Panel | PanelRefusal {
  if (!(floor > 0)) throw new RangeError(`a positive floor expected, got ${floor}`);
  if (!(stretch > 0)) throw new RangeError(`a positive stretch expected, got ${stretch}`);
  checkPanelPlacements(lines.length, given);
  if (lines.length < 3) return { ok: false, reason: 'too few lines' };
  const placements = given.map((placement) => straightInPlan(lines, placement));
  if (lineWanting(lines.length, placements, STATIONS_A_LINE) !== undefined) {
    return { ok: false, reason: 'too few readings' };
  }
  if (!placements.some(liesAcross)) return { ok: false, reason: 'not crossed' };
  const ties = tiesOf(lines, placements);
  if (!ties.tied) return { ok: false, reason: 'not tied' };
  const space = panelSpace(
    lines,
    placements.flatMap(({ x }) => Array.from(x)),
  );
  const system = panelSystem(space, placements);
  const span = space.domain[1] - space.domain[0];
  const least = floor * Math.max(1, span / stretch) ** 1.5;
  const components = weigh(system, least, floor);
  if (!components) return { ok: false, reason: 'not tied' };
  const datum = ties.twist ? 'plane' : 'plane and twist';
  return { ok: true, n: system.n, datum, space, placements, system, components };
}

interface Account {
  readonly fit: NonNullable<ReturnType<typeof solvePanel>>;
  /** Roughnesses as multiples of the noise level. */
  readonly fore: number;
  readonly across: number;
  readonly levels: readonly { readonly noise: number; readonly logWeight: number }[];
}

/** A solution depends on the ratios of roughness to noise alone, so each serves every noise level. From the floor
 *  upwards, neighbour by neighbour, as far as accounts weigh anything. */
function weigh(system: PanelSystem, foreFloor: number, acrossFloor: number) {
  const { space, matrix, n } = system;
  const bends = bendsOf(space);
  const held = heldBy(system, foreFloor, acrossFloor);
  if (!held) return undefined;
  const unknowns = matrix.size + matrix.extra - held.reduce((sum, h) => sum + h, 0);
  const accountAt = (i: number, j: number): Account | undefined => {
    const fore = (foreFloor / STEP) * STEP ** i;
    const across = (acrossFloor / STEP) * STEP ** j;
    const penalties = { fore: fore ** -2, across: across ** -2 };
    const fit = solvePanel(system, penalties, held);
    if (!fit) return undefined;
    const prior = priorLogDeterminant(space, bends, penalties);
    const free = matrix.size - 4;
    const levels = NOISE_LEVELS.flatMap(({ noise, weight }) => {
      if (fore * noise < foreFloor * 0.999 || across * noise < acrossFloor * 0.999) return [];
      const logWeight =
        Math.log(weight) -
        (n - unknowns + free) * Math.log(noise) +
        0.5 * (prior - fit.factor.logDeterminant) -
        (0.5 * fit.penalisedSquares) / (noise * noise);
      return [{ noise, logWeight }];
    });
    return { fit, fore, across, levels };
  };
  const found = new Map<string, Account>();
  let best = -Infinity;
  const waiting: [number, number][] = [[1, 1]];
  const seen = new Set(['1 1']);
  while (waiting.length > 0) {
    const [i, j] = waiting.shift() as [number, number];
    const account = accountAt(i, j);
    if (!account) return undefined;
    found.set(`${i} ${j}`, account);
    const top = Math.max(...account.levels.map(({ logWeight }) => logWeight), -Infinity);
    best = Math.max(best, top);
    if (account.levels.length > 0 && top < best + Math.log(NEGLIGIBLE)) continue;
    for (const [di, dj] of [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ]) {
      const next: [number, number] = [i + di, j + dj];
      const key = next.join(' ');
      if (seen.has(key) || Math.min(...next) < 0 || Math.max(...next) > STEPS_UP) continue;
      seen.add(key);
      waiting.push(next);
    }
  }
  const all = [...found.values()].flatMap(({ fit, fore, across, levels }) =>
    levels
      .filter(({ logWeight }) => logWeight >= best + Math.log(NEGLIGIBLE))
      .map(({ noise, logWeight }) => ({
        share: Math.exp(logWeight - best),
        roughness: fore * noise,
        athwart: across * noise,
        noise,
        coefficients: fit.coefficients,
        factor: fit.factor,
      })),
  );
  const total = all.reduce((sum, { share }) => sum + share, 0);
  return all.map(({ share, ...rest }): PanelComponent => ({ ...rest, weight: share / total }));
}

function heldBy(system: PanelSystem, fore: number, across: number): Uint8Array | undefined {
  return solvePanel(system, { fore: fore ** -2, across: across ** -2 })?.factor.held;
}
