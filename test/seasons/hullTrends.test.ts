import { beforeAll, describe, expect, it } from 'vitest';
import { hullTrends, type HullTrends } from '../../src/seasons/hullTrends.ts';
import { trendOf, type Measure, type NoTrend, type Trend } from '../../src/seasons/trendOf.ts';
import { RANKS_WAIT, trendWords } from '../../src/seasons/trendWords.ts';
import { assessed, hollowOf, readLine, surveyed } from './support.ts';

function trendIn(all: HullTrends, name: string, measure: Measure, baseline = 0): Trend | NoTrend {
  const subjects = [...all.lines, ...all.pairs];
  const found = subjects
    .filter(({ line, starboard }) => line.name + (starboard ? `/${starboard.name}` : '') === name)
    .flatMap(({ baselines }) => baselines[baseline].trends)
    .find((trend) => trend.measure === measure);
  if (!found) throw new Error(`${name}, ${measure}: no such trend`);
  return found;
}

function shownIn(all: HullTrends, name: string, measure: Measure, baseline = 0): Trend {
  const trend = trendIn(all, name, measure, baseline);
  if (!trend.ok) throw new Error(trend.reason);
  return trend;
}

describe('the hull of three seasons', () => {
  const seasons = ['season-2026.csv', 'season-2024.csv', 'season-2025.csv'];
  let trends: HullTrends;
  beforeAll(() => {
    trends = hullTrends(seasons.map((name) => assessed(name)));
  });

  it('shows a growing hollow on port 700, with its rate, whatever order the files come in', () => {
    const trend = shownIn(trends, 'P700', 'hollow');
    expect(trend.figures.map(({ day }) => day)).toEqual(['2024-04-14', '2025-04-15', '2026-04-16']);
    expect(trend.shown).toBe(true);
    // 3.3 mm in two years.
    expect(trend.rate.perYear).toBeGreaterThan(1.4);
    expect(trend.rate.perYear).toBeLessThan(2.1);
    expect(trend.rate.interval[0]).toBeGreaterThan(0);
    expect(trend.reach).toEqual({ when: 'beyond already' });
    const { word, findings } = trendWords(trend, trends.tolerance, 'mm');
    expect(word).toBe('Growing');
    expect(findings[0]).toMatch(/^By 1\.\d mm ± 0\.\d mm a year, from 3 surveys\.$/);
    expect(findings.at(-1)).toBe('Beyond the tolerance of 1.5 mm already.');
  });

  it('shows the tail of port 700 turning down, and it alone', () => {
    expect(shownIn(trends, 'P700', 'tail angle')).toMatchObject({ shown: true, unit: '°' });
    for (const name of ['P300', 'S300', 'S700']) {
      for (const measure of ['hollow', 'hump', 'tail angle'] as const) {
        expect(shownIn(trends, name, measure).shown).toBe(false);
      }
    }
  });

  it('shows it against starboard too, as difference and as twist', () => {
    const less = shownIn(trends, 'P700/S700', 'hollow, port less starboard');
    expect(less).toMatchObject({ shown: true });
    expect(less.reach).toBeUndefined();
    expect(less.rate.perYear).toBeGreaterThan(1);
    expect(shownIn(trends, 'P700/S700', 'twist').rate.perYear).toBeGreaterThan(0.2);
    expect(shownIn(trends, 'P300/S300', 'twist').shown).toBe(false);
  });

  it('gives ranks to no fewer than five surveys, and says how many', () => {
    expect(shownIn(trends, 'P700', 'hollow').ranks).toEqual({
      ok: false,
      reason: 'too few surveys',
      needed: 5,
    });
    expect(RANKS_WAIT).toMatch(/5 surveys are needed/);
  });

  it('makes a change of two surveys, not a trend', () => {
    const two = hullTrends(seasons.slice(1).map((name) => assessed(name)));
    const trend = trendIn(two, 'P700', 'hollow');
    expect(trend).toMatchObject({ ok: false, reason: 'too few surveys', needed: 3 });
    expect(trendWords(trend, 1.5, 'mm').findings).toEqual([
      'Two surveys give a change, not a trend: 3 are needed.',
    ]);
  });
});

const figure = (day: string, value: number, u = 0.1) => ({
  day,
  years: Number(day.slice(0, 4)) + 0.25,
  value,
  u,
});

describe('when the tolerance will be reached', () => {
  const days = ['2020-04-01', '2021-04-01', '2022-04-01', '2023-04-01', '2024-04-01'];
  const of = (values: readonly number[], u = 0.1) =>
    trendOf(
      'hollow',
      days.slice(0, values.length).map((day, i) => ({
        ...figure(day, values[i], u),
        years: Date.parse(day) / 86_400_000 / 365.2425,
      })),
      { least: 0.375, tolerance: 1.5 },
    );

  it('is a range of days that has the crossing of the line within it', () => {
    const trend = of([0.2, 0.4, 0.6, 0.8, 1.0]);
    if (!trend.ok) throw new Error(trend.reason);
    expect(trend).toMatchObject({ shown: true, steady: true, reach: { when: 'between' } });
    if (trend.reach?.when !== 'between') throw new Error('no range');
    // 0.2 mm a year: 0.5 mm more in two and a half years from April 2024.
    expect(trend.reach.earliest > '2024-04-01' && trend.reach.earliest < '2026-10-01').toBe(true);
    expect(trend.reach.latest !== undefined && trend.reach.latest > '2026-10-01').toBe(true);
    expect(trendWords(trend, 1.5, 'mm').findings.at(-1)).toBe(
      `If it goes on like this it reaches 1.5 mm between ${trend.reach.earliest} and ${trend.reach.latest ?? ''}.`,
    );
  });

  it('is given with ranks from five surveys on: slope, interval and probability', () => {
    const trend = of([0.2, 0.4, 0.6, 0.8, 1.0]);
    if (!trend.ok || !trend.ranks.ok) throw new Error('no ranks');
    expect(trend.ranks.theilSen.slope).toBeCloseTo(0.2, 3);
    // 2/120: exact table of five values (Gilbert 1987, table A18).
    expect(trend.ranks.mannKendall.twoSided).toBeCloseTo(2 / 120, 12);
    expect(trendWords(trend, 1.5, 'mm').findings.join(' ')).toMatch(
      /By order alone: 0\.20 mm a year, between 0\.20 mm and 0\.20 mm \(Theil-Sen\).*0\.017 \(Mann-Kendall\)/,
    );
  });

  it('is not given where no trend is shown, nor where the hollow lessens', () => {
    expect(of([0.5, 0.6, 0.5])).toMatchObject({ shown: false, reach: { when: 'no trend shown' } });
    expect(of([1.4, 1.0, 0.6])).toMatchObject({
      shown: true,
      reach: { when: 'not on this course' },
    });
    expect(of([0.5, 1.1, 1.7])).toMatchObject({ reach: { when: 'beyond already' } });
  });

  it('takes no steady creep below the least change that counts for a trend', () => {
    expect(of([0.5, 0.6, 0.7], 0.01)).toMatchObject({ shown: false });
    expect(of([0.5, 0.7, 0.9], 0.01)).toMatchObject({ shown: true });
  });

  it('is less sure, and says so, where the surveys do not lie on a line', () => {
    const trend = of([0.1, 1.2, 0.2, 1.1], 0.02);
    if (!trend.ok) throw new Error(trend.reason);
    expect(trend.steady).toBe(false);
    expect(trend.rate.u).toBeGreaterThan(3 * trend.line.slopeUncertainty);
    expect(trend.shown).toBe(false);
  });

  it('calls surveys of one day no trend', () => {
    const day = figure('2024-04-01', 0.5);
    expect(trendOf('hollow', [day, day, day], { least: 0.375 })).toMatchObject({
      ok: false,
      reason: 'one day only',
    });
  });
});

describe('a repair', () => {
  const years = [
    '2020-05-01',
    '2021-05-01',
    '2022-05-01',
    '2023-05-01',
    '2024-05-01',
    '2025-05-01',
  ];
  const depths = [1, 2, 3, 0, 0.05, 0];
  const surveys = years.map((date, i) =>
    surveyed(date, [
      readLine('P700', hollowOf(depths[i]), 100 + i),
      readLine('S700', () => 0, 200 + i),
    ]),
  );
  const repairs = [{ date: '2022-09-01', what: 'filled and faired', lines: ['P700'] }];

  it('starts a new baseline on the lines that were worked, and the old one stays', () => {
    const trends = hullTrends(surveys, { repairs });
    const port = trends.lines.find(({ line }) => line.name === 'P700');
    expect(port?.baselines.map(({ since, until }) => [since?.date, until?.date])).toEqual([
      [undefined, '2022-09-01'],
      ['2022-09-01', undefined],
    ]);
    expect(shownIn(trends, 'P700', 'hollow', 0)).toMatchObject({ shown: true });
    expect(shownIn(trends, 'P700', 'hollow', 1)).toMatchObject({ shown: false });
    expect(trends.lines.find(({ line }) => line.name === 'S700')?.baselines).toHaveLength(1);
    expect(trends.pairs[0].baselines).toHaveLength(2);
  });
});

describe('what a trend leaves out', () => {
  const at = (date: string, seed: number, support: string) =>
    surveyed(date, [readLine('P700', () => 0, seed)], { support: [{ what: support }] });
  const surveys = [
    at('2022-05-01', 1, 'trailer'),
    at('2023-05-01', 2, 'keel blocks'),
    at('2024-05-01', 3, 'keel blocks'),
    at('2025-05-01', 4, 'keel blocks'),
  ];

  it('is each survey that is unlike the last, until that is accepted', () => {
    const found = hullTrends(surveys);
    expect(found.leftOut.map(({ survey, unlike }) => [survey.survey.date, unlike[0].what])).toEqual(
      [['2022-05-01', 'support']],
    );
    expect(shownIn(found, 'P700', 'hollow').figures).toHaveLength(3);
    const accepted = hullTrends(surveys, { accept: ['support'] });
    expect(accepted.leftOut).toEqual([]);
    expect(shownIn(accepted, 'P700', 'hollow').figures).toHaveLength(4);
  });

  it('is each survey without a day that can be read', () => {
    const undated = surveyed('last spring', [readLine('P700', () => 0, 5)], {
      support: [{ what: 'keel blocks' }],
    });
    const found = hullTrends([...surveys.slice(1), undated]);
    expect(found.undated).toEqual([undated]);
    expect(found.surveys).toHaveLength(3);
  });

  it('throws RangeError where there is no survey at all', () => {
    expect(() => hullTrends([])).toThrow(RangeError);
  });
});
