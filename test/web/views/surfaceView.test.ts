import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { hasSurface } from '../../../web/views/hasSurface.ts';
import { gridContours } from '../../../web/views/surfaceContours.ts';
import { surfaceFrom, type PanelSurface } from '../../../src/survey/panels/surfaceFrom.ts';
import { surfacePictures } from '../../../web/views/surfacePictures.ts';
import { changeCaption } from '../../../web/views/surfaceCaption.ts';
import { OF_A_CHANGE, surfaceView } from '../../../web/views/surfaceView.ts';

const STORY = readFileSync(
  new URL('../../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
  'utf8',
);

function read(text: string): Survey {
  const found = readCsv(text);
  if (!found.ok) throw new Error(JSON.stringify(found.faults.slice(0, 3)));
  return found.survey;
}

const SIZE = { width: 700, unit: 'px' } as const;
const tied = surfaceFrom(assess(read(STORY)), 'mm');

/** Proud at the aft end of its outer line, on one side only. */
const PORT: PanelSurface = {
  side: 'port',
  lines: [
    { name: 'P1', place: 100 },
    { name: 'P2', place: 300 },
  ],
  words: { word: 'Undecided', where: 'port', findings: [], closure: '', next: [] },
  proven: false,
  datum: 'plane',
  grids: [
    {
      x: [0, 500, 1000],
      y: [100, 300],
      z: [0, 0, 0, 2, 0, -1],
      u: Array(6).fill(0.1),
      blank: [0, 0, 1, 0, 0, 0],
    },
  ],
  areas: [],
  facts: [],
  closure: [],
};

const across = (path: string) => [...path.matchAll(/[ML]([-\d.]+),/g)].map(([, x]) => Number(x));

describe('the map of a bottom', () => {
  it('has port on the right of the keel from below and on the left from above, bow up', () => {
    for (const [from, sign] of [
      ['below', 1],
      ['above', -1],
    ] as const) {
      const view = surfaceView([PORT], { size: SIZE, from, unit: 'mm' });
      const [port, starboard] = view.sides;
      expect([port.text, starboard.text]).toEqual(['PORT', 'STARBOARD']);
      expect(Math.sign(port.x - view.keel)).toBe(sign);
      expect(Math.sign(starboard.x - view.keel)).toBe(-sign);
      for (const band of view.bands) {
        for (const x of across(band.path)) expect(Math.sign(x - view.keel)).toBe(sign);
      }
      for (const { at } of view.lines) expect(Math.sign(at - view.keel)).toBe(sign);
      const [aft, fore] = [view.stations.at(0), view.stations.at(-1)];
      expect(aft?.at).toBeGreaterThan(fore?.at ?? Infinity);
    }
  });

  it('shows what is proud at the transom at the foot, and what is hollow forward above it', () => {
    const view = surfaceView([PORT], { size: SIZE, from: 'below', unit: 'mm' });
    const proud = view.extremes.find(({ text }) => text.startsWith('proud'));
    const hollow = view.extremes.find(({ text }) => text.startsWith('hollow'));
    expect(proud?.text).toBe('proud 2.0 mm');
    expect(hollow?.text).toBe('hollow 1.0 mm');
    expect(proud?.y).toBeGreaterThan(hollow?.y ?? Infinity);
  });

  it('draws where to lay the straightedge next from its inner station by the keel to its outer one', () => {
    for (const [from, sign] of [
      ['below', 1],
      ['above', -1],
    ] as const) {
      const panel = { ...PORT, next: { inner: 100, outer: 700 } };
      const [next] = surfaceView([panel], { size: SIZE, from, unit: 'mm' }).next;
      const [x1, y1, x2, y2] = (next.path.match(/-?[\d.]+/g) ?? []).map(Number);
      expect(next.text).toBe('LAY NEXT');
      expect(sign * (x2 - x1)).toBeGreaterThan(0);
      expect(y1).toBeGreaterThan(y2);
    }
    expect(surfaceView([PORT], { size: SIZE, from: 'below', unit: 'mm' }).next).toEqual([]);
  });

  it('calls heights of a change what they are, and says under it off what they are told', () => {
    const view = surfaceView([PORT], { size: SIZE, from: 'above', unit: 'mm', names: OF_A_CHANGE });
    expect(view.title).toBe('What changed seen from above');
    expect(view.extremes.map(({ text }) => text)).toEqual(['came out 2.0 mm', 'went in 1.0 mm']);
    const caption = changeCaption([PORT], view, 'mm');
    expect(caption).toMatch(/each off its own best plane over the lines that both have: how/);
    expect(caption).toMatch(/Crossed out: not read in one of the two/);
    const turned = { ...PORT, datum: 'plane and twist' as const };
    expect(changeCaption([PORT, turned], view, 'mm')).toMatch(/a twist left out/);
    expect(changeCaption([PORT], { ...view, bands: [] }, 'mm')).toMatch(
      /Nothing differs by 0.5 mm/,
    );
  });

  it('leaves what nobody read blank', () => {
    const view = surfaceView([PORT], { size: SIZE, from: 'below', unit: 'mm' });
    expect(view.blanks).toHaveLength(1);
  });

  it('maps rows that are not evenly spaced to their own places', () => {
    const [ring] = gridContours(
      { x: [0, 1], y: [0, 100, 1000], z: [0, 0, 1, 1, 1, 1] },
      (i) => [0, 0, 1, 1, 1, 1][i],
      0.5,
    );
    expect(Math.min(...ring.map(([, y]) => y))).toBeCloseTo(50, 9);
    expect(Math.max(...ring.map(([, y]) => y))).toBe(1000);
  });

  it('refuses to draw nothing', () => {
    expect(() =>
      surfaceView([{ ...PORT, grids: [] }], { size: SIZE, from: 'below', unit: 'mm' }),
    ).toThrow(RangeError);
  });

  it('never lays two panels of one side over one another', () => {
    expect(surfacePictures([PORT, PORT])).toEqual([[PORT], [PORT]]);
    expect(surfacePictures([PORT, { ...PORT, side: 'starboard' }])).toHaveLength(1);
    expect(surfacePictures([{ ...PORT, grids: [] }])).toEqual([]);
  });
});

describe('the surface of a survey', () => {
  it('is one surface a side where straightedges lie across', () => {
    expect(tied.panels.map(({ side, datum }) => [side, datum])).toEqual([
      ['port', 'plane'],
      ['starboard', 'plane'],
    ]);
    expect(tied.panels[0].words.word).toMatch(/^Twisted/);
    expect(tied.panels[0].facts.map(({ what }) => what)).toContain('Twist');
  });

  it('survives the way between threads', () => {
    expect(structuredClone(tied)).toEqual(tied);
  });

  it('is told line by line, untied, without them', () => {
    const rows = STORY.split('\r\n').filter((row) => !/,(athwart|diagonal)$/.test(row));
    const survey = read(rows.join('\r\n'));
    const { panels } = surfaceFrom(assess(survey), 'mm');
    expect(panels.map(({ datum, grids }) => [datum, grids.length])).toEqual([
      ['each line', 4],
      ['each line', 4],
    ]);
    const view = surfaceView(panels, { size: SIZE, from: 'below', unit: 'mm' });
    expect(view.outlines).toHaveLength(8);
    expect(view.summary).toContain('heights between lines are not tied');
  });

  it('is offered from three lines a side, or where a straightedge lies across', () => {
    const survey = read(STORY);
    const two = survey.lines.filter(({ side }) => side === 'port').slice(0, 2);
    const bare: Survey = { ...survey, across: [] };
    expect(hasSurface(survey)).toBe(true);
    expect(hasSurface(bare)).toBe(true);
    expect(hasSurface({ ...bare, lines: two })).toBe(false);
    expect(hasSurface({ ...survey, lines: two })).toBe(true);
  });
});
