import { lineHeights } from '../../fit/surface/panelSpace.ts';
import { panelDraws } from '../../fit/surface/panelDraws.ts';
import type { PanelFitted } from '../../survey/panels/tiedPanels.ts';
import { depthsTo } from '../plan/depths.ts';
import { followTarget } from '../plan/followTarget.ts';
import type { Terms } from '../plan/targetProgramme.ts';
import { targetHeights, type Stretch, type TargetFigures } from '../plan/targetShape.ts';
import type { PanelTarget, TiedStretch } from './panelProgramme.ts';
import { solvePanelTarget } from './panelTarget.ts';

/** Enough for a standard uncertainty to an eleventh of itself. */
const PAIRS = 30;
/** Every so many places of a line are enough to find the plane of a surface that might be. */
const EVERY = 3;

/** Depths on every line of a panel, for each of the surfaces that its readings leave possible, in mirrored pairs: on each
 *  the target is found again, one plane for all its lines, or every line's own straight target. What the panel's lines
 *  have in doubt together stays together. `index`: of each line in the fit. */
export function panelDepths(
  { panel, systematic }: PanelFitted,
  lines: readonly (TiedStretch & { readonly index: number })[],
  figures: readonly TargetFigures[],
  target: PanelTarget,
  terms: Terms,
): readonly (readonly Float64Array[])[] {
  const heights = lines.map(({ stretch: { x } }) => lineHeights(panel.space, x));
  const own = lines.map(({ stretch }, i) => followTarget(stretch, figures[i], terms, true));
  return panelDraws(panel, 0, PAIRS, systematic).map((c) => {
    const surfaces = lines.map(({ stretch, index }, i): Stretch => {
      return { ...stretch, z: Array.from(heights[i](c, index)) };
    });
    const found =
      target === 'one plane'
        ? planeOf(lines, surfaces, terms)
        : surfaces.map(({ z }, i) => own[i](z));
    return surfaces.map((surface, i) => {
      // Where none of the surface's own can be had, the work is done to the likely one's.
      const to = found === undefined ? figures[i] : found[i];
      return depthsTo(surface.z, targetHeights(surface, to), terms);
    });
  });
}

function planeOf(
  lines: readonly TiedStretch[],
  surfaces: readonly Stretch[],
  terms: Terms,
): readonly TargetFigures[] | undefined {
  const thinned = lines.map(({ y }, i): TiedStretch => {
    const { x, z, feathered, ...rest } = surfaces[i];
    const last = x.length - 1;
    const kept = [...x.keys()].filter((k) => k % EVERY === 0 || k === last || x[k] === feathered);
    const stretch = { ...rest, feathered, x: kept.map((k) => x[k]), z: kept.map((k) => z[k]) };
    return { stretch, y, tie: { level: 0, slope: 0 } };
  });
  const solved = solvePanelTarget(thinned, 'one plane', terms, 0);
  return solved.ok ? solved.figures : undefined;
}
