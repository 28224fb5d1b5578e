import { beforeAll, describe, expect, it } from 'vitest';
import { compare } from '../../../src/seasons/compare.ts';
import { hullTrends } from '../../../src/seasons/hullTrends.ts';
import {
  toldComparison,
  toldProfiles,
  toldTrends,
  type ToldTrends,
} from '../../../src/seasons/told.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { comparedTable } from '../../../web/views/comparedTable.ts';
import { acceptanceDraft, controlDraft, repairDraft } from '../../../web/views/seasonsDrafts.ts';
import { labelHeights, seasonsDrawing } from '../../../web/views/seasonsDrawing.ts';
import { comparedSummary, curvesOf, linesOverSeasons } from '../../../web/views/seasonsLines.ts';
import { acceptedWithLast, seasonsPair } from '../../../web/views/seasonsPair.ts';
import { seasonsScale } from '../../../web/views/seasonsScale.ts';
import {
  trendDrawing,
  trendPictures,
  trendScale,
  trendSummary,
  trendTable,
} from '../../../web/views/trendDrawing.ts';
import { entriesOf } from '../../survey/fold/samples.ts';
import { sample } from './pictured.ts';

const size = { width: 700, height: 290, unit: 'px' } as const;
const assessments = ['season-2024', 'season-2025', 'season-2026'].map(sample);
const shown = assessments.map((assessment, i) => ({
  key: `svrvey00000${i}`,
  survey: assessment.survey,
  profiles: toldProfiles(assessment),
}));
const told = toldComparison(compare(assessments[1], assessments[2]), 'mm');

describe('two surveys before they are judged', () => {
  const [first, second] = [
    'stories/bunk-hook-hour-3',
    'stories/bunk-hook-next-year-longer-bunks',
  ].map((name) => sample(name).survey);
  const asked = { pair: ['a', 'b'] as const, repairs: [], within: 25.4 };

  it('say what differs, on what nobody said anything, and accept nothing unasked', () => {
    const state = seasonsPair(first, second, { ...asked, standing: [] });
    expect(state.differences.map(({ what }) => what)).toEqual(['support']);
    expect(state.differences[0].differs).toMatch(/first “trailer, .*”, then “trailer, .*”/);
    expect(state.silent).toContain('the surface');
    expect(state.accept).toEqual([]);
  });

  it('are compared once somebody accepts just that, for a reason', () => {
    const state = seasonsPair(first, second, { ...asked, standing: [] });
    const read = acceptanceDraft(state.differences[0], asked.pair, ' same bunks underneath ');
    if (!read.ok) throw new Error(read.problem);
    const standing = entriesOf([read.draft]);
    expect(seasonsPair(first, second, { ...asked, standing }).accept).toEqual(['support']);
    const moved = { ...second, support: [{ what: 'keel blocks' }] };
    const later = seasonsPair(first, moved, { ...asked, standing });
    expect(later.accept).toEqual([]);
    expect(later.differences[0].lapsed).toHaveLength(1);
  });

  it('are accepted with the last survey for the trends, each by its own acceptance', () => {
    const surveys = [
      { key: 'a', survey: first },
      { key: 'c', survey: first },
      { key: 'b', survey: second },
    ];
    const state = seasonsPair(first, second, { ...asked, standing: [] });
    const read = acceptanceDraft(state.differences[0], asked.pair, 'known');
    const standing = read.ok ? entriesOf([read.draft]) : [];
    expect(acceptedWithLast(surveys, standing, 25.4)).toEqual({ a: ['support'], c: [] });
  });
});

describe('what a person states about seasons', () => {
  it('is refused without a reason, a line, a day or a word of what was done', () => {
    const row = { what: 'support', differs: 'x' } as const;
    expect(acceptanceDraft(row, ['a', 'b'], ' ')).toMatchObject({ ok: false });
    expect(acceptanceDraft(row, ['a', 'b'], 'x'.repeat(501))).toMatchObject({ ok: false });
    expect(controlDraft('', ['a', 'b'], 'masked')).toMatchObject({ ok: false });
    expect(repairDraft('spring', 'filled', [], '')).toMatchObject({ ok: false });
    expect(repairDraft('2026-05-20', ' ', [], '')).toMatchObject({ ok: false });
  });

  it('is a repair of any line where none is chosen', () => {
    expect(repairDraft('2026-05-20', 'filled', [], '')).toEqual({
      ok: true,
      draft: draftOf('repair', { date: '2026-05-20', what: 'filled' }),
    });
  });
});

describe('a line over the seasons', () => {
  const repairs = [{ date: '2025-01-10', what: 'filled', lines: ['P700'] }];
  const lines = linesOverSeasons(shown, { repairs, within: 25.4, unit: 'mm' });
  const scale = seasonsScale(
    lines.map(({ curves }) => curves.map(({ points }) => points)),
    1.5,
  );

  it('stands beside its mirror image: port, then starboard, from the keel outwards', () => {
    expect(lines.map(({ title }) => title)).toEqual([
      'P300 · PORT',
      'S300 · STARBOARD',
      'P700 · PORT',
      'S700 · STARBOARD',
    ]);
  });

  it('keeps the surveys before a repair of it, as the old baseline, and says so to those who hear it', () => {
    const [p300, , p700] = lines;
    expect(p700.curves.map(({ former }) => former)).toEqual([true, false, false]);
    expect(p300.curves.map(({ former }) => former)).toEqual([false, false, false]);
    expect(p700.summary).toContain('Before the last repair: 2024-04-14.');
  });

  it('has a stroke of its own for each survey, and the newest is solid', () => {
    const { curves } = seasonsDrawing(lines[0].curves, { size, scale, unit: 'mm' });
    expect(new Set(curves.map(({ dash }) => dash)).size).toBe(3);
    expect(curves.map(({ newest, dash }) => [newest, dash === ''])).toEqual([
      [false, false],
      [false, false],
      [true, true],
    ]);
  });

  it('runs from the transom at the left to the bow, and deeper is higher on the picture', () => {
    const view = seasonsDrawing(lines[2].curves, { size, scale, unit: 'mm' });
    expect(view.transom).toBeLessThan(view.plot.x + view.plot.width / 10);
    // A hollow lies away from the water: over the level.
    const ys = [...view.curves[2].path.matchAll(/[ML,](-?[\d.]+),(-?[\d.]+)/g)].map((m) =>
      Number(m[2]),
    );
    expect(Math.min(...ys)).toBeLessThan(view.level);
  });

  it('is a picture with no curve yet while nothing is judged', () => {
    const bare = shown.map(({ key, survey }) => ({ key, survey }));
    const waiting = linesOverSeasons(bare, { repairs, within: 25.4, unit: 'mm' });
    expect(waiting.map(({ curves }) => curves.length)).toEqual([0, 0, 0, 0]);
    expect(seasonsDrawing([], { size, scale: seasonsScale([], 1.5), unit: 'mm' }).curves).toEqual(
      [],
    );
  });
});

describe('dates beside the ends of curves', () => {
  it('keep their order, stand apart and stay within bounds', () => {
    const placed = labelHeights([50, 52, 51, 300], { from: 0, to: 200, apart: 14 });
    const sorted = [placed[0], placed[2], placed[1], placed[3]];
    expect([...sorted].sort((a, b) => a - b)).toEqual(sorted);
    for (let i = 1; i < 4; i++) expect(sorted[i] - sorted[i - 1]).toBeGreaterThanOrEqual(14 - 1e-9);
    expect(Math.max(...placed)).toBeLessThanOrEqual(200);
    expect(labelHeights([], { from: 0, to: 10, apart: 5 })).toEqual([]);
  });
});

describe('what a comparison found', () => {
  it('is said in a sentence, what moved first', () => {
    expect(comparedSummary(told)).toBe(
      'Moved: P700. Not moved, within what could have been seen: P300, S300 and S700.',
    );
    expect(comparedSummary({ ...told, lines: [] })).toMatch(/no line in common/);
  });

  it('stands in a table, a row a line, with its sections', () => {
    const rows = comparedTable(told, 'mm');
    expect(rows.map(({ name, word }) => [name.slice(0, 4), word])).toEqual([
      ['P300', 'Not moved'],
      ['S300', 'Not moved'],
      ['P700', 'Moved'],
      ['S700', 'Not moved'],
    ]);
    expect(rows[2].inward).toMatch(/^hollow deeper \d\.\d mm ± \d\.\d mm near \d+ mm$/);
    expect(rows[2].sections.join()).toMatch(/mm: moved, hollow deeper/);
    expect(rows[0].sections).toEqual(['0 to 1500 mm: not moved']);
  });

  it('draws both profiles of a line, and sections told by word, letter and stroke', () => {
    const [line] = told.lines.filter(({ second }) => second.name === 'P700');
    const curves = curvesOf(line, [shown[1], shown[2]]);
    expect(curves.map(({ label }) => label)).toEqual(['2025-04-15', '2026-04-16']);
    const scale = seasonsScale([curves.map(({ points }) => points)], 1.5);
    const sections = line.outcome.ok ? line.outcome.sections : [];
    const view = seasonsDrawing(curves, { size, scale, unit: 'mm', bands: true, sections });
    expect(view.sections.map(({ outcome, hatch }) => [outcome, hatch !== '']).slice(1)).toEqual([
      ['moved', true],
      ['not moved', false],
    ]);
    expect(view.curves.every(({ band }) => band !== '')).toBe(true);
  });

  it('draws nothing of a line of which one survey is not judged', () => {
    const { key, survey } = shown[1];
    expect(curvesOf(told.lines[0], [{ key, survey }, shown[2]])).toEqual([]);
  });
});

describe('a measure against date', () => {
  let trends: ToldTrends;
  beforeAll(() => {
    trends = toldTrends(hullTrends(assessments), assessments);
  });

  it('shows what grows, and says so in a sentence', () => {
    const pictures = trendPictures(trends, 'hollow', 'mm');
    expect(trendSummary(pictures, 'hollow')).toBe(
      'Hollow. Growing: P700. No trend shown: P300, S300 and S700.',
    );
    const scale = trendScale(pictures, 1.5);
    const view = trendDrawing(pictures[2], {
      size,
      scale,
      measure: 'hollow',
      unit: 'mm',
      tolerance: 1.5,
    });
    expect(view.lines.map(({ shown: is }) => is)).toEqual([true]);
    const [first, , last] = view.points;
    expect(last.y).toBeLessThan(first.y);
    for (const { high, y, low } of view.points) expect(high < y && y < low).toBe(true);
    expect(view.tolerance?.label).toBe('tolerance 1.5 mm');
  });

  it('gives each figure with what it may be out by, in the table', () => {
    const { heads, rows } = trendTable(trendPictures(trends, 'tail angle', 'mm'));
    expect(heads).toHaveLength(4);
    expect(rows.map(({ day }) => day)).toEqual(['2024-04-14', '2025-04-15', '2026-04-16']);
    for (const { cells } of rows) for (const cell of cells) expect(cell).toMatch(/^-?\d\.\d+° ± /);
  });

  it('draws no line through two surveys, and starts anew at a repair', () => {
    const two = assessments.slice(1);
    const repairs = [{ date: '2026-01-10', what: 'filled', lines: ['P700'] }];
    const [p300, , p700] = trendPictures(
      toldTrends(hullTrends(two, { repairs }), two),
      'hollow',
      'mm',
    );
    const draw = (picture: typeof p300) =>
      trendDrawing(picture, { size, scale: trendScale([picture]), measure: 'hollow', unit: 'mm' });
    expect(draw(p300).lines).toEqual([]);
    expect(p300.said[0].findings[0]).toMatch(/a change, not a trend/);
    expect(draw(p700).repairs.map(({ label }) => label)).toEqual(['repair 2026-01-10']);
    expect(draw(p700).points.map(({ former }) => former)).toEqual([true, false]);
    expect(p700.said[0].period).toBe('Since the repair of 2026-01-10 (filled):');
  });

  it('labels inches in fractions and years in whole years', () => {
    const pictures = trendPictures(trends, 'hollow', 'in');
    const view = trendDrawing(pictures[2], {
      ...{ size, scale: trendScale(pictures), measure: 'hollow', unit: 'in' },
    });
    expect(view.values.map(({ label }) => label)).toContain('1/8');
    expect(view.years.map(({ label }) => label)).toEqual(['2025', '2026']);
  });
});
