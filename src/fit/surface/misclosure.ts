import { chiSquareTail } from './chiSquareTail.ts';
import type { Panel } from './fitPanel.ts';
import { liesAcross, type PanelPlacement } from './panelReadings.ts';
import { panelSystem, solvePanel } from './panelSystem.ts';

/** Whether a panel's placements close: going round by lines along and straightedges across, one comes back to the same
 *  height within what the readings' uncertainty explains. */
export interface Misclosure {
  /** How many independent checks there are beyond what the ties themselves take up. */
  readonly dof: number;
  readonly chiSquare: number;
  /** Probability of so much or more if nothing is amiss. Absent without checks. */
  readonly probability?: number;
  readonly closes: boolean;
  /** Of each placement, how much of it goes when that placement is left out; absent where leaving it out unties lines
   *  or takes no check away. */
  readonly placements: readonly (PlacementClosure | undefined)[];
  /** The placement that alone accounts for what does not close, by index. */
  readonly outlier?: number;
}

export interface PlacementClosure {
  /** Root mean square of what it adds, in standard uncertainties: about 1 where it fits. */
  readonly normalised: number;
  readonly dof: number;
  readonly probability: number;
}

/** Where what is found is rarer than this by chance, the panel does not close. */
export const AMISS = 0.01;

/** Test of a panel's loops. The surface is taken without any smoothness athwart, so that nothing but the placements ties the
 *  lines, with the roughness along them that weighs most, and readings are as uncertain as stated: the penalised squares
 *  of all placements less those of the lines by themselves follow chi-square with as many degrees of freedom as there are
 *  checks. A placement is pointed out where it explains far more than its share, leaving it out makes the rest close, and
 *  no other does so as well. Source: JCGM 100:2008 (GUM) has no test; chi-square of a least-squares
 *  network: Mikhail & Ackermann (1976), Observations and Least Squares, from memory. */
export function misclosureOf(panel: Panel): Misclosure {
  const heaviest = panel.components.reduce((a, b) => (b.weight > a.weight ? b : a));
  const fore = (1 / heaviest.roughness) ** 2;
  const loops = (placements: readonly PanelPlacement[]) => {
    const all = squaresOf(panel, placements, fore);
    const along = squaresOf(
      panel,
      placements.filter((p) => !liesAcross(p)),
      fore,
    );
    if (!all || !along) return undefined;
    return { chiSquare: Math.max(0, all.squares - along.squares), dof: all.dof - along.dof };
  };
  const whole = loops(panel.placements);
  if (!whole || whole.dof < 1) {
    return {
      dof: 0,
      chiSquare: 0,
      closes: true,
      placements: panel.placements.map(() => undefined),
    };
  }
  const probability = chiSquareTail(whole.chiSquare, whole.dof);
  const placements = panel.placements.map((_, q): (PlacementClosure & Rest) | undefined => {
    const rest = loops(panel.placements.filter((_, p) => p !== q));
    if (!rest || rest.dof >= whole.dof) return undefined;
    const dof = whole.dof - rest.dof;
    const gone = Math.max(0, whole.chiSquare - rest.chiSquare);
    return {
      normalised: Math.sqrt(gone / dof),
      dof,
      probability: chiSquareTail(gone, dof),
      restCloses: rest.dof < 1 || chiSquareTail(rest.chiSquare, rest.dof) >= AMISS,
    };
  });
  const closes = probability >= AMISS;
  const outlier = closes ? undefined : pointedOut(placements);
  return {
    dof: whole.dof,
    chiSquare: whole.chiSquare,
    probability,
    closes,
    placements: placements.map((found) => {
      if (!found) return undefined;
      const { normalised, dof, probability } = found;
      return { normalised, dof, probability };
    }),
    ...(outlier !== undefined && { outlier }),
  };
}

interface Rest {
  readonly restCloses: boolean;
}

/** The one whose leaving out makes the rest close; where several would, none can be singled out unless it stands far
 *  beyond the next. */
function pointedOut(placements: readonly ((PlacementClosure & Rest) | undefined)[]) {
  const able = placements
    .flatMap((found, index) => (found?.restCloses === true ? [{ ...found, index }] : []))
    .sort((a, b) => a.probability - b.probability || b.normalised - a.normalised);
  const [first, second] = able;
  if (first === undefined || first.probability > AMISS / placements.length) return undefined;
  if (second !== undefined && second.probability <= 10 * first.probability) return undefined;
  return first.index;
}

/** Penalised squares, and how many readings are left over when lines and placements are settled. */
function squaresOf({ space }: Panel, placements: readonly PanelPlacement[], fore: number) {
  const system = panelSystem(space, placements);
  const fit = solvePanel(system, { fore, across: 0 });
  if (!fit) return undefined;
  const held = fit.factor.held.reduce((sum, h) => sum + h, 0);
  const settled = 2 * space.lines.length + system.matrix.extra - held;
  return { squares: fit.penalisedSquares, dof: system.n - settled };
}
