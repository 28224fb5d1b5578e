import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { compare } from '../../src/seasons/compare.ts';
import { panelChanges, panelChangeWords } from '../../src/seasons/panelChange.ts';
import { toldComparison } from '../../src/seasons/told.ts';
import { assess } from '../../src/survey/assess.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';

const STORY = readFileSync(
  new URL('../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
  'utf8',
).split('\r\n');

/** The story's survey with something added to what is read on port, mm. */
function survey(
  added: (x: number, y: number) => number,
  keep: (row: string) => boolean = () => true,
) {
  const rows = STORY.filter(keep).map((row) => {
    const found = /^(port,(\d+),(\d+)),([\d.]+),(.*)$/.exec(row);
    if (!found) return row;
    const [, head, y, x, gap, tail] = found;
    return `${head},${(Number(gap) + added(Number(x), Number(y))).toFixed(2)},${tail}`;
  });
  const read = readCsv(rows.join('\r\n'));
  if (!read.ok) throw new Error('the story can be read');
  return assess(read.survey);
}

const same = () => 0;
const accept = ['support', 'edge'] as const;

it('says of a panel that did not change that it did not move, and of its twist what the diagonals tell', () => {
  const all = compare(survey(same), survey(same), { accept });
  const changes = panelChanges(all);
  expect(changes.map(({ side, lines }) => [side, lines.length])).toEqual([
    ['port', 4],
    ['starboard', 4],
  ]);
  for (const { outcome, size, u, corner } of changes) {
    expect(outcome).not.toBe('moved');
    expect(Math.abs(size)).toBeLessThan(3 * u);
    expect(corner?.outcome).not.toBe('moved');
    expect(corner?.size).toBeCloseTo(0, 6);
  }
});

it('finds a hollow that came on one side, where it is and how much, and leaves the other side alone', () => {
  const dent = (x: number, y: number) =>
    4 * Math.exp(-(((x - 700) / 250) ** 2)) * Math.exp(-(((y - 450) / 150) ** 2));
  const all = compare(survey(same), survey(dent), { accept });
  const [port, starboard] = panelChanges(all);
  expect(port.outcome).toBe('moved');
  expect(port.size).toBeLessThan(-2);
  expect(port.line).toBe('P450');
  expect(Math.abs(port.at - 700)).toBeLessThan(150);
  expect(starboard.outcome).not.toBe('moved');
  expect(toldComparison(all, 'mm').top.join(' ')).toMatch(
    /As one surface, port, lines P150, P300, P450 and P600, has moved, by [\d.]+ mm ± [\d.]+ mm away from the water near \d+ mm on P450/,
  );
});

it('finds a twist that came, though no line along or athwart shows it', () => {
  const twist = (x: number, y: number) => 12e-6 * x * (y - 150);
  const all = compare(survey(same), survey(twist), { accept });
  const [port] = panelChanges(all);
  expect(port.corner?.outcome).toBe('moved');
  expect(Math.abs((port.corner?.size ?? NaN) + 8.1)).toBeLessThan(2 * (port.corner?.u ?? NaN));
  expect(panelChangeWords(port, all, 'mm')).toMatch(/Its twist has changed: the fourth corner by/);
});

it('tells nothing of a twist without diagonals, and nothing of panels without placements across', () => {
  const plain = (row: string) => !row.endsWith(',diagonal');
  const [port] = panelChanges(compare(survey(same, plain), survey(same, plain), { accept }));
  expect(port.corner).toBeUndefined();
  const loose = (row: string) => !/,(diagonal|athwart)$/.test(row);
  expect(panelChanges(compare(survey(same, loose), survey(same), { accept }))).toEqual([]);
});

it('maps what changed on each side for the page, deepest where it went in, and the same whichever way the words go', () => {
  const dent = (x: number, y: number) =>
    4 * Math.exp(-(((x - 700) / 250) ** 2)) * Math.exp(-(((y - 450) / 150) ** 2));
  const { panels } = toldComparison(compare(survey(same), survey(dent), { accept }), 'mm');
  expect(panels.map(({ side, words, datum }) => [side, words.word, datum])).toEqual([
    ['port', 'moved', 'plane'],
    ['starboard', expect.stringMatching(/^(not moved|cannot tell)$/), 'plane'],
  ]);
  const [{ grids, lines }] = panels;
  expect(lines.map(({ place }) => place)).toEqual([150, 300, 450, 600]);
  const [{ x, y, z, u }] = grids;
  const deepest = Array.from(z).indexOf(Math.min(...Array.from(z)));
  expect(Math.abs(x[deepest % x.length] - 700)).toBeLessThan(150);
  expect(Math.abs(y[Math.floor(deepest / x.length)] - 450)).toBeLessThan(80);
  expect(z[deepest]).toBeLessThan(-2 * u[deepest]);
  expect(toldComparison(compare(survey(same), survey(same)), 'mm').panels).toHaveLength(2);
});

it('compares a bottom read right across the keel with an earlier survey that tied each side by itself', () => {
  const story = readFileSync(
    new URL('../../fixtures/samples/stories/twisted-skiff.csv', import.meta.url),
    'utf8',
  );
  const of = (text: string) => {
    const read = readCsv(text);
    if (!read.ok) throw new Error('the story can be read');
    return assess(read.survey);
  };
  const whole = of(story);
  const apart = of(story.replaceAll(/,yes(?=\r\n)/g, ','));
  const told = (first: typeof whole, second: typeof whole) =>
    panelChanges(compare(first, second, { accept }));
  for (const [first, second, sides] of [
    [whole, whole, ['both']],
    [apart, whole, ['both', 'both']],
    [whole, apart, ['port', 'starboard']],
  ] as const) {
    const all = compare(first, second, { accept });
    const changes = panelChanges(all);
    expect(changes.map(({ side }) => side)).toEqual(sides);
    for (const change of changes) {
      expect(change.outcome).not.toBe('moved');
      const { y, z } = change.map();
      expect(z.every(Number.isFinite)).toBe(true);
      expect(y.length).toBeGreaterThan(3);
    }
  }
  const [port, starboard] = told(apart, whole);
  expect(port.lines.map(({ name }) => name)).toEqual(['P450', 'P300', 'P150']);
  expect(Array.from(port.map().y).every((y) => y < 0)).toBe(true);
  expect(Array.from(starboard.map().y).every((y) => y > 0)).toBe(true);
  expect(port.corner).toBeUndefined();
  const all = compare(apart, whole, { accept });
  expect(panelChangeWords(port, all, 'mm')).toMatch(/^As one surface, port, lines P450, /);
  expect(panelChangeWords(told(whole, whole)[0], all, 'mm')).toMatch(
    /^As one surface, both sides, /,
  );
});
