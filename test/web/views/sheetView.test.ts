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
