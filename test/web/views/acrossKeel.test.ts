import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import type { HullLine } from '../../../src/survey/fold/hullLinesOf.ts';
import type { HullFeature } from '../../../src/survey/fold/hullOf.ts';
import { surfaceFrom } from '../../../src/survey/panels/surfaceFrom.ts';
import { tieWords } from '../../../src/survey/panels/tieWords.ts';
import type { PlacementAcross, Survey, Typed } from '../../../src/survey/survey.ts';
import { acrossDrawn } from '../../../web/views/acrossDrawn.ts';
import {
  acrossAnswers,
  answersOf,
  readAcross,
  strakesUnder,
} from '../../../web/views/acrossForm.ts';
import { acrossAfter, acrossRows } from '../../../web/views/acrossView.ts';
import { laidWhere } from '../../../web/views/laidWhere.ts';
import { planView } from '../../../web/views/planView.ts';
import { surfaceCaption } from '../../../web/views/surfaceCaption.ts';
import { surfacePictures } from '../../../web/views/surfacePictures.ts';
import { surfaceProves } from '../../../web/views/surfaceProves.ts';
import { surfaceView } from '../../../web/views/surfaceView.ts';
import { tieView, wantedDrawn } from '../../../web/views/tieView.ts';
import { stateOf } from '../sheets/samples.ts';

const STORY = readFileSync(
  new URL('../../../fixtures/samples/stories/twisted-skiff.csv', import.meta.url),
  'utf8',
);
const read = (text: string): Survey => {
  const found = readCsv(text);
  if (!found.ok) throw new Error(JSON.stringify(found.faults.slice(0, 3)));
  return found.survey;
};
const skiff = read(STORY);
const mm = (length: number): Typed => ({ mm: length, text: `${length} mm` });
const lines: readonly HullLine[] = skiff.lines.map(({ id, name, side, offset }) => ({
  id,
  ids: [id],
  name,
  side,
  offset: mm(offset),
}));
const OUTWARD = ['P450', 'P300', 'P150', 'S150', 'S300', 'S450'];

describe('the question where the edge lies right across the keel', () => {
  const diagonal = {
    ...acrossAnswers('both', undefined, 'mm'),
    direction: 'diagonal' as const,
    inner: '100',
    outer: '1000',
  };
  const found = readAcross(diagonal, lines, 'mm');
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  const { where } = found;

  it('is over the lines of both sides from port to starboard, a diagonal straight from chine to chine', () => {
    expect(where.side).toBe('both');
    expect(where.crosses.map(({ line }) => line)).toEqual(OUTWARD);
    expect(where.crosses.map(({ station }) => station.mm)).toEqual([100, 250, 400, 700, 850, 1000]);
  });

  it('has its answers back from what was laid, and a row a line with keys that differ', () => {
    const body = acrossAfter(where, undefined, [], undefined);
    expect(answersOf(body, lines, 'mm')).toMatchObject(diagonal);
    const rows = acrossRows({
      body,
      placement: undefined,
      lines,
      features: [],
      workUnit: 'mm',
    });
    expect(rows.map(({ label }) => label)).toEqual(OUTWARD);
    expect(new Set(rows.map(({ key }) => key)).size).toBe(6);
  });

  it('warns of a strake between two lines of the side that it is on, and of none on the keel of a side', () => {
    const strake = (side: HullFeature['side'], from: number, to: number): HullFeature => ({
      id: 'f',
      feature: 'strake',
      side,
      offsetFrom: mm(from),
      offsetTo: mm(to),
      stationFrom: mm(0),
      stationTo: mm(2000),
    });
    expect(strakesUnder(where, lines, [strake('starboard', 200, 230)])).toMatch(/S150 and S300/);
    expect(strakesUnder(where, lines, [strake('port', 200, 230)])).toMatch(/P300 and P150/);
    expect(strakesUnder(where, lines, [strake('centre', 0, 30)])).toMatch(/P150 and S150/);
    expect(strakesUnder(where, lines, [strake('port', 500, 530)])).toBe('');
  });
});

describe('what ties a bottom that is flat across the keel', () => {
  const state = (survey: Survey) => stateOf(survey);
  const view = (survey: Survey) =>
    tieView({ hull: { lines }, state: state(survey), stated: [], limit: 1500 });
  const unlaid = { ...skiff, across: [] };
  const across = skiff.across ?? [];

  it('is one plan of both sides, with three placements where two sides would take six', () => {
    const [whole, ...more] = view(unlaid);
    expect(more).toEqual([]);
    expect(whole.side).toBe('both');
    expect(whole.lines.map(({ name }) => name)).toEqual(OUTWARD);
    expect(whole.missing.map(({ direction }) => direction)).toEqual([
      'athwart',
      'athwart',
      'diagonal',
    ]);
    const words = tieWords(whole, 'mm');
    expect(words.head).toMatch(/^PORT TO STARBOARD, P450, .* and S450: not tied yet$/);
    expect(words.missing).toMatch(/on the diagonal, \d+ mm on P450 to \d+ mm on S450/);
  });

  it('is a plan a side as before where nobody states it', () => {
    expect(view({ ...unlaid, conditions: {} }).map(({ side }) => side)).toEqual([
      'port',
      'starboard',
    ]);
  });

  it('tells a side by itself too, once something lies across that alone and the whole is not tied', () => {
    const port: PlacementAcross = {
      ...across[0],
      side: 'port',
      readings: across[0].readings.filter(({ line }) => line.startsWith('P')),
    };
    expect(view({ ...skiff, across: [port] }).map(({ side, is }) => [side, is])).toEqual([
      ['both', 'open'],
      ['port', 'open'],
    ]);
    expect(view({ ...skiff, across: [port, ...across] }).map(({ side, is }) => [side, is])).toEqual(
      [['both', 'tied']],
    );
  });

  it('is drawn on the plan from port to starboard, whichever way it is seen', () => {
    const plan = view(unlaid)[0];
    const next = wantedDrawn(plan, plan.missing[2], 'mm');
    const laid = acrossDrawn([], across, { lines, features: [], workUnit: 'mm' });
    expect(laid.map(({ points }) => points.length)).toEqual([6, 6, 6, 6, 6]);
    expect(laid[0].words).toMatch(/^Across the keel, athwart at 100 mm/);
    const drawnLines = lines.map(({ id, name, side, offset }) => ({
      id,
      name,
      side,
      offset: offset.mm,
      stations: [],
      sections: [],
      word: '',
    }));
    for (const [from, sign] of [
      ['below', 1],
      ['above', -1],
    ] as const) {
      const drawing = planView(
        drawnLines,
        { features: [] },
        { size: { width: 400, height: 600, unit: 'px' }, from, unit: 'mm', across: [next] },
      );
      const [{ meets }] = drawing.across;
      expect(Math.sign(meets[0][0] - drawing.keel)).toBe(sign);
      expect(Math.sign(meets[5][0] - drawing.keel)).toBe(-sign);
    }
  });

  it('is named by the keel wherever a side is named', () => {
    expect(laidWhere(skiff, 'both/athwart 2/1', 'mm')).toBe('Across the keel athwart at 800 mm');
  });
});

describe('the map of a bottom read right across the keel', () => {
  const found = surfaceFrom(assess(skiff), 'mm');
  const [whole] = found.panels;

  it('has port on the right from below and on the left from above, and the keel between', () => {
    for (const [from, sign] of [
      ['below', 1],
      ['above', -1],
    ] as const) {
      const view = surfaceView([whole], { size: { width: 700, unit: 'px' }, from, unit: 'mm' });
      const at = view.lines.map(({ at: x, label }) => [label, Math.sign(x - view.keel)]);
      expect(at).toEqual([
        ['450', sign],
        ['300', sign],
        ['150', sign],
        ['150', -sign],
        ['300', -sign],
        ['450', -sign],
      ]);
      // The skiff's starboard side stands proud forward: its hatching lies there, whichever way it is seen.
      const proud = view.extremes.find(({ text }) => text.startsWith('proud'));
      expect(proud).toBeDefined();
      expect(view.outlines).toHaveLength(1);
      expect(view.summary).toMatch(/both sides: twisted/);
    }
  });

  it('says that heights are off one plane of the whole bottom', () => {
    const size = { width: 700, unit: 'px' } as const;
    const view = surfaceView([whole], { size, from: 'below', unit: 'mm' });
    expect(surfaceCaption([whole], view, 'mm')).toMatch(
      /^Heights off the best plane of the whole bottom\./,
    );
  });

  it('is never laid over the map of a side', () => {
    const lone = { ...whole, side: 'port' as const, lines: [{ name: 'P300', place: 300 }] };
    expect(surfacePictures([whole, lone])).toHaveLength(2);
    const beside = { ...lone, side: 'starboard' as const, lines: [{ name: 'S900', place: 900 }] };
    expect(surfacePictures([whole, beside])).toHaveLength(1);
  });

  it('is told at the head of the verdict where it proves what no line shows, and not where it proves nothing', () => {
    expect(surfaceProves(found)).toEqual([
      { word: 'Twisted', where: 'PORT TO STARBOARD, lines P450 to S450' },
    ]);
    const proves = (proven: boolean) =>
      surfaceProves({ ...found, panels: [{ ...whole, proven }] }).length;
    expect([proves(true), proves(false)]).toEqual([1, 0]);
  });
});
