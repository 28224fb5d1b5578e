import { expect, test } from 'vitest';
import { gatesOf, NO_STATEMENTS } from '../../../src/fairing/gates.ts';
import { assess } from '../../../src/survey/assess.ts';
import { sampleSurvey, sampleView, viewOf, NO_HULL } from '../sheets/samples.ts';

const beam = (text: string, length: number) => ({
  ...NO_HULL,
  hull: { id: 'h', name: 'Godwit', beamAtChine: { mm: length, text }, invented: true },
});

test('one scale serves all profiles of a survey, so that their heights compare', () => {
  const { lines } = sampleView('inches-wide');
  expect(lines.length).toBeGreaterThan(1);
  expect(new Set(lines.map(({ profile }) => profile.times)).size).toBe(1);
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

test('the transom is left and the water side down: what is filled lies above its target', () => {
  const view = sampleView('stories/one-side');
  const drawing = view.lines.find(({ name }) => name === 'P30in')?.profile;
  const fills = drawing?.strokes.filter(({ is }) => is === 'fill') ?? [];
  expect(fills.length).toBeGreaterThan(10);
  for (const { y1, y2 } of fills) expect(y1).toBeLessThan(y2);
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

test('a rounded transom edge is said, and that its figure is the first one carried aft', () => {
  const { conditions } = sampleView('stories/rocker-blocks');
  expect(conditions.find(({ label }) => label === 'Transom edge')?.value).toMatch(
    /^radius 10 mm: .*carried straight aft/,
  );
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

test('figures lie from below as the hull does: port right of the keel, the transom at the foot, the deeper the wider', () => {
  const { figures } = sampleView('inches-wide');
  if (figures === undefined) throw new Error('figures expected');
  for (const line of figures.lines) {
    expect(Math.sign(line.x - figures.keel)).toBe(line.name.startsWith('P') ? 1 : -1);
    for (const { y } of line.figures) {
      expect(y).toBeLessThanOrEqual(figures.transom);
      expect(y).toBeGreaterThanOrEqual(figures.forward);
    }
  }
  expect(Math.max(...figures.lines.map(({ x }) => x))).toBeLessThan(figures.width);
});

test('a survey with nothing to work has no figures, and says so a side', () => {
  const survey = sampleSurvey('metric-long');
  const fair = { ...survey, lines: survey.lines.filter(({ name }) => name.startsWith('P')) };
  const view = viewOf(fair);
  expect(view.figures).toBeUndefined();
  expect(view.lines).toEqual([]);
  expect(view.work).toEqual([{ side: 'PORT', words: 'Nothing.' }]);
});

test('a worked line that would be within the tolerance and not proven fair is left to the check, not called undecided', () => {
  const said = (name: string) => sampleView(name).lines.map(({ after }) => after);
  expect(said('inches-wide')).toContain(
    'Done to these figures the line should come out within the tolerance; that it is fair is not proven by what was measured so far: the check after the work has to show it.',
  );
  expect(said('metric-long').join()).toMatch(/should come out fair, about \d/);
});

test('says that the bottom does not explain the complaint, and who accepts that the work may not mend it', () => {
  const survey = sampleSurvey('stories/moulded-wedge');
  const against = (acceptsUnexplained?: string) => {
    const gates = gatesOf(assess(survey), {
      ...NO_STATEMENTS,
      complaint: { does: ['lists'] },
      decision: {
        choice: 'fill',
        by: 'Owner (invented)',
        signed: 'on paper',
        ...(acceptsUnexplained !== undefined && { acceptsUnexplained }),
      },
    });
    return viewOf(survey, {}, { gates }).against;
  };
  expect(against()).toMatch(/does not explain what the boat does\. Nobody has accepted that\.$/);
  expect(against('Owner (invented)')).toMatch(/Accepted by Owner \(invented\)\.$/);
});
