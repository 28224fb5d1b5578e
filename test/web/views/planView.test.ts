import { expect, test } from 'vitest';
import { planLines, stationsOf } from '../../../web/views/planLines.ts';
import {
  planView,
  type PlanHull,
  type PlanView,
  type SeenFrom,
} from '../../../web/views/planView.ts';
import { fromCsv, ODDITIES, sample } from './pictured.ts';

const inches = sample('inches-wide');
const lines = planLines(inches.lines);
const typed = (mm: number) => ({ mm, text: `${mm} mm` });

function plan(from: SeenFrom, hull: PlanHull = { features: [] }): PlanView {
  const size = { width: 700, height: 460, unit: 'px' } as const;
  return planView(lines, hull, { size, from, unit: 'in', limit: inches.limit.mm });
}
const xOf = (view: PlanView, id: string) => Number(view.lines.find((line) => line.id === id)?.x);

test('from below, bow up, port is on the right; from above it is on the left', () => {
  const below = plan('below');
  const above = plan('above');
  expect(xOf(below, 'P18in')).toBeGreaterThan(below.keel);
  expect(xOf(below, 'S18in')).toBeLessThan(below.keel);
  expect(xOf(above, 'P18in')).toBeLessThan(above.keel);
  expect(below.sides.map(({ label }) => label)).toEqual(['STARBOARD', 'PORT']);
  expect(above.sides.map(({ label }) => label)).toEqual(['PORT', 'STARBOARD']);
  expect(below.sides[0].x).toBeLessThan(below.sides[1].x);
  expect(below.name).toContain('seen from below, bow up, port on the right');
});

test('turning the view mirrors it about the keel and changes nothing else', () => {
  const [below, above] = [plan('below'), plan('above')];
  for (const { id, name } of lines) {
    expect(xOf(below, id) - below.keel, name).toBeCloseTo(above.keel - xOf(above, id), 1);
  }
  expect(below.stations).toEqual(above.stations);
});

test('one scale both ways: offsets and stations are drawn alike', () => {
  const view = plan('below');
  const across = (xOf(view, 'P30in') - view.keel) / (30 * 25.4);
  const [first, second] = view.stations;
  const along = (first.at - second.at) / ((Number(second.label) - Number(first.label)) * 25.4);
  expect(across).toBeCloseTo(along, 3);
});

test('the transom is at the foot: stations rise towards the bow', () => {
  const at = plan('below').stations.map((tick) => tick.at);
  expect(at).toEqual([...at].sort((a, b) => b - a));
});

test('the beam is drawn as stated; without one the chines are a frame around the outermost line', () => {
  const stated = plan('below', { beamAtChine: 2200, features: [] });
  const scale = (xOf(stated, 'P30in') - stated.keel) / 762;
  expect(stated.hull.width / scale).toBeCloseTo(2200, -1);
  expect(stated.beamKnown).toBe(true);
  const unstated = plan('below');
  expect(unstated.beamKnown).toBe(false);
  expect(unstated.foot).toContain('beam not stated');
  expect(unstated.hull.x + unstated.hull.width).toBeGreaterThan(xOf(unstated, 'P30in'));
});

test('a beam narrower than the outermost line never leaves the line outside the hull', () => {
  const view = plan('below', { beamAtChine: 1000, features: [] });
  expect(view.hull.x + view.hull.width).toBeGreaterThan(xOf(view, 'P30in'));
});

test('a feature on both sides is drawn on both, one on starboard on its side only', () => {
  const feature = {
    feature: 'strake' as const,
    offsetFrom: typed(500),
    offsetTo: typed(550),
    stationFrom: typed(200),
    stationTo: typed(900),
  };
  const view = plan('below', {
    features: [
      { ...feature, id: 'a', side: 'both' },
      { ...feature, id: 'b', feature: 'through-hull', side: 'starboard', note: 'intake' },
    ],
  });
  expect(view.features.map((f) => f.words)).toEqual([
    'strake, port',
    'strake, starboard',
    'through-hull, intake, starboard',
  ]);
  expect(view.features[0].x).toBeGreaterThan(view.keel);
  expect(view.features[2].x + view.features[2].width).toBeLessThan(view.keel);
});

test('what a finger can touch of neighbouring lines meets and does not overlap', () => {
  const targets = plan('below').lines.map((line) => line.target);
  for (let i = 1; i < targets.length; i++) {
    expect(targets[i - 1].x + targets[i - 1].width).toBeCloseTo(targets[i].x, 1);
  }
});

test('names of lines that lie close together stand on different rows', () => {
  const close = [100, 110, 120].map((offset) => ({
    id: String(offset),
    name: `P${offset}`,
    side: 'port' as const,
    offset,
    stations: [],
    sections: [],
    word: '',
  }));
  const size = { width: 300, height: 300, unit: 'px' } as const;
  const view = planView(close, { features: [] }, { size, from: 'below', unit: 'mm' });
  expect(new Set(view.lines.map((line) => line.labelY)).size).toBe(3);
});

test('lines say their verdict, sections carry their letters', () => {
  const words = plan('below').lines.map((line) => line.words);
  expect(words).toContain('P30in, port, 30 in from the keel: Hook');
  const letters = plan('below').lines.find(({ id }) => id === 'P30in')?.sections;
  expect(letters?.map((s) => s.letter)).toContain('H');
});

test('a station is read once any placement has read it, else void, and voids keep apart', () => {
  const [line] = fromCsv(ODDITIES).lines.filter((each) => each.line.name === 'S450');
  const stations = stationsOf(line.line);
  expect(stations.filter((s) => s.state === 'void').map((s) => s.station)).toEqual([400]);
  expect(stations.map((s) => s.station)).toEqual([...new Set(stations.map((s) => s.station))]);
});
