import { describe, expect, test } from 'vitest';
import { compareWays } from '../../../src/fairing/plan/compareWays.ts';
import type { PlanOptions } from '../../../src/fairing/plan/options.ts';
import type { LinePlan } from '../../../src/fairing/plan/plan.ts';
import { workPlan } from '../../../src/fairing/plan/workPlan.ts';
import { assess, type AssessOptions } from '../../../src/survey/assess.ts';
import type { Line, Placement, Survey } from '../../../src/survey/survey.ts';
import {
  bump,
  lineOf,
  placementOf,
  stationsTo,
  surveyOf,
  typed,
} from '../../survey/madeSurveys.ts';

const EXACT: AssessOptions = { resolution: 0.02, repeatability: 0.02, edgeBound: 0.001 };
const FILL: PlanOptions = { unit: 'mm', way: 'fill only' };
const stations = stationsTo(1500, 75);
/** Turned up towards the transom over the last 900 mm: 5 mm at the transom. */
const rocker = (x: number) => (x < 900 ? 5 * ((900 - x) / 900) ** 2 : 0);
const hook = bump(3, 0, 900);

function line(
  name: string,
  gap: (x: number) => number,
  more: Partial<Placement> = {},
  facts: Partial<Line> = {},
): Line {
  const at = more.readings ? [] : stations;
  const placement = placementOf(at, gap, { id: `${name}/1`, edgeLength: 1500, ...more });
  return lineOf([placement], {
    id: name,
    name,
    side: name.startsWith('S') ? 'starboard' : 'port',
    offset: Number(name.slice(1)),
    ...facts,
  });
}

function planOf(lines: readonly Line[], options: PlanOptions = FILL, more: Partial<Survey> = {}) {
  return workPlan(assess(surveyOf(lines, more), EXACT), options);
}

type Planned = Extract<LinePlan, { is: 'planned' }>;

function planned(plan: LinePlan | undefined): Planned {
  if (plan?.is !== 'planned') throw new Error(`planned expected, got ${plan?.is}`);
  return plan;
}

const only = (gap: (x: number) => number, options: PlanOptions = FILL) =>
  planned(planOf([line('P450', gap)], options).lines[0]);

const worked = (plan: Planned) =>
  plan.stations.flatMap((each) => (each.is === 'worked' ? [each] : []));

describe('a hook that is filled', () => {
  const plan = only(hook);

  test('takes its depth at its middle and nothing at its ends, in steps of half a mm', () => {
    const deepest = plan.fill[0].deepest;
    expect(plan.fill).toHaveLength(1);
    expect(Math.abs(deepest.at - 450)).toBeLessThan(20);
    expect(deepest.depth.rounded).toBe(3);
    for (const { fill } of worked(plan)) expect((2 * fill.rounded) % 1).toBe(0);
    expect(plan.grind).toEqual([]);
  });

  test('is fair afterwards, and was not before', () => {
    expect(plan.after.verdict).toEqual(['fair']);
    expect(plan.after.hollow.size).toBeLessThan(0.6);
    expect(plan.after.rounding.breaks).toBe(false);
  });

  test('has a section near its closed form, half of depth times length', () => {
    // The parabola of a squared sine: its mean is a half.
    const { low, likely, high } = plan.amounts.fill.section;
    expect(Math.abs(likely - (3 * 900) / 2)).toBeLessThan(60);
    expect(low).toBeLessThan(likely);
    expect(high - likely).toBeLessThan(150);
  });

  test('leaves the hull untouched from the forward limit on, and meets it there', () => {
    const { at } = plan.target.meets;
    for (const { x, before, target, after } of plan.profile) {
      if (x < at) continue;
      expect(after).toBeCloseTo(before, 6);
      if (target !== undefined) expect(target).toBeCloseTo(before, 6);
    }
  });
});

test('a rocker is filled deepest at the transom and has to be dammed there', () => {
  const plan = only(rocker);
  expect(plan.fill[0]).toMatchObject({ aft: 'transom', dam: true, deepest: { at: 0 } });
  // 5 mm, less what the feather may bend.
  expect(plan.fill[0].deepest.depth.exact).toBeGreaterThan(4.7);
  expect(plan.fill[0].deepest.depth.exact).toBeLessThan(5.05);
  expect(only(hook).fill[0].dam).toBe(false);
});

test('a first station a little forward of the transom is carried aft to it', () => {
  const short = line('P450', rocker, {
    readings: placementOf([30, ...stations.slice(1)], rocker).readings,
  });
  const plan = planned(planOf([short]).lines[0]);
  expect(plan.fill[0]).toMatchObject({ from: 30, aft: 'carried aft to the transom', dam: true });
});

test('nothing is ground without a stated limit, and never more than it', () => {
  const least = only(rocker, { ...FILL, way: 'least work', grindWeight: 0.5 });
  expect(least.grind).toEqual([]);
  const limited = only(rocker, { ...FILL, way: 'least work', grindWeight: 0.5, grindLimit: 0.8 });
  expect(limited.grind.length).toBeGreaterThan(0);
  for (const { grind } of worked(limited)) {
    expect(grind.exact).toBeLessThan(0.8 + 1e-6);
    expect(grind.rounded).toBeLessThanOrEqual(0.8);
  }
});

test('grinding only says where the limit binds and the way out, with and without a limit', () => {
  const [limited] = planOf([line('P450', hook)], {
    ...FILL,
    way: 'grind only',
    grindLimit: 0.8,
  }).lines;
  expect(limited.is === 'impossible' && limited.because.words).toMatch(
    /^\d\.\d mm would have to come off at (the transom|\d+ mm); your limit is 0\.8 mm: fill the rest instead, or raise the limit\.$/,
  );
  const [none] = planOf([line('P450', hook)], { ...FILL, way: 'grind only' }).lines;
  expect(none.is === 'impossible' && none.because).toMatchObject({
    limit: 'no grind limit stated',
  });
});

test('a fair line gets nothing, an undecided one is to be measured first, and both are told', () => {
  const plan = planOf([line('P300', () => 0), line('P450', bump(1.5, 0, 900)), line('P600', hook)]);
  expect(plan.lines.map(({ is }) => is)).toEqual(['nothing to do', 'measure first', 'planned']);
  expect(plan.sides[0].without).toEqual([{ line: 'P450', why: 'undecided' }]);
  const also = planOf([line('P300', () => 0), line('P600', hook)], { ...FILL, also: ['P300'] });
  expect(also.lines[0].is).toBe('planned');
});

test('port and starboard alike get one shape, and both are worked', () => {
  const lines = [line('P450', rocker), line('S450', () => 0)];
  expect(planOf(lines).lines[1].is).toBe('nothing to do');
  const [port, starboard] = planOf(lines, { ...FILL, alike: true }).lines.map(planned);
  expect(port.target.meets.turn).toBeCloseTo(starboard.target.meets.turn, 12);
  const off = (plan: Planned) =>
    plan.profile.map(({ target, x }) => (target ?? NaN) - plan.target.line.slope * x);
  const level = (heights: number[]) => heights.map((h) => h - heights[0]);
  expect(level(off(starboard))).toEqual(
    level(off(port)).map((v) => expect.closeTo(v, 6) as number),
  );
});

test('a convex camber stands proud of the straight target at its middle by the height that was stated', () => {
  const straight = only(rocker, { ...FILL, feather: { length: 0, turn: 0 } });
  const bowed = only(rocker, {
    ...FILL,
    feather: { length: 0, turn: 0 },
    camber: { shape: 'convex', height: 1.2 },
  });
  const chord = (plan: Planned) => {
    const points = plan.profile.filter(({ target }) => target !== undefined);
    const heights = points.map(({ target }) => target ?? NaN);
    const middle = points.findIndex(({ x }) => x >= 750 - 1e-6);
    return heights[middle] - (heights[0] + heights[heights.length - 1]) / 2;
  };
  expect(chord(straight)).toBeCloseTo(0, 6);
  expect(chord(bowed)).toBeCloseTo(1.2, 6);
  expect(() => only(rocker, { ...FILL, camber: { shape: 'concave', height: -1 } })).toThrow(
    RangeError,
  );
});

test('rounding that takes the finished line over a fine tolerance is told, with the step that would do', () => {
  const options: PlanOptions = { ...FILL, step: 2 };
  const survey = surveyOf([line('P450', bump(3.1, 0, 900))]);
  const plan = planned(workPlan(assess(survey, { ...EXACT, tolerance: 0.6 }), options).lines[0]);
  const { rounding } = plan.after;
  expect(rounding.departure.exact).toBeLessThan(0.6);
  expect(rounding.departure.rounded).toBeGreaterThan(0.6);
  expect(rounding).toMatchObject({ breaks: true, step: 2 });
  expect(rounding.words).toMatch(
    /^Rounded to 2 mm, .* where 0\.60 mm is allowed; .* Work to 0\.\d+ mm here\.$/,
  );
  expect(plan.after.verdict).not.toEqual(['fair']);
});

test('fill over the fill limit asks for laminate first, at the stations where it does', () => {
  const plan = only(rocker, { ...FILL, fillLimit: 3.5 });
  const deep = plan.laminateFirst ?? [];
  expect(deep.map(({ station }) => station)).toEqual([0, 75]);
  for (const { fill } of deep) expect(fill.exact).toBeGreaterThan(3.5);
  expect(only(rocker, { ...FILL, fillLimit: 9 }).laminateFirst).toBeUndefined();
});

test('stations in a patch that were not read are named with how to carry over them; those outside are not', () => {
  const read = stations.filter((x) => x !== 450 && x !== 300 && x !== 1350);
  const plan = planned(
    planOf(
      [
        line('P450', hook, {
          readings: placementOf(read, hook).readings,
          voids: [{ station: typed(450), reason: 'through-hull', source: 'made' }],
        }),
      ],
      { ...FILL, planned: [typed(300), typed(1350)] },
    ).lines[0],
  );
  expect(
    plan.carryOver.map(({ station, is, aft, fore }) => [station, is, aft?.station, fore?.station]),
  ).toEqual([
    [300, 'unread', 225, 375],
    [450, 'void', 375, 525],
  ]);
  expect(plan.carryOver[1].words).toBe(
    '450 mm, void (through-hull): keep clear of it and carry over it in a straight line, on a batten laid from 375 mm to 525 mm.',
  );
});

test('the same hull planned in inches and in mm gets depths that differ by their rounding only', () => {
  const mm = only(rocker);
  const inches = only(rocker, { ...FILL, unit: 'in' });
  worked(inches).forEach(({ fill }, i) => {
    const metric = worked(mm)[i].fill;
    expect(fill.exact).toBe(metric.exact);
    expect(Math.abs(fill.rounded - fill.exact)).toBeLessThanOrEqual(25.4 / 64 + 1e-9);
    expect(Math.abs(metric.rounded - metric.exact)).toBeLessThanOrEqual(0.25 + 1e-9);
  });
});

describe('what a side takes', () => {
  const material = {
    density: 0.8,
    passLimit: 1,
    pot: 0.25,
    waste: 0.2,
    rate: { hours: 2, per: 'square metre and pass' },
  } as const;
  const three = ['P300', 'P500', 'P700'].map((name) => line(name, hook));

  test('is by Simpson between lines that stand evenly, with the outermost spreading as far outward as inward', () => {
    const plan = planOf(three, { ...FILL, material });
    const section = planned(plan.lines[0]).amounts.fill.section.likely;
    // A prism: one section over 400 mm between the lines and 100 mm to either side.
    const [port] = plan.sides;
    expect(port.rule).toBe('Simpson');
    expect(port.fill.volume?.likely).toBeCloseTo(section * 600, 3);
    expect(planned(plan.lines[1]).amounts.width).toBe(200);
  });

  test('turns into weight, passes, pots and hours by the figures that were stated', () => {
    const { total, lines } = planOf(three, { ...FILL, material });
    const volume = total.fill.volume?.likely ?? NaN;
    expect(total.weight?.likely).toBeCloseTo((volume / 1000) * 0.8, 6);
    expect(total.passes).toBe(3);
    expect(total.batches?.likely).toBe(Math.ceil(volume / 1e6 / 0.8 / 0.25));
    const patch = planned(lines[0]).fill[0];
    expect(total.hours?.likely).toBeCloseTo(((patch.to - patch.from) / 1e6) * 600 * 3 * 2, 6);
  });

  test('is by trapezoids where they stand unevenly, and by widths where one is stated', () => {
    const uneven = ['P300', 'P500', 'P800'].map((name) => line(name, hook));
    expect(planOf(uneven).sides[0].rule).toBe('trapezoids');
    const stated = planOf(three, { ...FILL, widths: { P500: 150 } });
    expect(stated.sides[0].rule).toBe('widths');
    expect(planned(stated.lines[1]).amounts.width).toBe(150);
  });

  test('has no volume for a line alone whose width nobody stated', () => {
    const [side] = planOf([line('P450', hook)]).sides;
    expect(side.fill).toEqual({});
    expect(side.without).toEqual([{ line: 'P450', why: 'state the width that it stands for' }]);
    const [wide] = planOf([line('P450', hook)], { ...FILL, widths: { P450: 300 } }).sides;
    expect(wide.fill.volume?.likely).toBeGreaterThan(0);
  });

  test('of lines whose depths fall off as a paraboloid does is the volume of that', () => {
    // Depth d (1 − ((x − 450)/450)²) (1 − ((y − 500)/400)²): between y = 300 and 700, sections fall off as a parabola,
    // which Simpson takes exactly; beyond, each outermost section is carried 100 mm on.
    const across = (y: number) => 1 - ((y - 500) / 400) ** 2;
    const lines = [300, 500, 700].map((y) => line(`P${y}`, bump(4 * across(y), 0, 900)));
    const plan = planOf(lines);
    const middle = planned(plan.lines[1]).amounts.fill.section.likely;
    const exact = middle * (400 - (2 * 200 ** 3) / (3 * 400 ** 2) + 2 * 100 * across(300));
    const { low, likely, high } = plan.sides[0].fill.volume ?? { low: NaN, likely: NaN, high: NaN };
    expect(Math.abs(likely - exact) / exact).toBeLessThan(0.01);
    expect(low).toBeLessThan(exact);
    expect(high).toBeGreaterThan(exact);
  });
});

test('ways are compared by the same figures as their plans', () => {
  const assessment = assess(surveyOf([line('P300', hook), line('P500', rocker)]), EXACT);
  const compared = compareWays(assessment, { unit: 'mm', grindLimit: 0.8 });
  for (const { way, total } of compared) {
    expect(total).toEqual(workPlan(assessment, { unit: 'mm', grindLimit: 0.8, way }).total);
  }
  expect(compared.find(({ way }) => way === 'grind only')?.impossible).toHaveLength(2);
  expect(compared.map(({ impossible }) => impossible.length)).toEqual([0, 2, 0]);
});

test('the same survey gives the same plan, to the last bit', () => {
  const options: PlanOptions = { ...FILL, way: 'least work', grindLimit: 0.8 };
  const lines = () => [line('P300', hook), line('P500', rocker)];
  expect(planOf(lines(), options).lines).toEqual(planOf(lines(), options).lines);
});

test('house defaults are told, and not where the person stated the figure', () => {
  const said = planOf([line('P450', hook)], { ...FILL, way: 'least work', grindLimit: 1 });
  expect(said.houseDefaults).toHaveLength(3);
  const stated = planOf([line('P450', hook)], {
    ...FILL,
    step: 0.25,
    feather: { length: 200, turn: 0.001 },
  });
  expect(stated.houseDefaults).toEqual([]);
});

test('a forward limit is kept, told where the readings end aft of it, and refused where it leaves nothing', () => {
  expect(only(rocker, { ...FILL, forward: 1200 }).target.over).toEqual([0, 1200]);
  expect(only(rocker, { ...FILL, forward: 1800 }).target.meets).toMatchObject({
    at: 1500,
    asked: 1800,
  });
  const [near] = planOf([line('P450', rocker)], { ...FILL, forward: 10 }).lines;
  expect(near.is === 'impossible' && near.because.limit).toBe('forward limit too near the transom');
  const left = only(rocker, { ...FILL, forward: 1200 }).stations.filter(
    ({ is }) => is === 'left alone',
  );
  expect(left.map(({ station }) => station)).toEqual([1275, 1350, 1425, 1500]);
});

test.each([
  ['a grind limit of 0', { grindLimit: 0 }],
  ['a step below 0', { step: -1 }],
  ['a waste of all', { material: { waste: 1 } }],
  ['a width of 0', { widths: { P450: 0 } }],
  ['a feather that is not a number', { feather: { length: NaN, turn: 0 } }],
])('%s is refused', (_, bad) => {
  expect(() => planOf([line('P450', hook)], { ...FILL, ...bad })).toThrow(RangeError);
});
