import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Judgement } from '../../src/fit/judge.ts';
import { assess, HOUSE_TOLERANCE, type AssessOptions } from '../../src/survey/assess.ts';
import type { Survey } from '../../src/survey/survey.ts';
import {
  besidesEdge,
  bump,
  judgementOf,
  lineOf,
  placementOf,
  readingOf,
  sample,
  stationsTo,
  surveyIn,
  surveyOf,
  typed,
  verdicts,
  withReadings,
} from './madeSurveys.ts';

const inch = 25.4;
const every100 = stationsTo(1500, 100);

/** Sixteen readings in steps of 0.1 mm: bent this way or that, and noisy. */
const gapsOfALine = fc
  .record({
    depth: fc.integer({ min: -40, max: 40 }),
    from: fc.integer({ min: 0, max: 900 }),
    width: fc.integer({ min: 200, max: 900 }),
    noise: fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 16, maxLength: 16 }),
  })
  .map(({ depth, from, width, noise }) => {
    const shape = bump(depth / 10, from, from + width);
    return every100.map((x, i) => Math.round(10 * shape(x) + noise[i]) / 10);
  });

function lineFrom(gaps: readonly number[]): Survey {
  return surveyOf([lineOf([placementOf(every100, (x) => gaps[x / 100])])]);
}

function fixed(numRuns: number) {
  return { seed: 20261104, numRuns };
}

describe('the sample surveys, whose truth is known', () => {
  it('inches-wide: port 18 and 30 in are hooked, no starboard line is', () => {
    const found = verdicts(
      assess(sample('inches-wide.csv'), {
        tolerance: 1.5,
        over: 1524,
        resolution: inch / 32,
        repeatability: 0.15,
      }),
    );
    expect(found).toMatchObject({ P18in: 'hook', P30in: 'hook' });
    for (const name of ['P6in', 'S6in', 'S18in', 'S30in']) {
      expect(found[name]).toMatch(/^(fair|undecided)$/);
    }
  });

  it('metric-long: both starboard lines are rockered, both port lines fair', () => {
    const found = assess(sample('metric-long.csv'), { repeatability: 0.12 });
    expect(verdicts(found)).toEqual({
      P300: 'fair',
      P700: 'fair',
      S300: 'rocker',
      S700: 'rocker',
    });
  });

  it('two-placements: port 400 is hooked, starboard fair; the repeats tell the repeatability', () => {
    const found = assess(sample('two-placements.csv'));
    expect(verdicts(found)).toEqual({ P400: 'hook', S400: 'fair' });
    expect(found.repeatability).toMatchObject({ from: 'repeats', dof: 24 });
    expect(found.lines.map((l) => l.parts)).toEqual([1, 1]);
  });
});

describe('the stories, at 1/16 in over their straightedge', () => {
  const story = (name: string, over: number, tolerance = inch / 16) => {
    const found = assess(sample(`stories/${name}.csv`), { tolerance, over });
    const kinds = besidesEdge(found)
      .filter((r) => r.about === 'survey')
      .map((r) => r.kind);
    return { found, verdict: verdicts(found), kinds };
  };

  it('not-to-blame: hook on the 22 in lines, alike port and starboard', () => {
    const { verdict, kinds } = story('not-to-blame', 60 * inch);
    expect(verdict).toMatchObject({ P22in: 'hook', S22in: 'hook' });
    expect(verdict['P10in']).not.toBe('hook');
    expect(verdict['S10in']).not.toBe('hook');
    expect(kinds).toEqual(['alike port and starboard']);
  });

  it('moulded-wedge: hook on all, and the same departure on every line', () => {
    const { verdict, kinds } = story('moulded-wedge', 48 * inch);
    expect(new Set(Object.values(verdict))).toEqual(new Set(['hook']));
    expect(kinds).toEqual(['same departure on every line']);
  });

  it('bunk-hook: hook at hour 3 that may recover, shallower after six days, no hook a year on', () => {
    const ashore = story('bunk-hook-hour-3', 48 * inch);
    const afloat = story('bunk-hook-after-six-days-afloat', 48 * inch);
    const later = story('bunk-hook-next-year-longer-bunks', 48 * inch);
    expect(ashore.verdict).toEqual({ P16in: 'hook', S16in: 'hook' });
    expect(ashore.kinds).toContain('may recover afloat');
    for (const at of [0, 1]) {
      const [first, second] = [ashore, afloat].map((s) => judgementOf(s.found, at).hollow);
      // Deeper by more than either may be out by.
      expect(first.size - second.size).toBeGreaterThan(2 * Math.hypot(first.u, second.u));
    }
    for (const word of Object.values(later.verdict)) expect(word).toMatch(/^(fair|undecided)$/);
  });

  it('one-side: hook on port 30 in only, the others fair', () => {
    const { verdict, kinds } = story('one-side', 48 * inch);
    expect(verdict).toEqual({ P12in: 'fair', P30in: 'hook', S12in: 'fair', S30in: 'fair' });
    expect(kinds).toEqual([]);
  });

  it('bowed-edge, 1/32 in over 60: the same departure on every line, and the edge is suspected first', () => {
    const { found, kinds } = story('bowed-edge', 60 * inch, inch / 32);
    expect(kinds).toEqual(['same departure on every line']);
    expect(found.remarks[0].words).toMatch(
      /^Every line shows the same departure\. First suspect the straightedge/,
    );
  });

  it('rocker-blocks: rocker of about 4 mm, the tail turned up by about one degree', () => {
    const { found, verdict } = story('rocker-blocks', 1500);
    expect(verdict).toEqual({ S300: 'rocker' });
    const { hump, tail } = judgementOf(found);
    expect(Math.abs(hump.size - 4)).toBeLessThan(2 * hump.u + 0.1);
    expect(tail?.angle).toBeCloseTo(-1, 0);
    expect(tail?.angle).toBeLessThan(-0.8);
  });
});

/** An assessment without the functions that its fits carry, which are no two alike, and without the readings that
 *  they were fitted to, which tell the rows of their file. */
const told = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (key, each: unknown) => {
      if (key === 'columns') return undefined;
      return each instanceof Map ? [...(each as Map<unknown, unknown>)] : each;
    }),
  );

describe('an assessment', () => {
  it('gives a sharp wedge the depth and the angle of plane geometry', () => {
    // Last 300 mm turned down by one degree: the chord over 1500 mm passes the corner at
    // 300·tan 1°·(1 − 300/1500) = 4.189 mm, and the tail turns by 1° (closed form).
    const slope = Math.tan(Math.PI / 180);
    const wedge = (x: number) => -slope * Math.max(0, 300 - x);
    const survey = surveyOf([lineOf([placementOf(stationsTo(1500, 25), wedge)])]);
    const { verdict, hollow, tail } = judgementOf(assess(survey));
    expect(verdict).toEqual(['hook']);
    expect(Math.abs(hollow.size - 4.189)).toBeLessThan(0.1);
    expect(Math.abs(hollow.at - 300)).toBeLessThanOrEqual(15);
    expect([hollow.from, hollow.to]).toEqual([0, 1500]);
    expect(tail?.angle).toBeCloseTo(1, 1);
  });

  it('counts height positive towards the water: a smaller gap is proud', () => {
    const survey = surveyOf([lineOf([placementOf(every100, (x) => 3 - bump(3, 300, 1200)(x))])]);
    const [{ points }] = assess(survey).lines;
    const at = (station: number) => points.find((p) => p.station === station)?.z;
    expect(at(700)).toBeGreaterThan(1);
    expect(at(0)).toBeLessThan(0);
    expect(at(1500)).toBeLessThan(0);
  });

  it('puts each reading where the profile passes, whatever the lie of its placement', () => {
    const shape = bump(3, 300, 1200);
    const survey = surveyOf([
      lineOf([
        placementOf(stationsTo(900, 100), shape),
        placementOf(
          stationsTo(900, 100).map((x) => x + 600),
          (x) => shape(x) + 7 - 0.02 * x,
          { id: 'P450/2/1', name: '2' },
        ),
      ]),
    ]);
    const [line] = assess(survey).lines;
    const { profile } = judgementOf(assess(survey));
    for (const { station, z = NaN } of line.points) {
      const fore = Math.max(
        1,
        profile.findIndex((p) => p.x >= station),
      );
      const [p, q] = [profile[fore - 1], profile[fore]];
      const there = p.z + ((q.z - p.z) * (station - p.x)) / (q.x - p.x);
      expect(Math.abs(z - there)).toBeLessThan(0.06);
    }
  });

  it('of the same survey twice is deeply equal, and leaves the survey as it was', () => {
    const survey = sample('two-placements.csv');
    const before = structuredClone(survey);
    expect(told(assess(survey))).toEqual(told(assess(structuredClone(survey))));
    expect(survey).toEqual(before);
  });

  it('does not change by more than 1e-6 mm when the edge lies otherwise: offset and tilt', () => {
    const lie = fc.record({
      offset: fc.integer({ min: -500, max: 500 }).map((n) => n / 10),
      tilt: fc.integer({ min: -50, max: 50 }).map((n) => n / 1000),
    });
    fc.assert(
      fc.property(gapsOfALine, lie, (gaps, { offset, tilt }) => {
        const level = judgementOf(assess(lineFrom(gaps)));
        const laid = judgementOf(assess(lineFrom(gaps.map((g, i) => g + offset + tilt * 100 * i))));
        expectAlike(laid, level);
      }),
      fixed(30),
    );
  });

  it('swaps hook and rocker exactly when every gap is mirrored', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(gapsOfALine, (gaps) => {
        const one = judgementOf(assess(lineFrom(gaps)));
        const mirrored = judgementOf(assess(lineFrom(gaps.map((g) => -g))));
        seen.add(one.verdict.join(' and '));
        expect([...mirrored.verdict].sort()).toEqual(one.verdict.map(swapped).sort());
        expect(mirrored.hollow).toEqual(one.hump);
        expect(mirrored.hump).toEqual(one.hollow);
        expect(mirrored.fairness).toBe(one.fairness);
        expect(mirrored.sections).toEqual(
          one.sections.map((s) => ({
            ...s,
            class: swapped(s.class),
            leaning: swapped(s.leaning),
          })),
        );
        if (one.tail) expect(mirrored.tail?.angle).toBe(-one.tail.angle);
      }),
      fixed(60),
    );
    for (const word of ['hook', 'rocker', 'fair', 'undecided']) expect(seen).toContain(word);
  });

  it('moves with its stations: only their distances count', () => {
    fc.assert(
      fc.property(gapsOfALine, fc.integer({ min: 1, max: 900 }), (gaps, by) => {
        const here = judgementOf(assess(lineFrom(gaps), { limit: 1500 }));
        const moved = withReadings(lineFrom(gaps), (r) => ({
          ...r,
          station: typed(r.station.mm + by),
        }));
        const there = judgementOf(assess(moved, { limit: 1500 + by }));
        expectAlike(there, here, by);
      }),
      fixed(20),
    );
  });

  it('owes nothing to the order in which rows were written', () => {
    for (const name of ['two-placements.csv', 'metric-long.csv']) {
      const { head, rows } = longFile(name);
      const asWritten = told(byLine(surveyIn([...head, ...rows].join('\n'))));
      fc.assert(
        fc.property(
          fc.shuffledSubarray(rows, { minLength: rows.length, maxLength: rows.length }),
          (shuffled) => {
            expect(told(byLine(surveyIn([...head, ...shuffled].join('\n'))))).toEqual(asWritten);
          },
        ),
        fixed(6),
      );
    }
  });

  it('without a void row is what it is with it', () => {
    const { head, rows } = longFile('two-placements.csv');
    const kept = rows.filter((row) => !row.includes('through-hull'));
    expect(kept.length).toBeLessThan(rows.length);
    expect(told(byLine(surveyIn([...head, ...kept].join('\n'))))).toEqual(
      told(byLine(surveyIn([...head, ...rows].join('\n')))),
    );
  });

  it('does not take an absent reading for a contact', () => {
    const gap = bump(3, 300, 1200);
    const sparse = placementOf(
      every100.filter((x) => x !== 700),
      gap,
    );
    const contact = { ...sparse, readings: [...sparse.readings, readingOf(700, 0)] };
    const absent = judgementOf(assess(surveyOf([lineOf([sparse])])));
    expect(absent.verdict).toEqual(['hook']);
    expect(judgementOf(assess(surveyOf([lineOf([contact])]))).hollow.size).not.toBeCloseTo(
      absent.hollow.size,
      1,
    );
  });

  it('on blocks is the same profile as resting, once their height is off', () => {
    // Quarters of a mm, so that taking 20 mm off is exact.
    const gap = (x: number) => Math.round(4 * bump(3, 300, 1200)(x)) / 4;
    const resting = surveyOf([lineOf([placementOf(every100, gap)])]);
    const onBlocks = surveyOf([
      lineOf([placementOf(every100, (x) => gap(x) + 20, { held: 'blocks', block: 20 })]),
    ]);
    expect(judgementOf(assess(onBlocks))).toEqual(judgementOf(assess(resting)));
    const drawn = (survey: Survey) => assess(survey).lines[0].points.map(({ gap, z }) => [gap, z]);
    expect(drawn(onBlocks)).toEqual(drawn(resting));
  });

  it('judges a last leaf as it would the half division more that was there', () => {
    const gap = (x: number) => Math.round(4 * bump(3, 300, 1200)(x)) / 4;
    const leaf = placementOf(every100, gap, { division: 0.5, reads: 'last leaf' });
    const more = placementOf(every100, (x) => gap(x) + 0.25, { division: 0.5 });
    const [asLeaf, asMore] = [leaf, more].map((p) => assess(surveyOf([lineOf([p])])));
    expect(judgementOf(asLeaf)).toEqual(judgementOf(asMore));
    expect(asLeaf.lines[0].points[0].gap).toBe(0.25);
  });

  it('takes 150,000 readings of one line', () => {
    const many = Array.from({ length: 150_000 }, (_, i) => i / 100);
    const survey = surveyOf([lineOf([placementOf(many, bump(4, 300, 1200))])], { kind: 'log' });
    const found = assess(survey);
    expect(verdicts(found)).toEqual({ P450: 'hook' });
    expect(found.lines[0].readings).toBe(150_000);
  });
});

describe('placements of one line', () => {
  const gap = bump(3, 300, 1200);
  const aft = (to: number) => placementOf(stationsTo(to, 100), gap);
  const fore = (from: number, more = {}) =>
    placementOf(
      every100.filter((x) => x >= from),
      (x) => gap(x) + 4 + 0.01 * x,
      { id: 'P450/2/1', name: '2', ...more },
    );

  it('that share two stations are one profile', () => {
    const found = assess(surveyOf([lineOf([aft(800), fore(700)])]));
    expect(verdicts(found)).toEqual({ P450: 'hook' });
    const kinds = besidesEdge(found).map((r) => r.kind);
    expect(kinds).not.toContain('support moved');
    expect(kinds).not.toContain('placements not tied');
    expect(Math.abs(judgementOf(found).hollow.size - 3)).toBeLessThan(0.5);
  });

  it.each([700, 800])('that share fewer are two parts, never bridged (fore from %i mm)', (from) => {
    const [a, b] = [aft(700), fore(from)];
    const found = assess(surveyOf([lineOf([a, b])]));
    expect(found.lines.map(({ part, parts }) => [part, parts])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(judgementOf(found, 0)).toEqual(judgementOf(assess(surveyOf([lineOf([a])]))));
    expect(judgementOf(found, 1)).toEqual(judgementOf(assess(surveyOf([lineOf([b])]))));
    const told = found.remarks.find((r) => r.kind === 'placements not tied');
    expect(told?.words).toBe(
      'P450: its placements share fewer than two stations, so it is shown as 2 profiles. Lay the edge once more so that it shares two stations or more with both.',
    );
  });

  it('before and after a move of the support are never tied, though they share stations', () => {
    const moved = [{ ...aft(1000), supportPeriod: 0 }, fore(300, { supportPeriod: 1 })];
    const found = assess(surveyOf([lineOf(moved)]));
    expect(found.lines.map(({ part, parts }) => [part, parts])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(judgementOf(found, 1)).toEqual(judgementOf(assess(surveyOf([lineOf([moved[1]])]))));
    const kinds = besidesEdge(found).map((r) => r.kind);
    expect(kinds).toContain('support moved');
    expect(kinds).not.toContain('placements not tied');
  });

  it('too short to have a shape, and tied to nothing, are set aside with a remark', () => {
    const stray = placementOf([1500, 1600], () => 1, { id: 'P450/2/1', name: '2' });
    const found = assess(surveyOf([lineOf([aft(1500), stray])]));
    expect(found.lines).toHaveLength(1);
    expect(judgementOf(found)).toEqual(judgementOf(assess(surveyOf([lineOf([aft(1500)])]))));
    expect(besidesEdge(found).map((r) => r.words)).toEqual([
      'P450, placement 2: 2 readings that share no two stations with another placement, and so say nothing of the shape; not used.',
    ]);
  });
});

describe('too few readings', () => {
  const few = (stations: readonly number[]) =>
    assess(surveyOf([lineOf([placementOf(stations, () => 0)])])).lines[0];

  it('are fewer than four stations, and are answered with the number needed', () => {
    expect(few([0, 500, 1000]).outcome).toEqual({
      ok: false,
      reason: 'too few readings',
      n: 3,
      needed: 4,
    });
    expect(few([0, 400, 800, 1200]).outcome.ok).toBe(true);
  });

  it('stay too few when three stations are looked at twice', () => {
    const looks = [0, 500, 1000].flatMap((x) => [readingOf(x, 0), readingOf(x, 0.1, { look: 2 })]);
    const [line] = assess(
      surveyOf([lineOf([placementOf([], () => 0, { readings: looks })])]),
    ).lines;
    expect(line.readings).toBe(6);
    expect(line.outcome).toMatchObject({ ok: false, n: 3, needed: 4 });
  });

  it('stay too few when the rest lies ahead of the limit', () => {
    expect(few([0, 500, 1000, 1600, 1700, 1800]).outcome).toMatchObject({ ok: false, n: 3 });
  });

  it('leave the readings without a height, not with a height of 0', () => {
    for (const point of few([0, 500, 1000]).points) expect('z' in point).toBe(false);
  });

  it('are a line with no readings at all', () => {
    const [line] = assess(surveyOf([lineOf([])])).lines;
    expect(line.outcome).toEqual({ ok: false, reason: 'too few readings', n: 0, needed: 4 });
    expect(line.readings).toBe(0);
  });
});

describe('the limit of the straight run', () => {
  /** Straight to 1500 mm; ahead of it the bottom curves up hard, as drawn. */
  const survey = surveyOf([
    lineOf([placementOf(stationsTo(2400, 100), (x) => (Math.max(0, x - 1500) / 100) ** 2)]),
  ]);

  it('leaves readings ahead of it drawn and not judged', () => {
    const found = assess(survey);
    expect(verdicts(found)).toEqual({ P450: 'fair' });
    const [line] = found.lines;
    expect(line.readings).toBe(16);
    expect(line.points).toHaveLength(25);
    for (const { station, judged, z } of line.points) {
      expect(judged).toBe(station <= 1500);
      expect(z).toBeDefined();
    }
    expect(judgementOf(found).judged).toEqual([0, 1500]);
    expect(found.remarks.map((r) => r.words)).toContain(
      'P450: 9 readings ahead of the limit of the straight run: drawn, not judged.',
    );
  });

  it('judges them where it is set farther forward', () => {
    expect(verdicts(assess(survey, { limit: 2400 }))['P450']).not.toBe('fair');
  });

  it('is the one asked for, else the line’s, else the survey’s, else a house default', () => {
    const judgedTo = (s: Survey, options: AssessOptions = {}) =>
      judgementOf(assess(s, options)).judged[1];
    const ofLine = surveyOf([{ ...survey.lines[0], limit: 1000 }], { limit: 1200 });
    expect(judgedTo(ofLine, { limit: 900 })).toBe(900);
    expect(judgedTo(ofLine)).toBe(1000);
    expect(judgedTo({ ...survey, limit: 1200 })).toBe(1200);
    expect(assess({ ...survey, limit: 1200 }).limit).toEqual({ mm: 1200, houseDefault: false });
    // 60 in or 1500 mm: common practice, no source.
    expect(assess(survey).limit).toEqual({ mm: 1500, houseDefault: true });
    expect(assess({ ...survey, workUnit: 'in' }).limit).toEqual({ mm: 1524, houseDefault: true });
  });
});

describe('what is asked of an assessment', () => {
  it('goes before what the survey says, and a house default says that it is one', () => {
    const survey = lineFrom(every100.map(() => 0));
    expect(assess(survey).tolerance).toEqual({ ...HOUSE_TOLERANCE, houseDefault: true });
    const stated: Survey = { ...survey, tolerance: { gap: 2, over: 1200, houseDefault: false } };
    expect(assess(stated).tolerance).toEqual({ gap: 2, over: 1200, houseDefault: false });
    expect(assess(stated, { tolerance: 1 }).tolerance).toEqual({
      gap: 1,
      over: 1200,
      houseDefault: false,
    });
    expect(assess(survey, { tolerance: 1 }).tolerance.houseDefault).toBe(false);
    expect(assess(survey, { over: 1000 }).tolerance).toEqual({
      gap: 1.5,
      over: 1000,
      houseDefault: true,
    });
    const steady: Survey = { ...survey, repeatability: 0.3 };
    expect(assess(steady).repeatability).toEqual({ mm: 0.3, from: 'stated' });
    expect(assess(steady, { repeatability: 0.2 }).repeatability.mm).toBe(0.2);
  });

  it('must be a positive length: anything else is the caller’s mistake', () => {
    const survey = lineFrom(every100.map(() => 0));
    for (const name of ['tolerance', 'over', 'resolution', 'repeatability', 'limit'] as const) {
      for (const value of [0, -1, NaN, Infinity]) {
        expect(() => assess(survey, { [name]: value })).toThrow(RangeError);
        expect(() => assess(survey, { [name]: value })).toThrow(
          `${name}: a positive length expected, got ${value}`,
        );
      }
    }
  });
});

function expectAlike(found: Judgement, expected: Judgement, moved = 0): void {
  expect(found.verdict).toEqual(expected.verdict);
  for (const which of ['hollow', 'hump'] as const) {
    expect(found[which].size).toBeCloseTo(expected[which].size, 6);
    expect(found[which].u).toBeCloseTo(expected[which].u, 6);
    if (expected[which].size > 0.1) {
      expect(found[which].at - moved).toBeCloseTo(expected[which].at, 6);
    }
  }
  expect(found.tail?.angle ?? NaN).toBeCloseTo(expected.tail?.angle ?? NaN, 6);
  expect(found.sections.map((s) => s.class)).toEqual(expected.sections.map((s) => s.class));
}

function swapped<T extends string>(word: T): T | 'hook' | 'rocker' {
  if (word === 'hook') return 'rocker';
  return word === 'rocker' ? 'hook' : word;
}

function longFile(name: string) {
  const text = readFileSync(new URL(`../../fixtures/samples/${name}`, import.meta.url), 'utf8');
  const lines = text.trim().split('\n');
  const header = lines.findIndex((line) => line.includes('station'));
  return { head: lines.slice(0, header + 1), rows: lines.slice(header + 1) };
}

function byLine(survey: Survey) {
  const { lines, repeatability } = assess(survey, { repeatability: 0.12 });
  const outcomes = lines.map((l) => [`${l.line.name} ${l.part}`, l.outcome] as const);
  return { repeatability, outcomes: Object.fromEntries(outcomes) };
}

describe('readings that their neighbours do not bear out', () => {
  const straight = (at: number) => (at === 600 ? 9 : at % 200 === 0 ? 0 : 0.1);

  it('are pointed out as they were read, and stay in', () => {
    const placement = placementOf(stationsTo(1500, 100), straight, { division: 0.1 });
    const found = assess(surveyOf([lineOf([placement])]), { repeatability: 0.1 });
    expect(found.lines[0].readings).toBe(placement.readings.length);
    const told = found.remarks.filter((r) => r.kind === 'possible slip');
    expect(told).toHaveLength(1);
    expect(told[0].words).toMatch(
      /^P450, placement 1: 9 at station 600 stands far off what the other readings lead one to expect there, about -?0\.\d mm ± \d\.\d mm\. A slip of the pen/,
    );
  });

  it('are told apart from a survey without any', () => {
    const sound = placementOf(stationsTo(1500, 100), (at) => (at % 200 === 0 ? 0 : 0.1), {
      division: 0.1,
    });
    const found = assess(surveyOf([lineOf([sound])]), { repeatability: 0.1 });
    expect(found.remarks.map((r) => r.kind)).not.toContain('possible slip');
  });
});
