import type { BodyOf } from '../kinds/kinds.ts';
import { showUnit } from '../units.ts';
import { withUnit } from '../withUnit.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const straightedgeWords: Wording<'straightedge'> = {
  group: 'instruments',
  words: (body, { unit }) =>
    sentenceOf(
      `Straightedge “${body.name}”`,
      [
        body.type,
        body.length && withUnit(body.length, unit),
        body.bound &&
          `straight within ${withUnit(body.bound.size, unit)} over ${withUnit(body.bound.over, unit)}`,
        body.endsMarked === true && 'ends marked A and B',
        body.endsMarked === false && 'ends not marked',
        body.markedFace !== undefined && `working face ${body.markedFace}`,
        body.sag && sagWords(body.sag),
      ],
      body.notes,
    ),
};

function sagWords(sag: NonNullable<BodyOf<'straightedge'>['sag']>): string {
  switch (sag.from) {
    case 'section': {
      const wall = sag.wall === undefined ? 'solid' : `wall ${sag.wall} mm`;
      return `section ${sag.width} mm wide, ${sag.depth} mm deep, ${wall}, ${sag.material}`;
    }
    case 'stiffness':
      return `weight ${sag.weight} kg/m, stiffness ${sag.stiffness} N·m²`;
    case 'measured':
      return `sags ${sag.sag} mm between supports ${sag.between} mm apart`;
    case 'tension':
      return `weight ${sag.weight} kg/m, pulled with ${sag.tension} N`;
  }
}

export const gaugeWords: Wording<'gauge'> = {
  group: 'instruments',
  words: (body, { unit }) =>
    sentenceOf(
      `Gauge “${body.name}”`,
      [
        body.division && `division ${withUnit(body.division, unit)}`,
        body.reads === 'nearest mark' && 'read to the nearest mark',
        body.reads === 'last leaf' && 'read as the last leaf that went in',
        body.unit &&
          `typed in ${showUnit({
            unit: body.unit,
            ...(body.denominator !== undefined && { denominator: body.denominator }),
          })}`,
        body.repeatability && `repeats within ${withUnit(body.repeatability, unit)} (standard)`,
      ],
      body.notes,
    ),
};

export const edgeCheckWords: Wording<'edge check'> = {
  group: 'instruments',
  words: (body, { unit, names }) =>
    sentenceOf(
      `Check of the straightedge ${names.straightedge(body.edge)}`,
      [
        body.method === 'reversal' ? 'by reversal' : 'by three edges face to face',
        body.second !== undefined && `with ${names.straightedge(body.second)}`,
        body.third !== undefined && `and ${names.straightedge(body.third)}`,
        body.date,
        body.face === 'other' && 'the unmarked face',
        `read to ${withUnit(body.readTo, unit)}`,
        `${body.points.length} points`,
      ],
      body.notes,
    ),
  rows: {
    count: (body) => body.points.length,
    words: (body, { unit }, from, to) =>
      body.points
        .slice(from, to)
        .map((point) =>
          sentenceOf(`${withUnit(point.at, unit)} from end A`, [
            point.apart && `lines ${withUnit(point.apart, unit)} apart`,
            point.withSecond && `with the second ${withUnit(point.withSecond, unit)}`,
            point.secondWithThird &&
              `the second with the third ${withUnit(point.secondWithThird, unit)}`,
            point.withThird && `with the third ${withUnit(point.withThird, unit)}`,
          ]),
        ),
  },
};
