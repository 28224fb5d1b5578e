import type { BodyOf } from '../kinds/kinds.ts';
import { sentenceOf, type Wording } from './wording.ts';

type Place = NonNullable<BodyOf<'weight item'>['at']>;

export const weightItemWords: Wording<'weight item'> = {
  group: 'weights',
  words: (body, { names }) => {
    const thing = body.thing === undefined ? undefined : names.body('weight item', body.thing);
    return sentenceOf(
      `Weight, “${body.name}” ${body.act}`,
      [
        body.act !== 'aboard' && (body.since ?? 'as now'),
        body.weighed !== undefined && `weighed ${body.weighed}, with the changes in it`,
        body.mass?.text,
        body.typical === true && 'a typical mass, common practice, not weighed',
        body.thing !== undefined &&
          `the same thing as “${thing?.name ?? 'an item that is not here'}”, of its mass`,
        body.at && placeWords('at', body.at),
        body.from && placeWords('from', body.from),
        body.to && placeWords('to', body.to),
      ],
      body.note,
    );
  },
};

function placeWords(which: string, { x, height }: Place): string {
  const parts = [
    ...(x ? [`${x.text} forward of the transom`] : []),
    ...(height ? [`${height.text} above the keel`] : []),
  ];
  return `${which} ${parts.length === 0 ? 'a place not known' : parts.join(' and ')}`;
}

export const runningParticularsWords: Wording<'running particulars'> = {
  group: 'weights',
  words: (body, { names }) => {
    const said = (what: string, figure: { readonly text: string } | undefined) =>
      figure && `${what} ${figure.text}`;
    return sentenceOf('For the running trim', [
      said('beam', body.beam),
      said('deadrise', body.deadrise),
      said('straight keel', body.straightKeel),
      body.water && `${body.water} water`,
      said('from a speed of', body.slowest),
      said('to', body.fastest),
      said('complaint at', body.at),
      said('LCG to come back to', body.lcgWanted),
      said('propeller hub forward of the transom', body.hubX),
      said('propeller hub above the keel', body.hubHeight),
      said('drive trimmed', body.driveTrim),
      said('tabs fore and aft', body.tabChord),
      said('tabs wide together', body.tabWidth),
      said('tabs down', body.tabAngle),
      body.survey !== undefined && `tail angle of ${names.survey(body.survey)}`,
    ]);
  },
};
