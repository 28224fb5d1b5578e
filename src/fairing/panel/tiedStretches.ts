import { straightened } from '../../fit/straightened.ts';
import { panelMean } from '../../fit/surface/panelDraws.ts';
import { lineHeights } from '../../fit/surface/panelSpace.ts';
import type { PanelFitted } from '../../survey/panels/tiedPanels.ts';
import type { Stretch } from '../plan/targetShape.ts';
import type { TiedStretch } from './panelProgramme.ts';

/** Lines' own profiles with the straight line that takes each to the panel's heights: what a line's shape is its own
 *  readings say, how high and how tilted it stands beside its neighbours the straightedges across. `index`: of each line
 *  in the fit, from the keel outwards. */
export function tiedStretches(
  { panel }: Pick<PanelFitted, 'panel'>,
  lines: readonly { readonly stretch: Stretch; readonly index: number }[],
): readonly (TiedStretch & { readonly index: number })[] {
  const mean = panelMean(panel);
  return lines.map(({ stretch, index }) => {
    const { x, z } = stretch;
    const last = x.length - 1;
    const apart = lineHeights(panel.space, x)(mean, index).map((height, i) => height - z[i]);
    const bent = straightened(apart, x);
    const [aft, fore] = [apart[0] - bent[0], apart[last] - bent[last]];
    const slope = (fore - aft) / (x[last] - x[0]);
    return {
      stretch,
      index,
      y: panel.space.lines[index],
      tie: { level: aft - slope * x[0], slope },
    };
  });
}
