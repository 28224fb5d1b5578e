import type { PanelFitted, TiedPanel } from '../../src/survey/panels/tiedPanels.ts';
import { placeAthwart } from '../../src/survey/panels/placeAthwart.ts';
import { panelMap } from '../../src/fit/surface/panelMap.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { surfaceCaption } from './surfaceCaption.ts';
import { surfacePictures } from './surfacePictures.ts';
import {
  surfaceView,
  type SurfaceNames,
  type SurfaceShown,
  type SurfaceView,
} from './surfaceView.ts';

/** A map as it is set on paper, seen from below as whoever works lies under it. */
export interface SurfaceOnPaper {
  readonly view: SurfaceView;
  readonly caption: string;
}

/** mm on paper. */
const WIDTH = 120;

/** Maps of panels that straightedges across tie; empty where none is. */
export function tiedOnPaper(
  panels: readonly TiedPanel[],
  unit: WorkUnit,
): readonly SurfaceOnPaper[] {
  const shown = panels.flatMap(({ side, lines, outcome }): SurfaceShown[] => {
    if (!outcome.ok) return [];
    return [
      {
        ...mapped(outcome),
        side,
        lines: lines.map((line) => ({ name: line.name, place: placeAthwart(side, line) })),
        words: { word: `lines ${lines[0].name} to ${lines[lines.length - 1].name}` },
      },
    ];
  });
  return onPaper(shown, unit, surfaceCaption);
}

type Mapped = Pick<SurfaceShown, 'grids' | 'datum'>;
/** A sheet is drawn anew at every choice of how to work, none of which changes what was found. */
const known = new WeakMap<PanelFitted, Mapped>();

function mapped(fitted: PanelFitted): Mapped {
  let own = known.get(fitted);
  if (own === undefined) {
    const { panel, judged, systematic } = fitted;
    const { x, y, z, u, blank, datum } = panelMap(panel, judged, { systematic });
    own = { datum, grids: [{ x, y, z, u, blank }] };
    known.set(fitted, own);
  }
  return own;
}

export function onPaper(
  shown: readonly SurfaceShown[],
  unit: WorkUnit,
  caption: typeof surfaceCaption,
  names?: SurfaceNames,
): readonly SurfaceOnPaper[] {
  return surfacePictures(shown).map((own) => {
    const size = { width: WIDTH, unit: 'mm' } as const;
    const view = surfaceView(own, { size, from: 'below', unit, ...(names && { names }) });
    return { view, caption: caption(own, view, unit) };
  });
}
