import type { WorkUnit } from '../../src/survey/figures.ts';
import type { SurfaceShown, SurfaceView } from './surfaceView.ts';

/** What stands under the map of what changed between two surveys. */
export function changeCaption(
  panels: readonly Pick<SurfaceShown, 'datum'>[],
  { step, stretched, bands }: Pick<SurfaceView, 'step' | 'stretched' | 'bands'>,
  unit: WorkUnit,
): string {
  const twist = panels.some(({ datum }) => datum !== 'plane')
    ? ', a twist left out, for which a diagonal is wanting'
    : '';
  return [
    `The later survey less the earlier, each off its own best plane over the lines that both have${twist}: how the hull stood, high or low or tilted, is no change.`,
    bands.length === 0
      ? `Nothing differs by ${step} or more.`
      : `An unbroken edge and strokes rising to the right: came out, towards the water. A broken edge and strokes falling to the right: went in. A further edge, and denser strokes, every ${step}. Thin dotted strokes: less than the 95 % uncertainty there. White: changed by less than ${step}.`,
    `Crossed out: not read in one of the two. Figures at the top: offset of each line from the keel; at the side: stations forward of the transom, ${unit}.`,
    ...(stretched ? ['Along and across are not drawn to one scale.'] : []),
  ].join(' ');
}
