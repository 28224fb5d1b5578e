import type { WorkUnit } from '../../src/survey/figures.ts';
import type { SurfaceShown, SurfaceView } from './surfaceView.ts';

type Told = readonly Pick<SurfaceShown, 'datum' | 'side'>[];
type Drawn = Pick<SurfaceView, 'step' | 'stretched' | 'bands' | 'next'>;

/** What stands under the map of a bottom. */
export function surfaceCaption(panels: Told, view: Drawn, unit: WorkUnit): string {
  const { step, next } = view;
  const whole = panels.some(({ side }) => side === 'both');
  const best = whole ? 'the best plane of the whole bottom' : 'the best plane of each side';
  const off = panels.every(({ datum }) => datum === 'each line')
    ? 'each line’s own straight line'
    : panels.some(({ datum }) => datum === 'plane and twist')
      ? `${best}, a twist left out, for which no diagonal was laid`
      : best;
  return [
    `Heights off ${off}.`,
    `An unbroken edge and strokes rising to the right: proud, towards the water. A broken edge and strokes falling to the right: hollow. A further edge, and denser strokes, every ${step}. Thin dotted strokes: less than the 95 % uncertainty there. No strokes: nearer than ${step}. Crossed out: not read.`,
    ...(next.length > 0
      ? ['Heavy broken stroke: where laying the straightedge next would help most.']
      : []),
    ...places(view, unit),
  ].join(' ');
}

/** What stands under the map of what changed between two surveys. */
export function changeCaption(panels: Told, view: Drawn, unit: WorkUnit): string {
  const { step, bands } = view;
  const twist = panels.some(({ datum }) => datum !== 'plane')
    ? ', a twist left out, for which a diagonal is wanting'
    : '';
  return [
    `The later survey less the earlier, each off its own best plane over the lines that both have${twist}: how the hull stood, high or low or tilted, is no change.`,
    bands.length === 0
      ? `Nothing differs by ${step} or more.`
      : `An unbroken edge and strokes rising to the right: came out, towards the water. A broken edge and strokes falling to the right: went in. A further edge, and denser strokes, every ${step}. Thin dotted strokes: less than the 95 % uncertainty there. No strokes: changed by less than ${step}.`,
    'Crossed out: not read in one of the two.',
    ...places(view, unit),
  ].join(' ');
}

function places({ stretched }: Pick<Drawn, 'stretched'>, unit: WorkUnit): readonly string[] {
  return [
    `Figures at the top: offset of each line from the keel; at the side: stations forward of the transom, ${unit}.`,
    ...(stretched ? ['Along and across are not drawn to one scale.'] : []),
  ];
}
