import type { PanelSurface } from '../../src/survey/panels/surfaceFrom.ts';

/** Panels by the picture that they are drawn in: beside one another, never over one another, as those of two periods of
 *  support would be. Panels with nothing to draw are left out. */
export function surfacePictures<Panel extends Pick<PanelSurface, 'side' | 'lines' | 'grids'>>(
  panels: readonly Panel[],
): readonly (readonly Panel[])[] {
  const pictures: Panel[][] = [];
  for (const panel of panels) {
    if (panel.grids.length === 0) continue;
    const room = pictures.find((own) => own.every((other) => !overlap(other, panel)));
    if (room === undefined) pictures.push([panel]);
    else room.push(panel);
  }
  return pictures;
}

function overlap(a: Pick<PanelSurface, 'side' | 'lines'>, b: typeof a): boolean {
  const [p, q] = [a, b].map(({ side, lines }) =>
    lines.map(({ place }) => (side === 'port' ? -place : place)),
  );
  return Math.min(...p) <= Math.max(...q) && Math.min(...q) <= Math.max(...p);
}
