import { describe, expect, it } from 'vitest';

import { tiePlans, type CrossedLine, type LaidAcross } from '../../../src/survey/panels/tiePlan.ts';
import { tieWords, wantedWords } from '../../../src/survey/panels/tieWords.ts';

const STATIONS = [0, 150, 300, 600, 900, 1200];
const marked = (offset: number, stations: readonly number[] = STATIONS): CrossedLine => ({
  id: `p${offset}`,
  name: `P${offset}`,
  side: 'port',
  offset,
  marks: stations.map((mm) => ({ mm, text: `${mm} mm` })),
  read: stations.length,
});
const laid = (
  stations: readonly number[],
  offsets: readonly number[],
  direction: LaidAcross['direction'] = 'athwart',
): LaidAcross => ({
  id: `${direction} ${stations.join(' ')}`,
  direction,
  lines: offsets.map((offset) => `p${offset}`),
  met: offsets.map((offset, i) => ({
    line: `p${offset}`,
    station: stations[i] ?? stations[0],
  })),
});
const FOUR = [150, 300, 450, 600];
const lines = FOUR.map((offset) => marked(offset));
const plan = (across: readonly LaidAcross[], of: readonly CrossedLine[] = lines) => {
  const plans = tiePlans('port', of, across);
  expect(plans).toHaveLength(1);
  return plans[0];
};
const said = (across: readonly LaidAcross[], of = lines) => {
  const found = plan(across, of);
  return found.missing.map((each) => wantedWords(each, found.lines, 'mm'));
};
const DIAGONAL = 'on the diagonal, 150 mm on P150 to 1200 mm on P600';

describe('what ties the lines of a side', () => {
  it('is two athwart, far apart, and one diagonal, said before anything is laid', () => {
    expect(said([])).toEqual(['athwart at 150 mm', 'athwart at 1200 mm', DIAGONAL]);
    expect(plan([])).toMatchObject({ is: 'open', least: { athwart: 2, diagonal: 1 } });
    expect(tieWords(plan([]), 'mm')).toEqual({
      head: 'PORT, P150, P300, P450 and P600: not tied yet',
      least:
        'The least that ties four lines: two placements athwart, far apart, and one on a diagonal, each over three of them or more. More than the least check one another.',
      missing: `Still to lay: athwart at 150 mm, athwart at 1200 mm and ${DIAGONAL}.`,
      also: [],
    });
  });

  it('goes on from what is laid, as far from it as there are marks', () => {
    expect(said([laid([300], FOUR)])).toEqual(['athwart at 1200 mm', DIAGONAL]);
    expect(said([laid([900], FOUR)])).toEqual(['athwart at 150 mm', DIAGONAL]);
  });

  it('is whole but for a twist with two athwart, and whole with a diagonal', () => {
    const two = [laid([0], FOUR), laid([900], FOUR)];
    expect(plan(two)).toMatchObject({ is: 'heights' });
    expect(said(two)).toEqual([DIAGONAL]);
    const three = [...two, laid([0, 300, 600, 900], FOUR, 'diagonal')];
    expect(plan(three)).toMatchObject({ is: 'tied', missing: [] });
    expect(tieWords(plan(three), 'mm')).toMatchObject({
      head: 'PORT, P150, P300, P450 and P600: tied',
      missing: '',
    });
  });

  it('counts nothing that crosses only two lines, nor what was laid and not read', () => {
    const short = [laid([0], [150, 300]), { ...laid([600], FOUR), met: [] }];
    expect(said(short)).toEqual(['athwart at 150 mm', 'athwart at 1200 mm', DIAGONAL]);
  });

  it('wants more where a line was crossed too seldom', () => {
    const three = [150, 300, 450];
    const found = plan([
      laid([0], FOUR),
      laid([900], three),
      laid([0, 450, 900], three, 'diagonal'),
    ]);
    expect(found.is).toBe('open');
    expect(found.missing).toHaveLength(1);
  });

  it('is told panel by panel where a strake parts the lines', () => {
    const six = [100, 200, 300, 500, 600, 700].map((offset) => marked(offset));
    const plans = tiePlans('starboard', six, [
      laid([0], [100, 200, 300]),
      laid([0], [500, 600, 700]),
      laid([1200], [500, 600, 700]),
    ]);
    expect(plans.map(({ lines: own, is }) => [own.map(({ name }) => name), is])).toEqual([
      [['P100', 'P200', 'P300'], 'open'],
      [['P500', 'P600', 'P700'], 'heights'],
    ]);
  });

  it('keeps off the transom’s very edge, unless nothing else is marked', () => {
    const short = plan(
      [],
      [150, 300, 450].map((offset) => marked(offset, [0, 300])),
    );
    expect(short.missing[0]?.inner.mm).toBe(0);
    expect(plan([]).missing[0]?.inner.mm).toBe(150);
  });

  it('cannot be had on two lines, and that is said', () => {
    const found = plan([], [marked(150), marked(300)]);
    expect(found).toMatchObject({ is: 'too few lines', missing: [] });
    expect(tieWords(found, 'mm').least).toMatch(/three lines on a side are the least/);
  });

  it('keeps to the reach of every line, and asks for a line that is not read along itself', () => {
    const uneven = [marked(150), marked(300, [150, 600, 900]), marked(450)];
    const found = plan([], uneven);
    expect(found.missing.map(({ inner, outer }) => [inner.mm, outer.mm])).toEqual([
      [150, 150],
      [900, 900],
      [150, 900],
    ]);
    expect(tieWords(found, 'mm').also).toEqual([
      'Read P300 along itself too, at four stations or more: until then it is no part of the surface.',
    ]);
  });

  it('says what is missing and nothing where to lay it while no station is marked', () => {
    expect(
      plan(
        [],
        FOUR.map((offset) => marked(offset, [])),
      ),
    ).toMatchObject({ is: 'open', missing: [] });
  });
});
