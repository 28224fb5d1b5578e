import { beforeAll, describe, expect, it } from 'vitest';
import {
  alikeEverywhereWords,
  changeWords,
  controlWords,
  relaxedWords,
  unlikeWords,
} from '../../src/seasons/changeWords.ts';
import { compare, type CompareOptions } from '../../src/seasons/compare.ts';
import type { Change, Comparison } from '../../src/seasons/comparison.ts';
import { GROUND, seasonTrial, STATIONS } from '../../study/seasonTrial.ts';
import { assessed, hollowOf, readLine, surveyed } from './support.ts';

const outcomes = ({ lines }: Comparison) =>
  Object.fromEntries(
    lines.map(({ second, outcome }) => [
      second.line.name,
      outcome.ok ? outcome.outcome : outcome.reason,
    ]),
  );

function changeOf(comparison: Comparison, name: string): Change {
  const found = comparison.lines.find(({ second }) => second.line.name === name)?.outcome;
  if (!found?.ok) throw new Error(`${name}: ${found?.reason ?? 'no such line'}`);
  return found;
}

describe('the hull of three seasons', () => {
  const seasons = ['season-2024.csv', 'season-2025.csv', 'season-2026.csv'];
  it.each([
    [0, 1],
    [1, 2],
    [0, 2],
  ])('moved on port 700 and nowhere else, from survey %i to %i', (from, to) => {
    const found = compare(assessed(seasons[from]), assessed(seasons[to]));
    expect(outcomes(found)).toEqual({
      P300: 'not moved',
      P700: 'moved',
      S300: 'not moved',
      S700: 'not moved',
    });
    const { inward, tail, sections } = changeOf(found, 'P700');
    expect(inward.way).toBe('hollow deeper');
    expect(inward.size - 2 * inward.u).toBeGreaterThan(0.8);
    expect(tail).toMatchObject({ proven: true });
    expect(tail?.angle).toBeGreaterThan(0.2);
    expect(sections.filter((s) => s.outcome === 'moved')).toMatchObject([{ way: 'hollow deeper' }]);
  });

  it('says so in words, with size, uncertainty, place and the smallest change to be seen', () => {
    const found = compare(assessed(seasons[0]), assessed(seasons[2]));
    const at = (name: string) => {
      const line = found.lines.find(({ second }) => second.line.name === name);
      if (!line) throw new Error(name);
      return changeWords(line, found);
    };
    const { word, where, findings, sight } = at('P700');
    expect(word).toBe('Moved');
    expect(where).toBe('port, 700 mm from the keel');
    expect(findings[0]).toMatch(
      /^Hollow deeper by 3\.\d mm ± 0\.\d mm near \d+ mm, from \d+ to \d+ mm forward of the transom\.$/,
    );
    expect(findings[1]).toBe('That is more than the 1.5 mm that matters.');
    expect(findings[2]).toMatch(
      /^Over the last 300 mm the tail turned down by 0\.\d+° ± 0\.\d+°\.$/,
    );
    expect(sight).toMatch(/^The smallest change that would have been seen is about [01]\.\d mm\.$/);
    expect(at('S300').word).toBe('Not moved');
    expect(at('S300').findings[0]).toMatch(/no more than scatter shows/);
    expect(unlikeWords(found.unlike)).toEqual([
      expect.stringMatching(/^Not known to be alike.*the straightedge or how it was laid/),
    ]);
  });

  it('names the opposite, of the same size, when the surveys are exchanged', () => {
    const [first, last] = [assessed(seasons[0]), assessed(seasons[2])];
    const there = changeOf(compare(first, last), 'P700');
    const back = changeOf(compare(last, first), 'P700');
    expect(back.outward).toEqual({ ...there.inward, way: 'hollow shallower' });
    expect(back.tail?.angle).toBe(-Number(there.tail?.angle));
    expect(back.difference.map(({ z }) => -z)).toEqual(there.difference.map(({ z }) => z));
  });

  it('did not move from a survey to itself', () => {
    const survey = assessed(seasons[1]);
    expect(new Set(Object.values(outcomes(compare(survey, survey))))).toEqual(
      new Set(['not moved']),
    );
  });
});

describe('the hook that bunks made', () => {
  const [ashore, afloat, longer] = [
    'hour-3',
    'after-six-days-afloat',
    'next-year-longer-bunks',
  ].map((name) => assessed(`stories/bunk-hook-${name}.csv`));

  it('relaxed afloat: the hollow is shallower on both sides, and it is said to wait', () => {
    const found = compare(ashore, afloat);
    expect(outcomes(found)).toEqual({ P16in: 'moved', S16in: 'moved' });
    expect(changeOf(found, 'P16in').outward.way).toBe('hollow shallower');
    expect(relaxedWords(found)).toMatch(/Wait and measure again before anything is filled/);
    expect(changeWords(found.lines[0], found).findings[0]).toMatch(
      /^Hollow shallower by 3\/32 in ± 1\/16 in near/,
    );
  });

  it('is not compared a year later: the bunks are others, which is said at the top', () => {
    const found = compare(afloat, longer);
    expect(found.lines.map(({ outcome }) => outcome)).toEqual([
      { ok: false, reason: 'unlike', unlike: ['support'] },
      { ok: false, reason: 'unlike', unlike: ['support'] },
    ]);
    expect(unlikeWords(found.unlike)[0]).toBe(
      'The surveys differ in what the hull stood on: first “trailer, bunks end 10 in forward of the transom”, then “trailer, bunks to the transom”. Not compared for that reason until somebody accepts it knowingly.',
    );
    expect(changeWords(found.lines[0], found).word).toBe('Not compared');
    expect(relaxedWords(found)).toBe('');
  });

  it('is compared when that is accepted, and the top says that it was', () => {
    const found = compare(ashore, longer, { accept: ['support'] });
    expect(outcomes(found)).toEqual({ P16in: 'moved', S16in: 'moved' });
    expect(unlikeWords(found.unlike)[0]).toMatch(/Accepted knowingly\.$/);
  });
});

describe('a side that was repaired', () => {
  const before = surveyed('2025-03-01', [
    readLine('P300', () => 0, 21),
    readLine('P700', hollowOf(4), 22),
  ]);
  const after = surveyed('2025-05-01', [
    readLine('P300', () => 0, 23),
    readLine('P700', () => 0, 24),
  ]);
  const repairs = [{ date: '2025-04-01', what: 'filled and faired', lines: ['P700'] }];

  it('is not compared across the repair, while the line left alone is the control', () => {
    const found = compare(before, after, { repairs });
    expect(outcomes(found)).toEqual({ P300: 'not moved', P700: 'unlike' });
    expect(found.control).toBe('steady');
    expect(controlWords(found)).toMatch(
      /^The control line P300 did not move: the set-up is the same/,
    );
    expect(unlikeWords(found.unlike)[0]).toBe(
      'Repaired in between (P700): filled and faired, 2025-04-01. Not compared for that reason until somebody accepts it knowingly.',
    );
  });

  it('shows what the repair did when that is asked for knowingly', () => {
    const found = compare(before, after, { repairs, accept: ['repair'] });
    expect(changeOf(found, 'P700').outward.way).toBe('hollow shallower');
    expect(Math.abs(changeOf(found, 'P700').outward.size - 4)).toBeLessThan(0.4);
  });

  it('concerns every line where nobody says which were worked, and none outside its time', () => {
    const anywhere = compare(before, after, { repairs: [{ date: '2025-04-01', what: 'faired' }] });
    expect(outcomes(anywhere)).toEqual({ P300: 'unlike', P700: 'unlike' });
    const earlier = compare(before, after, { repairs: [{ date: '2025-03-01', what: 'faired' }] });
    expect(outcomes(earlier)).toEqual({ P300: 'not moved', P700: 'moved' });
    const later = compare(before, after, { repairs: [{ date: '2025-05-02', what: 'faired' }] });
    expect(outcomes(later)).toEqual({ P300: 'not moved', P700: 'moved' });
  });
});

describe('a control line', () => {
  const options: CompareOptions = { control: ['P300'] };
  it('that moved tells a changed set-up', () => {
    const found = compare(
      surveyed('2025-03-01', [readLine('P300', () => 0, 31), readLine('P700', () => 0, 32)]),
      surveyed('2026-03-01', [
        readLine('P300', hollowOf(3), 33),
        readLine('P700', hollowOf(3), 34),
      ]),
      options,
    );
    expect(found.control).toBe('moved');
    expect(controlWords(found)).toMatch(/the set-up changed\. Lay no other change to the hull/);
    expect(changeWords(found.lines[0], found).where).toMatch(/, control line$/);
  });

  it('where none was read, every line moved alike is laid to edge or support first', () => {
    const names = ['P300', 'P700', 'S300'];
    const found = compare(
      surveyed(
        '2025-03-01',
        names.map((name, i) => readLine(name, () => 0, 41 + i)),
      ),
      surveyed(
        '2026-03-01',
        names.map((name, i) => readLine(name, hollowOf(3), 51 + i)),
      ),
    );
    expect(found.control).toBe('none read');
    expect(controlWords(found)).toBe('');
    expect(alikeEverywhereWords(found)).toMatch(/check the straightedge and the support before/);
  });
});

describe('the straightedge of two surveys', () => {
  const bound = { size: 1, over: 1500 };
  const edges = (name: string) => [{ name, length: 1500, bound, checks: [] }];
  const survey = (name: string | undefined, date: string, seed: number, depth: number) =>
    surveyed(
      date,
      [
        readLine('P700', hollowOf(depth), seed, {
          laid: { edgeLength: 1500, ...(name !== undefined && { edge: name }) },
        }),
      ],
      name === undefined ? {} : { edges: edges(name) },
    );

  it('cancels where it is one and the same, so that what it may be out by hides nothing', () => {
    const found = compare(
      survey('long bar', '2025-03-01', 61, 0),
      survey('long bar', '2026-03-01', 62, 1.2),
    );
    expect(changeOf(found, 'P700')).toMatchObject({ edge: 'cancels', outcome: 'moved' });
    expect(found.unlike.some(({ what }) => what === 'edge')).toBe(false);
  });

  it('counts in both where it is another, which is said and must be accepted', () => {
    const [first, second] = [
      survey('long bar', '2025-03-01', 61, 0),
      survey('new bar', '2026-03-01', 62, 1.2),
    ];
    expect(outcomes(compare(first, second))).toEqual({ P700: 'unlike' });
    const found = compare(first, second, { accept: ['edge'] });
    const change = changeOf(found, 'P700');
    expect(change).toMatchObject({ edge: 'counts in both', outcome: 'cannot tell' });
    expect(changeWords(found.lines[0], found).sight).toMatch(/not known to be one and the same/);
  });

  it('that nobody named is compared, and not known to be the same', () => {
    const found = compare(
      survey(undefined, '2025-03-01', 61, 0),
      survey(undefined, '2026-03-01', 62, 0),
    );
    expect(outcomes(found)).toEqual({ P700: 'not moved' });
    expect(found.unlike.find(({ what }) => what === 'edge')).toMatchObject({ known: 'not stated' });
  });
});

describe('lines and options', () => {
  it('lists lines that stand in one survey only', () => {
    const found = compare(
      surveyed('2025-03-01', [readLine('P300', () => 0, 71), readLine('P700', () => 0, 72)]),
      surveyed('2026-03-01', [readLine('P310', () => 0, 73), readLine('S700', () => 0, 74)]),
    );
    expect(outcomes(found)).toEqual({ P310: 'not moved' });
    expect(found.unmatched.map(({ line, in: where }) => [line.name, where])).toEqual([
      ['P700', 'first'],
      ['S700', 'second'],
    ]);
  });

  it('throws RangeError on a tolerance that is no positive length', () => {
    const survey = surveyed('2025-03-01', [readLine('P300', () => 0, 75)]);
    expect(() => compare(survey, survey, { tolerance: 0 })).toThrow(RangeError);
    expect(() => compare(survey, survey, { least: -1 })).toThrow(RangeError);
  });
});

describe('how often it is wrong, on a seeded part of the study of seasons', () => {
  // study/seasons.ts counts 1,000 pairs a row; the shapes are those of the study of verdicts.
  const reading = { ...STATIONS.others, stated: 0.15, real: 0.15 };
  const PAIRS = 40;
  let still: (string | undefined)[] = [];
  let grown: (string | undefined)[] = [];
  beforeAll(() => {
    const classes = (growth: number) =>
      Array.from({ length: PAIRS }, (_, hull) => seasonTrial([7, hull, 1], growth, reading)?.class);
    still = classes(0);
    grown = classes(1.5 * GROUND.tolerance);
  }, 60_000);

  it('calls at most 1 of 40 lines moved that did not move', () => {
    expect(still.filter((c) => c === 'moved').length).toBeLessThanOrEqual(1);
  });

  it('finds a growth of one and a half tolerances in 38 of 40 or more', () => {
    expect(grown.filter((c) => c === 'moved').length).toBeGreaterThanOrEqual(38);
  });
});
