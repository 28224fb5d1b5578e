import { expect, test } from 'vitest';
import type { LineAssessment, SurveyAssessment } from '../../../src/survey/assessment.ts';
import { profileScale } from '../../../web/views/profileScale.ts';
import { profileView, type ProfileView } from '../../../web/views/profileView.ts';
import { fromCsv, lineNamed, ODDITIES, sample } from './pictured.ts';

const SCREEN = { width: 760, height: 360, unit: 'px' } as const;

function view(
  assessment: SurveyAssessment,
  line: LineAssessment,
  options: {
    readonly size?: { width: number; height: number; unit: 'px' | 'mm' };
    readonly zoom?: readonly [number, number];
  } = {},
): ProfileView {
  const { size = SCREEN, zoom } = options;
  const asked = { limit: assessment.limit.mm, tolerance: assessment.tolerance.gap };
  const scale = profileScale(assessment.lines, asked, size);
  return profileView(line, assessment, { size, scale, unit: assessment.survey.workUnit, zoom });
}

const places = (path: string): [number, number][] =>
  [...path.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

const inches = sample('inches-wide');
const odd = fromCsv(ODDITIES);

test('port and starboard alike lie with the transom left and the bow right', () => {
  for (const name of ['P18in', 'S18in']) {
    const { readings, transom } = view(inches, lineNamed(inches, name));
    const x = readings.map((r) => r.x);
    expect(x).toEqual([...x].sort((a, b) => a - b));
    expect(x[0]).toBeCloseTo(transom, 1);
  }
});

test('proud is drawn towards the water, which is down: of two readings the hollower stands higher', () => {
  const line = lineNamed(inches, 'P30in');
  const { readings } = view(inches, line);
  const order = (values: readonly number[]) =>
    values.map((_, i) => i).sort((a, b) => values[a] - values[b]);
  expect(order(readings.map((r) => r.y))).toEqual(order(line.points.map((p) => Number(p.z))));
});

test('a hump is drawn below its chord and a hollow above it', () => {
  const rocker = sample('stories/rocker-blocks');
  const [hump] = view(rocker, rocker.lines[0]).chords;
  expect(hump.is).toBe('hump');
  expect(hump.measure.y[1]).toBeGreaterThan(hump.measure.y[0]);
  const [hollow] = view(inches, lineNamed(inches, 'P30in')).chords;
  expect(hollow.is).toBe('hollow');
  expect(hollow.measure.y[1]).toBeLessThan(hollow.measure.y[0]);
});

test('all lines of a survey have one scale, so that a height is as tall on each of them', () => {
  const steps = inches.lines.map((line) => {
    const { times, heights } = view(inches, line);
    return `${times} ${(heights[1].at - heights[0].at).toFixed(1)}`;
  });
  expect(new Set(steps).size).toBe(1);
});

test('the exaggeration that is printed is that of the drawing', () => {
  const line = lineNamed(inches, 'P18in');
  const drawn = view(inches, line);
  const [a, b] = [drawn.readings[0], drawn.readings[drawn.readings.length - 1]];
  const stations = line.points.map((p) => p.station);
  const along = (b.x - a.x) / (stations[stations.length - 1] - stations[0]);
  // Bars reach twice the standard uncertainty either way.
  const across = (a.low - a.high) / (4 * line.points[0].u);
  expect(Number(drawn.times.slice(1))).toBeCloseTo(across / along, 0);
});

test('a zoom stretches lengths and leaves heights, and the printed exaggeration falls with it', () => {
  const line = lineNamed(inches, 'P18in');
  const whole = view(inches, line);
  const scale = profileScale(inches.lines, { limit: 1524, tolerance: 1.5 }, SCREEN);
  const middle = (scale.from + scale.to) / 2;
  const half = view(inches, line, { zoom: [scale.from, middle] });
  expect(half.heights).toEqual(whole.heights);
  expect(Number(half.times.slice(1))).toBeCloseTo(Number(whole.times.slice(1)) / 2, 5);
  expect(half.readings.length).toBeLessThan(whole.readings.length);
  expect(half.stops.length).toBe(whole.stops.length);
  expect(half.stops.filter((stop) => stop.shown).length).toBeLessThan(half.stops.length);
});

test('paper in mm is the screen in px, scaled: the same words and signs in the same order', () => {
  const line = lineNamed(inches, 'P18in');
  const paper = view(inches, line, { size: { width: 180, height: 75, unit: 'mm' } });
  const screen = view(inches, line);
  expect(paper.sections.map((s) => s.letter)).toEqual(screen.sections.map((s) => s.letter));
  expect(paper.summary).toBe(screen.summary);
  expect(paper.readings).toHaveLength(screen.readings.length);
  for (const { x, y } of paper.readings) {
    expect(x).toBeLessThan(180);
    expect(y).toBeLessThan(75);
  }
});

test('everything judged lies inside the plot, its bars included', () => {
  for (const assessment of [inches, odd, sample('metric-long'), sample('stories/one-side')]) {
    for (const line of assessment.lines) {
      const drawn = view(assessment, line);
      const { x, y, width, height } = drawn.plot;
      for (const r of drawn.readings.filter((each) => each.judged)) {
        expect(r.x).toBeGreaterThanOrEqual(x);
        expect(r.x).toBeLessThanOrEqual(x + width);
        expect(r.high).toBeGreaterThanOrEqual(y);
        expect(r.low).toBeLessThanOrEqual(y + height);
      }
    }
  }
});

test('a reading, its gap and the straightedge meet: every reading stands its gap from the edge drawn', () => {
  const line = lineNamed(inches, 'P18in');
  const drawn = view(inches, line);
  const [[x0, y0], [x1, y1]] = places(drawn.edges[0].path);
  const [a] = drawn.readings;
  const across = (a.low - a.high) / (4 * line.points[0].u);
  line.points.forEach((point, i) => {
    const { x, y } = drawn.readings[i];
    const edge = y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
    expect((edge - y) / across).toBeCloseTo(point.gap, 1);
  });
});

test('the edge reaches aft of the transom where it overhung', () => {
  const drawn = view(odd, lineNamed(odd, 'S450'));
  expect(places(drawn.edges[0].path)[0][0]).toBeLessThan(drawn.transom);
});

test('voids stand apart from readings, and a second look from the first', () => {
  const drawn = view(odd, lineNamed(odd, 'S450'));
  expect(drawn.unread.map(({ state, words }) => [state, words])).toEqual([
    ['void', '400 mm: void: through-hull'],
  ]);
  expect(drawn.readings.filter((r) => r.look === 2)).toHaveLength(1);
  expect(drawn.readings.some((r) => r.x === drawn.unread[0].x)).toBe(false);
});

test('readings ahead of the limit are drawn and not judged, and one off the picture is pointed at', () => {
  const drawn = view(odd, lineNamed(odd, 'S450'));
  const limit = Number(drawn.limit?.x);
  expect(drawn.limit?.label).toBe('limit 1200 mm');
  const ahead = drawn.readings.filter((r) => r.x > limit + 0.01);
  expect(ahead).toHaveLength(1);
  expect(ahead.every((r) => !r.judged)).toBe(true);
  expect(drawn.offPicture.map(({ words }) => words)).toEqual([
    '1400 mm: gap as typed 9, off the picture',
  ]);
  expect(Math.max(...places(String(drawn.fit?.path)).map(([x]) => x))).toBeCloseTo(limit, 1);
});

test('a line with too few readings says so and draws no surface, section or chord', () => {
  const drawn = view(odd, lineNamed(odd, 'P300'));
  expect(drawn.instead).toBe('3 of the 4 stations that a profile needs');
  expect([drawn.fit, drawn.sections, drawn.chords]).toEqual([undefined, [], []]);
});

test('heights are told in 32nds of an inch at the finest, stations in whole inches', () => {
  const drawn = view(inches, lineNamed(inches, 'P6in'), {
    size: { width: 760, height: 2400, unit: 'px' },
  });
  for (const { label } of drawn.heights) expect(label).toMatch(/^\d+$|^(\d+ )?\d+\/(2|4|8|16|32)$/);
  for (const { label } of drawn.stations) expect(label).toMatch(/^\d+$/);
});

test('the words name side, place, sections and tolerance', () => {
  const drawn = view(inches, lineNamed(inches, 'P30in'));
  expect(drawn.name).toBe('Profile of line P30in, port, 30 in from the keel');
  expect(drawn.title).toBe('P30in · PORT');
  expect(drawn.summary).toMatch(
    /^14 readings at 14 stations\. Sections: fair, proven, from 0 to .*hook, proven, from/,
  );
  expect(drawn.summary).toContain(`Tolerance ${drawn.toleranceWords}.`);
});
