import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { writeCsv } from '../../../src/survey/csv/writeCsv.ts';
import { entriesFromSurvey } from '../../../src/survey/entriesFromSurvey.ts';
import { readSag, writeSag } from '../../../src/survey/edge/sagText.ts';
import { hullOf } from '../../../src/survey/fold/hullOf.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { anySurvey as anyFile } from '../csv/anySurvey.ts';
import { anySurvey, bare, entriesOf, folded, mm } from '../fold/samples.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { surveyIn, verdicts } from '../madeSurveys.ts';
import { withEdges } from './anyEdge.ts';

/** Edges are made for the placements along lines. */
const alongLines = ({ across: _across, ...survey }: Survey): Survey => survey;

const bowed = readFileSync(
  new URL('../../../fixtures/samples/stories/bowed-edge.csv', import.meta.url),
  'utf8',
);

/** What a scribed-line reversal of that edge reads in 1/64 in: it is hollow by up to 1/16 in between its ends. */
const CHECK = `# edge: sixty-inch bar
# aft end: 0 in
# aft mark: A
# edge face: marked
# edge check: reversal 2026-03-01
# edge check read to: 1/64 in
# edge check at: 0 in: 0 in
# edge check at: 6 in: -4/64 in
# edge check at: 12 in: -5/64 in
# edge check at: 18 in: -7/64 in
# edge check at: 24 in: -8/64 in
# edge check at: 30 in: -9/64 in
# edge check at: 36 in: -8/64 in
# edge check at: 42 in: -7/64 in
# edge check at: 48 in: -5/64 in
# edge check at: 54 in: -3/64 in
# edge check at: 60 in: 0 in
`;

const inch = 25.4;
const asked = { tolerance: inch / 32, over: 60 * inch };

describe('the story of a bowed edge', () => {
  it('with its check entered: the hook is gone from every line, and so is what every line shared', () => {
    const before = assess(surveyIn(bowed), asked);
    expect(Object.values(verdicts(before))).toEqual(['hook', 'hook', 'hook', 'hook']);
    const after = assess(surveyIn(CHECK + bowed), asked);
    for (const verdict of Object.values(verdicts(after)))
      expect(verdict).not.toMatch(/hook|rocker/);
    expect(after.remarks.map((r) => r.kind)).not.toContain('same departure on every line');
    expect(after.edges).toMatchObject([
      { name: 'sixty-inch bar', state: 'checked', date: '2026-03-01', corrected: 4 },
    ]);
    expect(after.edges[0].words[0]).toMatch(/away from the hull over 60 in/);
  });

  it('with a bound stated that could hold it: nothing is proven any more', () => {
    const found = assess(surveyIn(`# edge bound: 1/8 in over 60 in\n${bowed}`), asked);
    expect(found.edges).toMatchObject([{ name: 'straightedge', state: 'stated' }]);
    expect(new Set(Object.values(verdicts(found)))).toEqual(new Set(['undecided']));
    const same = found.remarks.find((r) => r.kind === 'same departure on every line');
    expect(same?.words).toMatch(/whose error is stated and not checked/);
  });
});

describe('what is known of an edge', () => {
  it('comes back from a CSV file as it went in', () => {
    fc.assert(
      fc.property(anyFile.chain(withEdges), (survey) => {
        const read = readCsv(writeCsv(survey));
        if (!read.ok) throw new Error(JSON.stringify(read.faults));
        expect(read.survey.edges).toEqual(survey.edges);
        expect(read.survey.lines[0].placements[0].edge).toBe(survey.lines[0].placements[0].edge);
      }),
      { seed: 20265, numRuns: 60 },
    );
  });

  it('comes back from the entries of a field book, whatever their order', () => {
    fc.assert(
      fc.property(anySurvey.map(alongLines).chain(withEdges), (survey) => {
        const state = folded([...entriesOf(entriesFromSurvey(survey))].reverse());
        expect(bare(state.survey)).toEqual(bare(survey));
        expect([...state.setAside, ...state.disagreements]).toEqual([]);
      }),
      { seed: 20266, numRuns: 100 },
    );
  });

  it('is not stated a second time where the hull has an edge of which the same is known', () => {
    const survey = surveyIn(CHECK + bowed);
    const entries = entriesOf(entriesFromSurvey(survey));
    const again = entriesFromSurvey(survey, { hull: hullOf(entries) });
    expect(again.filter(({ kind }) => kind === 'straightedge' || kind === 'edge check')).toEqual(
      [],
    );
    expect(again.filter(({ kind }) => kind === 'placement')).toHaveLength(4);
  });

  it('is its sag in any of the ways it is written', () => {
    for (const [text, sag] of [
      [
        '25 mm by 75 mm aluminium',
        { from: 'section', width: 25, depth: 75, material: 'aluminium' },
      ],
      ['0.17 mm between 2000 mm', { from: 'measured', sag: 0.17, between: 2000 }],
      ['5.06 kg/m and 60600 N m2', { from: 'stiffness', weight: 5.06, stiffness: 60600 }],
      ['0.001 kg/m at 100 N', { from: 'tension', weight: 0.001, tension: 100 }],
    ] as const) {
      expect(readSag(text)).toEqual(sag);
      expect(readSag(writeSag(sag, 'mm'))).toEqual(sag);
    }
    expect(readSag('1 in by 3 in, wall 1/8 in, steel')).toMatchObject({ wall: 25.4 / 8 });
    for (const text of [
      '',
      'oak',
      '25 by 75',
      '0 mm between 2 m',
      '1 kg/m at 0 N',
      'NaN kg/m at 1 N',
    ]) {
      expect(readSag(text)).toBeUndefined();
    }
  });
});

describe('a check of three edges', () => {
  const names = ['first', 'second', 'third'];
  const edges = names.map((name) => draftOf('straightedge', { name }, { ref: name }));
  const at = [0, 250, 500, 750, 1000];
  const body = {
    edge: 'first',
    second: 'second',
    third: 'third',
    method: 'three edges' as const,
    readTo: mm(0.1),
    points: at.map((u) => ({
      at: mm(u),
      withSecond: mm(0.1 + u / 1e4),
      secondWithThird: mm(0.2),
      withThird: mm(0.3),
    })),
  };

  it('tells of all three, each with its own gaps first', () => {
    const drafts = [...edges, draftOf('edge check', body)];
    const { straightedges } = hullOf(entriesOf(drafts));
    const last = straightedges.map(({ checks }) => checks?.[0].points.at(-1));
    expect(last).toEqual([
      { at: 1000, withSecond: 0.2, secondWithThird: 0.2, withThird: 0.3 },
      { at: 1000, withSecond: 0.2, secondWithThird: 0.3, withThird: 0.2 },
      { at: 1000, withSecond: 0.3, secondWithThird: 0.2, withThird: 0.2 },
    ]);
  });

  it('is set aside where its edge has not arrived, and refused where a gap is missing', () => {
    const entries = entriesOf([draftOf('edge check', { ...body, edge: 'nowhere' })]);
    expect(hullOf(entries).setAside).toMatchObject([
      { kind: 'edge check', reason: 'its straightedge does not stand or has not arrived' },
    ]);
    const points = [{ at: mm(0), withSecond: mm(0) }];
    expect(() => draftOf('edge check', { ...body, points })).toThrow(/what the method reads there/);
  });
});

describe('a file’s lines about an edge', () => {
  const rows = 'side,offset_mm,station_mm,gap_mm\nport,450,0,0\nport,450,500,1\n';
  const faultsOf = (...lines: string[]) => {
    const read = readCsv(`${lines.map((line) => `# ${line}\n`).join('')}${rows}`);
    return read.ok ? [] : read.faults;
  };

  it('refuse a check with too few points, at the check’s own row, and say how many are needed', () => {
    const found = faultsOf(
      'edge length: 1500 mm',
      'edge check: reversal 2026-03-01',
      'edge check read to: 0.5 mm',
      'edge check at: 0 mm: 0 mm',
      'edge check at: 700 mm: 1 mm',
    );
    expect(found).toMatchObject([{ row: 2, column: 'edge check' }]);
    expect(found[0].expected).toMatch(/has 2 points\. At least 5 points/);
  });

  it.each([
    [['edge check: end for end 2026-03-01'], 1, /end for end is no check/],
    [['edge check: by eye'], 1, /reversal or three edges/],
    [['edge check at: 0 mm: 0 mm'], 1, /an "edge check:" line before it/],
    [['edge check: reversal', 'edge check at: 0 mm: NaN'], 2, /how far the lines stand apart/],
    [['edge check: three edges', 'edge check at: 0 mm: 1 mm; 1 mm'], 2, /three gaps/],
    [['edge check: reversal'], 1, /what it was read to/],
    [['edge bound: 0.3 mm'], 1, /over a length/],
    [['edge bound: 1e9 mm over 1 m'], 1, /over a length/],
    [['edge type: rope'], 1, /bar or taut string or laser line/],
    [['edge sag: much'], 1, /a section such as/],
    [['edge face: inner'], 1, /marked or other/],
  ])('%j are a fault at row %d', (lines, row, expected) => {
    const found = faultsOf(...lines).find((each) => each.row === row);
    expect(found?.expected).toMatch(expected);
  });

  it('name the point that cannot be, by its row', () => {
    const points = [0, 300, 600, 900, 1200, 9000].map((u) => `edge check at: ${u} mm: 0.1 mm`);
    const found = faultsOf(
      'edge length: 1500 mm',
      'edge check: reversal',
      'edge check read to: 0.5 mm',
      ...points,
    );
    expect(found).toMatchObject([{ row: 9 }]);
    expect(found[0].expected).toMatch(/lies past the end of an edge 1500 mm long/);
  });

  it('speak of the edge last named, and before that of the file’s own', () => {
    const survey = surveyIn(
      `# edge: long bar\n# edge bound: 1 mm over 1 m\n# edge known as: other\n# edge type: taut string\n${rows}`,
    );
    expect(survey.edges).toEqual([
      { name: 'long bar', bound: { size: 1, over: 1000 } },
      { name: 'other', kind: 'taut string' },
    ]);
    expect(survey.lines[0].placements[0].edge).toBe('long bar');
  });
});
