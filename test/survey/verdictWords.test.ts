import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Judgement } from '../../src/fit/judge.ts';
import type { Section } from '../../src/fit/sections.ts';
import { assess } from '../../src/survey/assess.ts';
import type { Judged, LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { lineWords, verdictWord } from '../../src/survey/verdictWords.ts';
import { bump, lineOf, placementOf, stationsTo, surveyOf } from './madeSurveys.ts';

function section(from: number, to: number, leaning: Section['leaning'], probability = 1): Section {
  const proven = probability >= 0.975;
  return { from, to, leaning, proven, class: proven ? leaning : 'undecided', probability };
}

const nothing = { size: 0.2, u: 0.1, at: 1000, from: 900, to: 1100 };

function judged(judgement: Partial<Judgement>, more: Partial<Judged> = {}): Judged {
  return {
    ok: true,
    judgement: {
      verdict: ['fair'],
      told: 'hollows first',
      hollow: nothing,
      hump: nothing,
      sections: [section(0, 1500, 'fair')],
      fairness: 1,
      profile: [],
      reference: { middle: 750, level: 0, slope: 0 },
      judged: [0, 1500],
      ...judgement,
    },
    systematic: [],
    spacing: { narrowest: 100, widest: 100 },
    readingUncertainty: 0.2,
    division: 0.5,
    ...more,
  };
}

function saying(outcome: LineAssessment['outcome'], more: Partial<LineAssessment> = {}) {
  const line: LineAssessment = {
    line: lineOf([placementOf([], () => 0)]),
    part: 1,
    parts: 1,
    readings: 16,
    stations: 16,
    outcome,
    points: [],
    ...more,
  };
  const all: SurveyAssessment = {
    survey: surveyOf([line.line]),
    tolerance: { gap: 1.5, over: 1500, houseDefault: true },
    limit: { mm: 1500, houseDefault: true },
    repeatability: { mm: 0.25, from: 'house default' },
    edges: [],
    lines: [line],
    remarks: [],
  };
  return { line, all, words: lineWords(line, all) };
}

const deepHollow = { size: 2.13, u: 0.12, at: 612, from: 0, to: 1500 };
const highHump = { size: 3.4, u: 0.21, at: 1204, from: 910, to: 1500 };
const hooked = judged({
  verdict: ['hook'],
  hollow: deepHollow,
  sections: [section(0, 180, 'fair'), section(180, 902, 'hook'), section(902, 1500, 'fair')],
  tail: { angle: 0.351, u: 0.05, over: 300 },
  fairness: 0,
});

describe('a verdict in words', () => {
  it('says of a hook how deep, where, under what, how the tail turns, and that it is proven', () => {
    expect(saying(hooked).words).toEqual({
      word: 'Hook',
      where: 'port, 450 mm from the keel',
      findings: [
        'Hollow 2.1 mm ± 0.3 mm deep near 610 mm, measured from a straight line laid from 0 to 1500 mm; beyond tolerance from 180 to 900 mm forward of the transom.',
        'Over the last 300 mm the bottom turns down by 0.4° ± 0.1°, like a fixed tab.',
      ],
      proof: 'Proven.',
      blind: 'A feature shorter than about 300 mm might not show.',
      next: [],
    });
  });

  it('says the same in inches to those who ask for them', () => {
    const { line, all } = saying(hooked);
    expect(lineWords(line, all, 'in')).toMatchObject({
      where: 'port, 17 3/4 in from the keel',
      findings: [
        'Hollow 5/64 in ± 1/64 in deep near 24 in, measured from a straight line laid from 0 to 59 in; beyond tolerance from 7 to 35 1/2 in forward of the transom.',
        'Over the last 12 in the bottom turns down by 0.4° ± 0.1°, like a fixed tab.',
      ],
      blind: 'A feature shorter than about 12 in might not show.',
    });
  });

  it('says of a rocker how high, and that the tail turns up', () => {
    const { words } = saying(
      judged(
        {
          verdict: ['rocker'],
          told: 'humps first',
          hump: highHump,
          sections: [section(0, 1000, 'fair'), section(1000, 1500, 'rocker')],
          tail: { angle: -0.9, u: 0.06, over: 300 },
          fairness: 0,
        },
        { spacing: { narrowest: 50, widest: 200 } },
      ),
    );
    expect(words).toEqual({
      word: 'Rocker',
      where: 'port, 450 mm from the keel',
      findings: [
        'Hump 3.4 mm ± 0.5 mm high near 1200 mm, measured from a straight line laid from 910 to 1500 mm; beyond tolerance from 1000 to 1500 mm forward of the transom.',
        'Over the last 300 mm the bottom turns up by 0.9° ± 0.2°.',
      ],
      proof: 'Proven.',
      blind:
        'A feature shorter than about 150 mm (600 mm where stations are farthest apart) might not show.',
      next: [],
    });
  });

  it('says of hook and rocker both, each where it is', () => {
    const { words } = saying(
      judged({
        verdict: ['hook', 'rocker'],
        told: 'both as they stand',
        hollow: deepHollow,
        hump: highHump,
        sections: [section(0, 900, 'hook'), section(900, 1500, 'rocker')],
        fairness: 0,
      }),
    );
    expect(words.word).toBe('Hook and rocker');
    expect(words.findings).toEqual([
      'Hollow 2.1 mm ± 0.3 mm deep near 610 mm, measured from a straight line laid from 0 to 1500 mm; beyond tolerance from 0 to 900 mm forward of the transom.',
      'Hump 3.4 mm ± 0.5 mm high near 1200 mm, measured from a straight line laid from 910 to 1500 mm; beyond tolerance from 900 to 1500 mm forward of the transom.',
    ]);
    expect(words.proof).toBe('Proven.');
  });

  it('says of a second hollow where it is, without the size of the first, and that it is not proven', () => {
    const { words } = saying(
      judged({
        verdict: ['hook'],
        hollow: deepHollow,
        sections: [
          section(180, 900, 'hook'),
          section(900, 1200, 'fair'),
          section(1200, 1400, 'hook', 0.7),
        ],
      }),
    );
    expect(words.findings[1]).toBe(
      'Perhaps a hollow, not proven: from 1200 to 1400 mm forward of the transom.',
    );
    expect(words.proof).toBe('Proven.');
    expect(words.next).toEqual([]);
  });

  it('says of a fair line the most that it departs, and what is allowed', () => {
    expect(saying(judged({ hump: { ...nothing, size: 0.84 } })).words).toEqual({
      word: 'Fair',
      where: 'port, 450 mm from the keel',
      findings: [
        'From 0 to 1500 mm forward of the transom the largest departure is 0.8 mm ± 0.2 mm proud, near 1000 mm; 1.5 mm is allowed.',
      ],
      proof: 'Proven fair.',
      blind: 'A feature shorter than about 300 mm might not show.',
      next: [],
    });
  });

  it('says of an undecided line that leans to a hook that it is perhaps one, and what would decide it', () => {
    const { words } = saying(
      judged({
        verdict: ['undecided'],
        hollow: { ...deepHollow, size: 1.9, u: 0.3 },
        sections: [
          section(0, 180, 'fair', 0.9),
          section(180, 902, 'hook', 0.9),
          section(902, 1500, 'fair'),
        ],
        fairness: 0.1,
      }),
    );
    expect(words).toEqual({
      word: 'Undecided',
      where: 'port, 450 mm from the keel',
      findings: [
        'Perhaps a hollow, not proven: 1.9 mm ± 0.6 mm deep near 610 mm, measured from a straight line laid from 0 to 1500 mm; perhaps beyond tolerance from 180 to 900 mm forward of the transom.',
      ],
      proof: 'Not proven either way: more likely a hook than fair.',
      blind: 'A feature shorter than about 300 mm might not show.',
      next: [
        // No readings stand behind this judgement, so that nothing can be worked out of them.
        'The deepest departure is so near the tolerance that neither a few stations, nor repeats, nor a finer gauge would be likely to decide it: agree what counts, or treat the line as at its limit.',
      ],
    });
  });

  it('says of an undecided line that leans to fair that it is not proven so', () => {
    const { words } = saying(
      judged({
        verdict: ['undecided'],
        hollow: { ...deepHollow, size: 0.9, u: 0.4 },
        sections: [section(0, 1500, 'fair', 0.8)],
        fairness: 0.8,
      }),
    );
    expect(words.word).toBe('Undecided');
    expect(words.findings).toEqual([
      'From 0 to 1500 mm forward of the transom the largest departure is 0.9 mm ± 0.8 mm hollow, near 610 mm; not proven to stay within the 1.5 mm allowed.',
    ]);
    expect(words.proof).toBe('Not proven either way: more likely fair than not.');
    expect(words.next.length).toBeGreaterThan(0);
  });

  it('says where too few stations were read that nothing can be said, and how many are missing', () => {
    const few = { ok: false, reason: 'too few readings', n: 3, needed: 4 } as const;
    expect(saying(few, { readings: 3, stations: 3 }).words).toEqual({
      word: 'Too few readings',
      where: 'port, 450 mm from the keel',
      findings: ['3 usable stations within the limit; 4 are needed.'],
      proof: 'Nothing can be said.',
      blind: '',
      next: [
        'Read at least 1 more station: 4 are the least a verdict can rest on, 10 or more are usual.',
      ],
    });
    expect(saying({ ...few, n: 1 }).words.findings).toEqual([
      '1 usable station within the limit; 4 are needed.',
    ]);
  });

  it('says nothing of how large where the departure lies while it is not told from none', () => {
    const { words } = saying(judged({ hump: { ...nothing, size: 0.15 } }));
    expect(words.findings).toEqual([
      'From 0 to 1500 mm forward of the transom the largest departure is 0.2 mm ± 0.2 mm hollow; 1.5 mm is allowed.',
    ]);
  });

  it('says of a fair line read over less than the edge would span that no more than that is proven', () => {
    expect(saying(judged({ judged: [800, 1500] })).words.proof).toBe(
      'Proven fair over the 700 mm that were read, and no farther: a straightedge of 1500 mm would span more.',
    );
    // A line judged to a nearer limit was read as far as anybody asked.
    const { line, all } = saying(judged({ judged: [0, 900] }));
    const near = { ...all, limit: { mm: 900, houseDefault: false } };
    expect(lineWords(line, near).proof).toBe('Proven fair.');
  });

  it('speaks of the tab that a tail acts like only where a hook is proven', () => {
    const { words } = saying(judged({ tail: { angle: 0.2, u: 0.05, over: 300 } }));
    expect(words.findings[1]).toBe('Over the last 300 mm the bottom turns down by 0.2° ± 0.1°.');
  });

  it('says what is proven before what may be', () => {
    const { words } = saying(
      judged({
        verdict: ['hook'],
        hollow: deepHollow,
        sections: [section(0, 150, 'hook', 0.7), section(180, 902, 'hook')],
      }),
    );
    expect(words.findings[0]).toMatch(/^Hollow 2\.1 mm/);
    expect(words.findings[1]).toBe(
      'Perhaps a hollow, not proven: from 0 to 150 mm forward of the transom.',
    );
  });

  it('does not call enough stations that no profile fits too few', () => {
    const unfit = { ok: false, reason: 'too few readings', n: 15, needed: 4 } as const;
    expect(saying(unfit).words).toMatchObject({
      word: 'Cannot be fitted',
      findings: ['No profile fits these figures.'],
      next: ['Look for a station, tolerance or gauge division that was mistyped.'],
    });
  });

  it('says which part of a line it speaks of', () => {
    expect(saying(hooked, { part: 2, parts: 3 }).words.where).toBe(
      'port, 450 mm from the keel (part 2 of 3)',
    );
  });

  it('says nothing of a tail that may as well be straight', () => {
    const { words } = saying(judged({ tail: { angle: 0.1, u: 0.06, over: 300 } }));
    expect(words.findings).toHaveLength(1);
  });

  it('is one capital letter and plain words', () => {
    expect(verdictWord({ verdict: ['hook'] })).toBe('Hook');
    expect(verdictWord({ verdict: ['hook', 'rocker'] })).toBe('Hook and rocker');
    expect(verdictWord({ verdict: ['undecided'] })).toBe('Undecided');
  });
});

describe('undecided', () => {
  it('is never worded as fair, nor anything proven as undecided', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        fc.integer({ min: -30, max: 30 }),
        fc.integer({ min: 200, max: 1400 }),
        fc.integer({ min: 1, max: 8 }),
        (tenths, width, u) => {
          const gap = bump(tenths / 10, 750 - width / 2, 750 + width / 2);
          const survey = surveyOf([lineOf([placementOf(stationsTo(1500, 100), gap)])]);
          const found = assess(survey, { repeatability: u / 10 });
          const [line] = found.lines;
          if (!line.outcome.ok) throw new Error('a judged line expected');
          const { verdict } = line.outcome.judgement;
          const { word, proof, findings, next } = lineWords(line, found);
          seen.add(word);
          if (verdict.includes('undecided')) {
            expect(word).toBe('Undecided');
            expect(proof).toMatch(/^Not proven/);
            expect(findings.join(' ')).toMatch(/not proven/i);
            expect(findings.join(' ')).not.toMatch(/is allowed/i);
            expect(next.length).toBeGreaterThan(0);
          } else {
            expect(word).not.toContain('Undecided');
            expect(proof).toBe(verdict.includes('fair') ? 'Proven fair.' : 'Proven.');
            expect(next).toEqual([]);
          }
        },
      ),
      { seed: 20261105, numRuns: 60 },
    );
    for (const word of ['Hook', 'Rocker', 'Fair', 'Undecided']) expect(seen).toContain(word);
  }, 60_000);
});
