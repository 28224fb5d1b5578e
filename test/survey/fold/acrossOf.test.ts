import { readFileSync } from 'node:fs';

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import fixture from '../../../fixtures/book/across-survey.json' with { type: 'json' };
import type { Entry } from '../../../src/book/entry.ts';
import { readEntry } from '../../../src/book/envelope.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import { entriesFromSurvey } from '../../../src/survey/entriesFromSurvey.ts';
import { entriesOf, folded } from './samples.ts';

const entries = fixture.entries.map((value): Entry => {
  const read = readEntry(value);
  if (!read.ok) throw new Error(read.reason);
  return read.entry;
});
const KEY = 's6s7s8s9sas2';
const fold = (list: readonly Entry[]) => folded(list, KEY);
const changed = (kind: string, change: (body: object) => object) =>
  entries.map((entry) =>
    entry.kind === kind ? { ...entry, body: change(entry.body as object) } : entry,
  );

describe('placements across in a fold', () => {
  it('keep what was read, void and put off, each on its line, with how the edge was held', () => {
    const { survey, setAside, disagreements } = fold(entries);
    expect([setAside, disagreements]).toEqual([[], []]);
    const name = new Map(survey.lines.map((line) => [line.id, line.name]));
    const [whole] = survey.across ?? [];
    const { side, direction, block, blockFore, edge, edgeLength, division, supportPeriod } = whole;
    expect([side, direction, block, blockFore]).toEqual(['port', 'athwart', 20, 21]);
    expect([edge, edgeLength, division, supportPeriod]).toEqual(['short bar', 580, 0.5, 0]);
    expect(whole.readings.map(({ line, gap, look }) => [name.get(line), gap.mm, look])).toEqual([
      ['P150mm', 20.5, 1],
      ['P450mm', 21, 2],
    ]);
    expect(whole.voids.map(({ line, reason }) => [name.get(line), reason])).toEqual([
      ['P300mm', 'through-hull'],
    ]);
    expect(whole.later.map(({ line }) => name.get(line))).toEqual(['P450mm']);
  });

  it.each<[string, readonly Entry[], RegExp]>([
    [
      'a reading that names no line',
      changed('reading', ({ ...body }) => ({ ...body, line: undefined })).map(
        (entry) => JSON.parse(JSON.stringify(entry)) as Entry,
      ),
      /it does not say its line/,
    ],
    [
      'a reading on a line that has not arrived',
      entries.filter(({ body }) => (body as { name?: string }).name !== 'P150mm'),
      /its line does not stand or has not arrived/,
    ],
    [
      'a reading on a line of the other side',
      changed('line', (body) => ({ ...body, side: 'starboard' })),
      /its line is not to port/,
    ],
    [
      'readings whose placement has not arrived',
      entries.filter(({ kind }) => kind !== 'placement across'),
      /placement does not stand or has not arrived/,
    ],
    [
      'an import’s row on a line that it does not list',
      changed('import', (body) => ({ ...body, lines: [] })),
      /its line does not stand/,
    ],
  ])('set aside %s, and say why', (_, list, reason) => {
    const { setAside } = fold(list);
    expect(setAside.length).toBeGreaterThan(0);
    for (const { reason: why } of setAside) expect(why).toMatch(reason);
  });

  it('count without a straightedge or a gauge that has not arrived, and are named by their own kind', () => {
    const { survey, setAside } = fold(entries.filter(({ kind }) => kind !== 'straightedge'));
    expect(survey.across?.[0]?.readings).toHaveLength(2);
    expect(setAside.map(({ kind }) => kind)).toEqual(['placement across']);
    expect(setAside[0]?.reason).toMatch(/its straightedge does not stand/);
    const gaugeless = fold(changed('reading', (body) => ({ ...body, gauge: 'h:0:none' })));
    expect(gaugeless.survey.across?.[0]?.readings).toHaveLength(2);
    expect(gaugeless.setAside.map(({ reason }) => reason)).toEqual([
      'its gauge does not stand or has not arrived; the reading counts without it',
    ]);
  });

  it('keep both of two that bear one name and repeat, and list them as a disagreement', () => {
    const twin = entries.find(({ kind }) => kind === 'placement across');
    if (twin === undefined) throw new Error('no placement across');
    const { survey, disagreements } = fold([
      ...entries,
      { ...twin, _id: twin._id.replace(/0$/, '1'), body: { ...(twin.body as object), notes: 'b' } },
    ]);
    expect(survey.across?.map(({ repeat }) => repeat)).toEqual([1, 2]);
    expect(disagreements.map(({ about }) => about)).toEqual([
      'port, athwart placement 1: two bear repeat 1',
    ]);
  });

  it('are the same whatever order their entries arrive in, and however often', () => {
    const story = readCsv(
      readFileSync(
        new URL('../../../fixtures/samples/stories/twisted-panel.csv', import.meta.url),
        'utf8',
      ),
    );
    if (!story.ok) throw new Error('the story cannot be read');
    const all = entriesOf(entriesFromSurvey(story.survey, { as: 'single' }));
    const once = folded(all);
    fc.assert(
      fc.property(fc.shuffledSubarray([...all], { minLength: all.length }), (arrived) => {
        expect(folded([...arrived, ...arrived.slice(0, 40)])).toEqual(once);
      }),
      { seed: 20260604, numRuns: 10 },
    );
  });
});
