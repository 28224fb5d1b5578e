import { lineName } from '../fold/hullLinesOf.ts';
import { withUnit } from '../withUnit.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const hullWords: Wording<'hull'> = {
  group: 'hull',
  words: (body, { unit }) =>
    sentenceOf(
      'The hull',
      [
        `“${body.name}”`,
        body.builder !== undefined && `builder ${body.builder}`,
        body.hin !== undefined && `identification number ${body.hin}`,
        body.year !== undefined && `built ${body.year}`,
        body.length && `length ${withUnit(body.length, unit)}`,
        body.beamAtChine && `beam at chine ${withUnit(body.beamAtChine, unit)}`,
        body.deadrise && `deadrise ${body.deadrise.degrees}°`,
        body.propulsion,
        body.checkEvery !== undefined &&
          `to be checked every ${body.checkEvery} ${body.checkEvery === 1 ? 'month' : 'months'}`,
        body.invented === true && 'invented: no such boat exists',
      ],
      body.notes,
    ),
};

export const lineWords: Wording<'line'> = {
  group: 'hull',
  words: (body, { unit }) =>
    sentenceOf(
      `Line ${lineName(body)}`,
      [
        body.side,
        `${withUnit(body.offset, unit)} from the keel`,
        body.landmark,
        body.limit && `judged to ${withUnit(body.limit, unit)}`,
      ],
      body.notes,
    ),
};

export const featureWords: Wording<'feature'> = {
  group: 'hull',
  words: (body, { unit }) => {
    const length = (typed: typeof body.offsetFrom) => withUnit(typed, unit);
    return sentenceOf(
      `On the bottom, ${body.feature}`,
      [
        body.side === 'both' ? 'both sides' : body.side,
        `${length(body.offsetFrom)} to ${length(body.offsetTo)} from the keel`,
        `stations ${length(body.stationFrom)} to ${length(body.stationTo)}`,
      ],
      body.note,
    );
  },
};
