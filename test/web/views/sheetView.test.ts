import { expect, test } from 'vitest';
import { sampleSurvey, sampleView, viewOf, NO_HULL } from '../sheets/samples.ts';

const beam = (text: string, length: number) => ({
  ...NO_HULL,
  hull: { id: 'h', name: 'Godwit', beamAtChine: { mm: length, text }, invented: true },
});

test('one scale serves all profiles of a survey, so that their heights compare', () => {
  const { lines } = sampleView('inches-wide');
  expect(new Set(lines.map(({ profile }) => profile?.times)).size).toBe(1);
});

test('a profile is as many times too high as it says', () => {
  const { lines } = sampleView('stories/rocker-blocks');
  const drawing = lines[0]?.profile;
  if (drawing === undefined) throw new Error('a profile expected');
  const [a, b] = [drawing.along[0], drawing.along[1]];
  const [p, q] = [drawing.across[0], drawing.across[1]];
  if (!a || !b || !p || !q) throw new Error('two ticks either way expected');
  const alongPerMm = (b.x - a.x) / (Number(b.label) - Number(a.label));
  const acrossPerMm = Math.abs((q.y - p.y) / (Number(q.label) - Number(p.label)));
  expect(acrossPerMm / alongPerMm).toBeCloseTo(drawing.times, 0);
});

test('the transom is left and the water side down: a hollow lies above its reference', () => {
  const view = sampleView('stories/one-side');
  const drawing = view.lines.find(({ name }) => name === 'P30in')?.profile;
  const fills = drawing?.strokes.filter(({ is }) => is === 'fill') ?? [];
  expect(fills.length).toBeGreaterThan(10);
  for (const { to } of fills) expect(to).toBeLessThan(drawing?.level ?? NaN);
  expect(drawing?.along[0]?.label).toBe('0');
  expect(drawing?.along[0]?.x).toBe(drawing?.left);
});

test('the plan is seen from below with the bow up: port is on the right', () => {
  const { plan } = sampleView('inches-wide');
  for (const { name, x } of plan.lines) {
    expect(Math.sign(x - plan.keel)).toBe(name.startsWith('P') ? 1 : -1);
  }
  expect(plan.transom).toBeGreaterThan(plan.forward);
});

test('the plan has the hull’s own beam where it is known, and says where it is not', () => {
  const survey = sampleSurvey('stories/one-side');
  const wide = viewOf(survey, {}, { hull: beam('72 in', 1828.8) }).plan;
  expect(wide.measured).toBe(true);
  const line = wide.lines.find(({ name }) => name === 'P30in');
  // 30 of 36 in from the keel to the chine.
  expect(((line?.x ?? NaN) - wide.keel) / (wide.chines[1] - wide.keel)).toBeCloseTo(30 / 36, 2);
  expect(viewOf(survey).plan.measured).toBe(false);
});

test('says who set the tolerance, or that nobody did', () => {
  const survey = sampleSurvey('stories/one-side');
  expect(viewOf(survey).tolerance).toBe('1.5 mm over 1500 mm, house default: nobody has set one');
  const tolerance = { gap: 25.4 / 16, over: 1524, setBy: 'the owner', houseDefault: false };
  expect(viewOf({ ...survey, tolerance }).tolerance).toBe('1/16 in over 60 in, set by the owner');
});

test('a rocker’s fill at the transom is dammed, not feathered', () => {
  const work = sampleView('stories/rocker-blocks').lines[0]?.work.join(' ');
  expect(work).toContain('At the TRANSOM end the fill is 5.5 mm: dam it, do not feather');
});

test('a proven fair line has nothing to do', () => {
  const line = sampleView('metric-long').lines.find(({ name }) => name === 'P300');
  expect(line?.first).toEqual({ fill: 'nothing to do', grind: 'nothing to do' });
});

test('what would have to come off beyond the grind limit is said, with its stations', () => {
  const view = sampleView('stories/rocker-blocks', {
    reference: 'best straight line',
    grindLimit: 0.5,
  });
  expect(view.lines[0]?.work.join(' ')).toContain(
    'At 300 mm, 400 mm, 500 mm, 600 mm, 700 mm, 800 mm more would',
  );
  expect(view.grindLimit).toBe('0.5 mm at most, and never into laminate');
});

test('a line with too few readings has its stations and no figure', () => {
  const survey = sampleSurvey('stories/one-side');
  const [line, ...others] = survey.lines;
  if (line === undefined) throw new Error('a line expected');
  const placements = line.placements.map((p) => ({ ...p, readings: p.readings.slice(0, 3) }));
  const view = viewOf({ ...survey, lines: [{ ...line, placements }, ...others] });
  const short = view.lines[0];
  expect(short?.words.word).toBe('Too few readings');
  expect(short?.profile).toBeUndefined();
  expect(short?.first.fill).toBe('no figure');
  expect(short?.rows.filter(({ is }) => is === 'words')).toHaveLength(12);
});

test('a planned station that no line has is listed too', () => {
  const survey = sampleSurvey('stories/one-side');
  const planned = [
    { mm: 762, text: '30 in' },
    { mm: 50.8 * 10, text: '20 in' },
  ];
  for (const { notRead } of viewOf(survey, {}, { planned }).lines) {
    expect(notRead).toEqual(['20 in: not read']);
  }
});

test('a rounded transom edge is said, and that its figure is the first one carried aft', () => {
  const { conditions } = sampleView('stories/rocker-blocks');
  expect(conditions.find(({ label }) => label === 'Transom edge')?.value).toMatch(
    /^radius 10 mm: .*carried straight aft/,
  );
});

test('a reading in another unit than the column’s keeps its unit', () => {
  const survey = { ...sampleSurvey('stories/rocker-blocks'), workUnit: 'in' as const };
  const row = viewOf(survey).lines[0]?.rows[0];
  expect(row).toMatchObject({ station: '15 mm', reading: '22.4 mm' });
  expect(viewOf(survey).lines[0]?.first.fill).toMatch(/ in at 15 mm$/);
});

test('names over the plan stand on as many rows as keep neighbours apart', () => {
  const survey = sampleSurvey('inches-wide');
  const [first] = survey.lines;
  if (first === undefined) throw new Error('a line expected');
  const lines = Array.from({ length: 8 }, (_, i) => ({
    ...first,
    id: `l${i}`,
    name: `P${150 + i * 100}`,
    offset: 150 + i * 100,
  }));
  const { plan } = viewOf({ ...survey, lines });
  for (const a of plan.lines) {
    for (const b of plan.lines) {
      if (a.name === b.name || a.labelY !== b.labelY) continue;
      expect(Math.abs(a.x - b.x)).toBeGreaterThan(8);
    }
    expect(a.labelY).toBeLessThan(plan.forward);
    // The words over the names end at 5 mm.
    expect(a.labelY).toBeGreaterThan(7.5);
  }
});

test('what is on the bottom stands between the transom and the forward end of the plan', () => {
  const at = (length: number) => ({ mm: length, text: `${length} mm` });
  const strake = {
    id: 'f',
    feature: 'strake' as const,
    side: 'both' as const,
    offsetFrom: at(280),
    offsetTo: at(330),
    stationFrom: at(0),
    stationTo: at(9000),
  };
  const { plan } = viewOf(
    sampleSurvey('inches-wide'),
    {},
    { hull: { ...NO_HULL, features: [strake] } },
  );
  expect(plan.features).toHaveLength(2);
  for (const { y, height } of plan.features) {
    expect(y).toBe(plan.forward);
    expect(y + height).toBeCloseTo(plan.transom, 6);
  }
});

test('only the figures of a hook or a rocker are to be worked to', () => {
  const { lines } = sampleView('stories/one-side');
  for (const { words, toWork } of lines) expect(toWork).toBe(/hook|rocker/i.test(words.word));
  expect(new Set(lines.map(({ toWork }) => toWork)).size).toBe(2);
});
