import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/survey/assess.ts';
import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { nextActs } from '../../src/survey/nextActs.ts';
import { nextSteps, nextStepsOf } from '../../src/survey/nextStep.ts';
import { bump, lineOf, placementOf, sample, stationsTo, surveyOf, typed } from './madeSurveys.ts';

const fixed = { seed: 20261103, numRuns: 12 };

interface Read {
  readonly all: SurveyAssessment;
  readonly line: LineAssessment;
}

function read(
  gap: (x: number) => number,
  {
    spacing = 100,
    division = 0.1,
    later = [] as readonly number[],
    ...asked
  }: {
    spacing?: number;
    division?: number;
    later?: readonly number[];
    repeatability?: number;
    resolution?: number;
  } = {},
): Read {
  const stations = stationsTo(1500, spacing).filter((x) => !later.includes(x));
  const placement = placementOf(stations, gap, {
    division,
    later: later.map((x) => ({ station: typed(x), reason: 'a stand', source: `later ${x}` })),
  });
  const all = assess(surveyOf([lineOf([placement])]), asked);
  return { all, line: all.lines[0] };
}

const stepsFor = ({ line, all }: Read) => nextSteps(line, all, 'mm');

describe('the next step', () => {
  it('is given whenever a line is undecided, never when something is proven, three at most', () => {
    const depth = fc.integer({ min: -200, max: 200 }).map((n) => n / 100);
    const width = fc.integer({ min: 400, max: 1400 });
    const u = fc.integer({ min: 10, max: 80 }).map((n) => n / 100);
    const seen = new Set<string>();
    fc.assert(
      fc.property(depth, width, u, (d, w, repeatability) => {
        const found = read(bump(d, 750 - w / 2, 750 + w / 2), { repeatability });
        const { outcome } = found.line;
        if (!outcome.ok) throw new Error('judged lines expected');
        const undecided = outcome.judgement.verdict.includes('undecided');
        seen.add(undecided ? 'undecided' : 'proven');
        const steps = stepsFor(found);
        expect(steps.length > 0).toBe(undecided);
        expect(steps.length).toBeLessThanOrEqual(3);
        for (const act of nextActs(found.line, found.all)) {
          expect(act.chance).toBeGreaterThan(0);
          expect(act.chance).toBeLessThanOrEqual(1);
        }
      }),
      fixed,
    );
    expect([...seen].sort()).toEqual(['proven', 'undecided']);
  });

  it('is the same for the same readings, and its chances stand in tens', () => {
    const make = () => read(bump(1.1, 200, 1300), { repeatability: 0.5 });
    const steps = stepsFor(make());
    expect(steps).toEqual(stepsFor(make()));
    const acts = steps.filter((step) => step.includes('decides it'));
    expect(acts.length).toBeGreaterThan(0);
    for (const step of acts) {
      expect(step).toMatch(/decides it (about ([1-9]|10) times? of 10|nearly always)\.$/);
    }
  });

  it('is to agree what counts where a departure lies at the tolerance', () => {
    const steps = stepsFor(read(bump(1.5, 200, 1300), { repeatability: 0.1 }));
    expect(steps.at(-1)).toMatch(
      /^The deepest departure is so near the tolerance that .+: agree what counts, or treat the line as at its limit\.$/,
    );
  });

  it('is stations between those read where what lies between them is what is not known', () => {
    // Four stations on a straight bottom, read to 0.1 mm: no repeat shows what lies between.
    const found = read(() => 0, { spacing: 500, repeatability: 0.05 });
    const [first] = nextStepsOf(found.line, found.all, 'mm');
    expect(first.kind).toBe('stations');
    expect(first.stations.length).toBeGreaterThan(0);
    for (const { mm } of first.stations) {
      expect(mm % 10).toBe(0);
      expect(mm % 500).not.toBe(0);
    }
    expect(nextActs(found.line, found.all).map(({ kind }) => kind)).not.toContain('lay again');
  });

  it('is a finer gauge where rounding is what blurs, and never where repeats show more scatter than that', () => {
    const gap = bump(1.1, 200, 1300);
    const kinds = ({ line, all }: Read) => nextActs(line, all).map(({ kind }) => kind);
    expect(kinds(read(gap, { division: 0.8, repeatability: 0.05 }))).toContain('finer gauge');
    const stated = read(gap, { division: 0.1, repeatability: 0.5 });
    expect(stepsFor(stated).length).toBeGreaterThan(0);
    expect(kinds(stated)).not.toContain('finer gauge');
  });

  it('is to go back to a station that was put off, where that decides', () => {
    // The hollow lies about the one station that a stand stood in the way of.
    const found = read(bump(2.6, 500, 1000), { spacing: 125, later: [750], repeatability: 0.1 });
    const { outcome } = found.line;
    expect(outcome.ok && outcome.judgement.verdict).toEqual(['undecided']);
    const back = nextStepsOf(found.line, found.all, 'mm').find(({ kind }) => kind === 'put off');
    expect(back?.words).toMatch(/^Read 750 mm, which was put off: decides it /);
    expect(back?.stations.map(({ mm }) => mm)).toEqual([750]);
  });

  it('is no station at a place that is void', () => {
    const stations = stationsTo(1500, 500);
    const placement = placementOf(stations, () => 0, {
      voids: [{ station: typed(750), reason: 'strake', source: 'void' }],
    });
    const all = assess(surveyOf([lineOf([placement])]), { repeatability: 0.05 });
    for (const act of nextActs(all.lines[0], all)) {
      expect(act.stations.map(({ mm }) => mm)).not.toContain(750);
    }
  });

  it('names places as the person marks them, in halves of an inch', () => {
    const all = assess(sample('inches-wide.csv'));
    const open = all.lines.filter((l) => nextSteps(l, all, 'in').length > 0);
    expect(open.map(({ line }) => line.name)).toContain('S30in');
    for (const line of open) {
      for (const step of nextSteps(line, all, 'in')) {
        // A gauge is called as it is marked.
        expect(step.replace(/ with a gauge of [^:]+/, '')).not.toMatch(/\d mm|\d\.\d/);
      }
    }
  });

  it('says how many stations are missing where too few were read', () => {
    expect(stepsFor(read(() => 0, { spacing: 1500 }))).toEqual([
      'Read at least 2 more stations: 4 are the least a verdict can rest on, 10 or more are usual.',
    ]);
    expect(stepsFor(read(() => 0, { spacing: 750 }))).toEqual([
      'Read at least 1 more station: 4 are the least a verdict can rest on, 10 or more are usual.',
    ]);
  });
});
