import { describe, expect, it } from 'vitest';
import { assess, type AssessOptions } from '../../src/survey/assess.ts';
import type { Remark } from '../../src/survey/assessment.ts';
import type { Line, Placement, Side, Survey } from '../../src/survey/survey.ts';
import {
  besidesEdge,
  bump,
  lineOf,
  placementOf,
  readingOf,
  stationsTo,
  surveyOf,
  unsaid,
} from './madeSurveys.ts';

const stations = stationsTo(1500, 100);
const straight = () => 0;
const hollow = bump(3, 200, 1000);

function lineAt(side: Side, offset: number, gap: (x: number) => number): Line {
  const name = `${side.charAt(0).toUpperCase()}${offset}`;
  return lineOf([placementOf(stations, gap, { id: `${name}/1/1` })], {
    id: name,
    name,
    side,
    offset,
  });
}

function remarksOf(lines: readonly Line[], more: Partial<Survey> = {}, options?: AssessOptions) {
  return besidesEdge(assess(surveyOf(lines, more), options));
}

function kinds(remarks: readonly Remark[]): string[] {
  return remarks.map((r) => r.kind);
}

describe('the same departure on every line', () => {
  const all = [lineAt('port', 300, hollow), lineAt('port', 700, hollow)];
  const third = lineAt('starboard', 300, hollow);

  it('is remarked on three lines or more, and names the straightedge before the builder', () => {
    const [remark, ...more] = remarksOf([...all, third]);
    expect(more).toEqual([]);
    expect(remark).toMatchObject({ about: 'survey', kind: 'same departure on every line' });
    expect(remark.words.indexOf('straightedge')).toBeGreaterThan(0);
    expect(remark.words.indexOf('straightedge')).toBeLessThan(remark.words.indexOf('builder'));
  });

  it('is not remarked on two lines, nor where one line is straight, nor where one bends the other way', () => {
    expect(kinds(remarksOf(all))).not.toContain('same departure on every line');
    for (const odd of [straight, (x: number) => -hollow(x)]) {
      const found = kinds(remarksOf([...all, lineAt('starboard', 300, odd)]));
      expect(found).not.toContain('same departure on every line');
    }
  });

  it('is not remarked where nothing departs', () => {
    const flat = [300, 500, 700].map((offset) => lineAt('port', offset, straight));
    expect(remarksOf(flat)).toEqual([]);
  });
});

describe('port and starboard alike', () => {
  const pair = [lineAt('port', 700, hollow), lineAt('starboard', 700, hollow)];
  const inner = [lineAt('port', 300, straight), lineAt('starboard', 300, straight)];

  it('are remarked where each port line departs like its starboard line', () => {
    expect(kinds(remarksOf([...inner, ...pair]))).toEqual(['alike port and starboard']);
  });

  it('are paired by offsets within 10 mm', () => {
    const near = [pair[0], lineAt('starboard', 708, hollow), ...inner];
    expect(kinds(remarksOf(near))).toEqual(['alike port and starboard']);
    const far = [pair[0], lineAt('starboard', 712, hollow), ...inner];
    expect(kinds(remarksOf(far))).toEqual([]);
  });

  it('are not remarked where one side only departs, or a port line has no fellow', () => {
    const oneSide = [...inner, pair[0], lineAt('starboard', 700, straight)];
    expect(remarksOf(oneSide)).toEqual([]);
    expect(remarksOf([...inner, ...pair, lineAt('port', 900, hollow)])).toEqual([]);
  });
});

describe('a hull that stood on a trailer or bunks', () => {
  const bent = [lineAt('port', 300, hollow)];
  const [remark] = remarksOf(bent, { support: [{ what: 'Trailer, two bunks' }] });

  it('may recover afloat: wait before anything is filled', () => {
    expect(remark.kind).toBe('may recover afloat');
    expect(remark.words).toContain('before anything is filled');
    expect(kinds(remarksOf(bent, { conditions: { support: 'bunks' } }))).toEqual([
      'may recover afloat',
    ]);
  });

  it('is not remarked where it stood on stands, where nobody said, or where it is proven fair', () => {
    expect(remarksOf(bent, { support: [{ what: 'stands and keel blocks' }] })).toEqual([]);
    expect(remarksOf(bent)).toEqual([]);
    const fair = [lineAt('port', 300, straight)];
    expect(remarksOf(fair, { support: [{ what: 'trailer' }] })).toEqual([]);
  });
});

describe('blocks', () => {
  const onBlocks = (lift: (x: number) => number, more: Partial<Placement> = {}) => [
    lineOf([
      placementOf(stations, (x) => 20 + lift(x), {
        held: 'blocks',
        block: 20,
        blocksAt: [150, 1350],
        ...more,
      }),
    ]),
  ];

  it('that slipped are named with their place and both heights', () => {
    expect(remarksOf(onBlocks((x) => 3 - x / 500))).toEqual([
      {
        about: 'placement',
        line: 'P450',
        kind: 'slipped block',
        words:
          'P450, placement 1: at the block at 150 mm the readings say 22.7 mm, the block is 20 mm. A block that slipped, or its height mistyped?',
      },
    ]);
  });

  it('are spoken of in the unit that the person works in', () => {
    const found = remarksOf(
      onBlocks((x) => 3 - x / 450, { block: 19.05, blocksAt: [152.4, 1346.2] }),
      { workUnit: 'in' },
    );
    expect(found.map((r) => r.words)).toEqual([
      'P450, placement 1: at the block at 6 in the readings say 29/32 in, the block is 3/4 in. A block that slipped, or its height mistyped?',
    ]);
  });

  it('are both named where the height was mistyped', () => {
    expect(remarksOf(onBlocks(() => 0, { block: 25 }))).toHaveLength(2);
  });

  it('are left alone within 1 mm or four divisions, whichever is more', () => {
    expect(remarksOf(onBlocks(() => 1))).toEqual([]);
    expect(remarksOf(onBlocks(() => 1.1))).toHaveLength(2);
    expect(remarksOf(onBlocks(() => 2, { division: 0.5 }))).toEqual([]);
  });

  it('are left alone where no reading lies near enough on either side, or nobody said where they stand', () => {
    const somewhere = unsaid(onBlocks(() => 5)[0].placements[0], 'blocksAt');
    expect(remarksOf([lineOf([somewhere])])).toEqual([]);
    const afar = onBlocks(() => 5, { blocksAt: [-50, 1550] });
    expect(remarksOf(afar)).toEqual([]);
  });
});

describe('a resting edge without contact', () => {
  it('is asked about once, with the least reading, in the person’s unit', () => {
    const lifted = [lineOf([placementOf(stations, (x) => hollow(x) + 0.4)])];
    expect(remarksOf(lifted)).toEqual([
      {
        about: 'placement',
        line: 'P450',
        kind: 'no contact',
        words:
          'P450, placement 1: no reading of 0 on a resting edge (the least is 0.4 mm). Touching between stations, or slipped?',
      },
    ]);
    const inches = [lineOf([placementOf(stations, (x) => hollow(x) + 25.4 / 32)])];
    expect(remarksOf(inches, { workUnit: 'in' })[0].words).toContain('(the least is 1/32 in)');
  });

  it('is asked about once though the line is judged in parts', () => {
    const apart = lineOf([
      placementOf(stationsTo(700, 100), () => 0),
      placementOf(
        stations.filter((x) => x > 700),
        () => 0.5,
        { id: 'P450/2/1', name: '2' },
      ),
    ]);
    const found = remarksOf([apart]);
    expect(kinds(found).filter((k) => k === 'no contact')).toHaveLength(1);
    expect(found.at(-1)?.words).toMatch(/^P450, placement 2: no reading of 0/);
  });

  it('may stand on blocks that nobody stated where every gap is large', () => {
    const high = [lineOf([placementOf(stations, (x) => hollow(x) + 18)])];
    expect(remarksOf(high).map((r) => r.words)).toEqual([
      'P450, placement 1: no reading of 0 on a resting edge (the least is 18 mm). On blocks that nobody stated?',
    ]);
  });

  it('is not asked about where the least reading is no more than the division of the gauge', () => {
    const near = (least: number) => [lineOf([placementOf(stations, (x) => hollow(x) + least)])];
    expect(remarksOf(near(0.1))).toEqual([]);
    expect(kinds(remarksOf(near(0.2)))).toEqual(['no contact']);
  });

  it('is not asked about with a reading of 0, on blocks, or with fewer than four readings', () => {
    expect(remarksOf([lineOf([placementOf(stations, hollow)])])).toEqual([]);
    const lifted = placementOf(stations, () => 20, { held: 'blocks', block: 20 });
    expect(remarksOf([lineOf([lifted])])).toEqual([]);
    const three = placementOf([0, 100, 200], () => 0.5);
    expect(kinds(remarksOf([lineOf([three])]))).not.toContain('no contact');
  });
});

describe('readings ahead of the limit', () => {
  it('are counted: one is a reading, two are readings', () => {
    const words = (limit: number) => remarksOf([lineAt('port', 300, straight)], { limit })[0].words;
    expect(words(1400)).toBe(
      'P300: 1 reading ahead of the limit of the straight run: drawn, not judged.',
    );
    expect(words(1300)).toBe(
      'P300: 2 readings ahead of the limit of the straight run: drawn, not judged.',
    );
  });

  it('are not remarked where there is none', () => {
    expect(remarksOf([lineAt('port', 300, straight)])).toEqual([]);
    const one = placementOf([], () => 0, { readings: [readingOf(1500.4, 0)] });
    expect(remarksOf([lineOf([one])])).toEqual([]);
  });
});
