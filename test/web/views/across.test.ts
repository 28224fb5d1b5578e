import { describe, expect, it } from 'vitest';

import type { HullLine } from '../../../src/survey/fold/hullLinesOf.ts';
import type { HullFeature } from '../../../src/survey/fold/hullOf.ts';
import type { PlacementAcross, Typed } from '../../../src/survey/survey.ts';
import { acrossDrawn } from '../../../web/views/acrossDrawn.ts';
import {
  acrossAnswers,
  answersOf,
  readAcross,
  strakesUnder,
  type AcrossAnswers,
} from '../../../web/views/acrossForm.ts';
import {
  acrossAfter,
  acrossAgain,
  acrossName,
  acrossRows,
  type AcrossBody,
} from '../../../web/views/acrossView.ts';
import { laidWhere } from '../../../web/views/laidWhere.ts';
import { planView } from '../../../web/views/planView.ts';
import { rowName } from '../../../web/views/readingsView.ts';
import { wantedFrom } from '../../../web/views/tieView.ts';

const mm = (length: number): Typed => ({ mm: length, text: `${length} mm` });
const line = (side: 'port' | 'starboard', offset: number): HullLine => {
  const name = `${side === 'port' ? 'P' : 'S'}${offset}`;
  return { id: name, ids: [name, `${name} twin`], name, side, offset: mm(offset) };
};
const lines = [600, 150, 450].flatMap((offset) => [
  line('port', offset),
  line('starboard', offset),
]);
const answers = (more: Partial<AcrossAnswers> = {}): AcrossAnswers => ({
  ...acrossAnswers('port', undefined, 'mm'),
  inner: '300',
  ...more,
});
const crosses = (of: AcrossAnswers) => {
  const read = readAcross(of, lines, 'mm');
  return read.ok ? read.where.crosses.map((each) => [each.line, each.station.text]) : read.problems;
};

describe('the question where the edge lies across', () => {
  it('is over all lines of that side and of no other, from the keel outwards, unless one is left out', () => {
    expect(crosses(answers())).toEqual([
      ['P150', '300 mm'],
      ['P450', '300 mm'],
      ['P600', '300 mm'],
    ]);
    expect(crosses(answers({ side: 'starboard', without: ['S600'] }))).toEqual([
      ['S150', '300 mm'],
      ['S450', '300 mm'],
    ]);
  });

  it('puts the lines of a diagonal on the straight line between its ends, as near as they can be marked', () => {
    const diagonal = answers({ direction: 'diagonal', outer: '1000' });
    expect(crosses(diagonal)).toEqual([
      ['P150', '300 mm'],
      ['P450', '767 mm'],
      ['P600', '1000 mm'],
    ]);
  });

  it('is refused with fewer than two lines, no station, or a diagonal at one station', () => {
    expect(crosses(answers({ without: ['P150', 'P600'] }))).toHaveProperty('lines');
    expect(crosses(answers({ inner: '' }))).toHaveProperty('inner');
    expect(crosses(answers({ inner: 'x' }))).toMatchObject({ inner: /Found “x”/ });
    expect(crosses(answers({ direction: 'diagonal', outer: '300' }))).toHaveProperty('outer');
  });

  it('starts from what is wanted, and comes back whole from what was stated', () => {
    const wanted = wantedFrom({ inner: 304.8, outer: 1219.2 }, 'in');
    expect(wanted).toMatchObject({ direction: 'diagonal', inner: { text: '12 in' } });
    const start = acrossAnswers('port', wanted, 'in');
    expect(start).toMatchObject({ inner: '12', outer: '48', without: [] });
    const read = readAcross({ ...start, without: ['P450'] }, lines, 'in');
    if (!read.ok) throw new Error('it can be read');
    const body = acrossAfter(read.where, undefined, [], undefined);
    expect(answersOf(body, lines, 'in')).toEqual({ ...start, without: ['P450'] });
  });

  it('points out a strake between its lines, and none beside them or ahead', () => {
    const strake = (from: number, to: number, side: HullFeature['side'] = 'both'): HullFeature => ({
      id: 's',
      feature: 'strake',
      side,
      offsetFrom: mm(from),
      offsetTo: mm(to),
      stationFrom: mm(200),
      stationTo: mm(2000),
    });
    const told = (feature: HullFeature, inner = '300') => {
      const read = readAcross(answers({ inner }), lines, 'mm');
      return read.ok ? strakesUnder(read.where, lines, [feature]) : 'unread';
    };
    expect(told(strake(250, 300))).toMatch(/between P150 and P450/);
    expect(told(strake(700, 750))).toBe('');
    expect(told(strake(250, 300, 'starboard'))).toBe('');
    expect(told(strake(250, 300), '100')).toBe('');
  });
});

const where = { side: 'port', direction: 'athwart' } as const;
const body: AcrossBody = {
  ...where,
  name: '1',
  repeat: 1,
  held: 'resting',
  crosses: ['P150', 'P450', 'P600'].map((id) => ({ line: `${id} twin`, station: mm(300) })),
};
const placement: PlacementAcross = {
  ...where,
  id: 'a',
  name: '1',
  repeat: 1,
  held: 'resting',
  readings: [{ line: 'P150', station: mm(300), gap: mm(2), look: 1, source: 'r' }],
  voids: [{ line: 'P450', station: mm(300), reason: 'strake', source: 'v' }],
  later: [],
};
const from = { lines, features: [], workUnit: 'mm' } as const;

describe('a placement across', () => {
  it('has a row for each line that it was laid to cross, read, void or neither', () => {
    const rows = acrossRows({ ...from, body, placement });
    expect(rows.map((row) => [row.line, row.label, row.state])).toEqual([
      ['P150', 'P150', 'read'],
      ['P450', 'P450', 'void'],
      ['P600', 'P600', 'empty'],
    ]);
    expect(new Set(rows.map(({ key }) => key)).size).toBe(3);
    expect(rows.map(rowName)).toEqual(['P150', 'P450', 'P600']);
  });

  it('shows what a file has of a line at another station beside the plan, and loses nothing', () => {
    const moved = { ...placement, readings: [{ ...placement.readings[0], station: mm(310) }] };
    const rows = acrossRows({ ...from, body, placement: moved });
    expect(rows.map(({ station, state }) => [station.mm, state])).toEqual([
      [310, 'read'],
      [300, 'void'],
      [300, 'empty'],
    ]);
  });

  it('says the station of each line on the diagonal', () => {
    const diagonal = { ...body, direction: 'diagonal' as const };
    const rows = acrossRows({ ...from, body: diagonal, placement: undefined });
    expect(rows.map(rowName)[0]).toBe('P150 at 300 mm');
  });

  it('is named by its side and station, laid again by which laying it is', () => {
    expect(acrossName(placement, [mm(300)], 'mm')).toBe('athwart at 300 mm');
    expect(acrossName({ ...where, repeat: 2 }, [mm(300)], 'mm')).toMatch(/laid again \(2\)$/);
    const survey = {
      conditions: {},
      support: [],
      workUnit: 'mm',
      kind: 'hand',
      lines: [],
      across: [placement],
    } as const;
    expect(laidWhere(survey, 'a', 'mm')).toBe('Port athwart at 300 mm');
    expect(laidWhere(survey, 'b', 'mm')).toBe('A line that is not here');
  });

  it('takes over how the edge was held, and of one along a line nothing that is said of stations', () => {
    const along = {
      line: 'P150',
      name: '1',
      repeat: 1,
      held: 'blocks' as const,
      block: mm(20),
      blockFore: mm(21),
      aftEnd: mm(0),
      edge: 'e',
      gauge: 'g',
      notes: 'n',
    };
    const at = { ...where, crosses: [] };
    expect(acrossAfter(at, along, [], 's')).toEqual({
      ...at,
      name: '1',
      repeat: 1,
      held: 'blocks',
      block: mm(20),
      edge: 'e',
      gauge: 'g',
      support: 's',
    });
    expect(acrossAfter(at, { ...body, blockFore: mm(21) }, [placement], undefined)).toMatchObject({
      name: '2',
      repeat: 1,
      blockFore: mm(21),
    });
    expect(acrossAgain(body, [placement, { ...placement, repeat: 3 }], undefined)).toMatchObject({
      name: '1',
      repeat: 4,
      crosses: body.crosses,
    });
  });
});

describe('the picture of what lies across', () => {
  const starboard = { ...placement, id: 'b', side: 'starboard' as const };
  const sidesOf = (seen: 'below' | 'above') => {
    const stated = [
      { id: 'a', body },
      {
        id: 'b',
        body: {
          ...body,
          side: 'starboard' as const,
          crosses: ['S150', 'S450'].map((id) => ({ line: id, station: mm(300) })),
        },
      },
    ];
    const across = acrossDrawn(
      stated,
      [placement, { ...starboard, readings: [], voids: [] }],
      from,
    );
    const plan = planView(
      lines.map(({ id, name, side, offset }) => ({
        id,
        name,
        side,
        offset: offset.mm,
        stations: [{ station: 900, state: 'open' as const }],
        sections: [],
        word: '',
      })),
      { features: [] },
      { size: { width: 400, height: 400, unit: 'px' }, from: seen, unit: 'mm', across },
    );
    return { plan, across };
  };

  it('lies on its own lines, on the side where PORT stands, from below and from above', () => {
    for (const seen of ['below', 'above'] as const) {
      const { plan, across } = sidesOf(seen);
      expect(across.map(({ id, is }) => [id, is])).toEqual([
        ['a', 'laid'],
        ['b', 'laid'],
      ]);
      for (const { id, meets } of plan.across) {
        const label = id === 'a' ? 'PORT' : 'STARBOARD';
        const word = plan.sides.find((each) => each.label === label);
        const side = Math.sign((word?.x ?? NaN) - plan.keel);
        for (const [x] of meets) {
          expect(Math.sign(x - plan.keel)).toBe(side);
          expect(plan.lines.some((each) => each.x === x)).toBe(true);
        }
      }
    }
  });

  it('is told in words as well, and marks the one that is about to be laid', () => {
    expect(sidesOf('below').plan.summary).toContain('Port, athwart at 300 mm: 1 of 2 read');
    const now = acrossDrawn([], [], from, { id: undefined, body });
    expect(now.map(({ is, points }) => [is, points.length])).toEqual([['now', 3]]);
  });
});
