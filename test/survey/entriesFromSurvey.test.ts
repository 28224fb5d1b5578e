import { readFileSync, readdirSync } from 'node:fs';

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { bookOf } from '../../src/book/book.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { standing } from '../../src/book/standing.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { entriesFromSurvey, whyNoEntries } from '../../src/survey/entriesFromSurvey.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { anySurvey, bare, entriesOf, folded, mm } from './fold/samples.ts';

const SEED = 20260504;

const plain: Survey = {
  conditions: {},
  support: [],
  workUnit: 'mm',
  kind: 'hand',
  lines: [
    {
      id: 'L',
      name: 'P300mm',
      side: 'port',
      offset: 300,
      placements: [
        {
          id: 'p',
          name: '1',
          repeat: 1,
          held: 'resting',
          edge: 'bench bar',
          edgeLength: 1500,
          gauge: 'taper',
          division: 0.5,
          readings: [
            { station: mm(0), gap: mm(0), look: 1, source: 'row 2' },
            { station: mm(150), gap: mm(1.5), look: 1, source: 'row 3' },
          ],
          voids: [{ station: mm(300), reason: 'strake', source: 'row 4' }],
          later: [],
        },
      ],
    },
  ],
};

describe('entriesFromSurvey', () => {
  it('writes a length in mm where that is round, and in inches where only those are', () => {
    const [line] = plain.lines;
    const read = (division: number) => ({
      ...plain,
      lines: [{ ...line, placements: [{ ...line.placements[0], division }] }],
    });
    const said = (division: number) =>
      entriesFromSurvey(read(division)).find(({ kind }) => kind === 'gauge')?.body;
    expect(said(25.4 / 32)).toMatchObject({ division: { mm: 25.4 / 32, text: '1/32 in' } });
    expect(said(0.05)).toMatchObject({ division: { mm: 0.05, text: '0.05 mm' } });
    expect(said(1 / 3)).toMatchObject({ division: { mm: 1 / 3, text: `${1 / 3} mm` } });
  });

  it('states a survey so that folding its entries gives the survey back, whatever their ids and arrival', () => {
    fc.assert(
      fc.property(
        anySurvey,
        fc.constantFrom('rows', 'single'),
        fc.infiniteStream(fc.nat()),
        (survey, as, keys) => {
          const drafts = entriesFromSurvey(survey, { as });
          // A support keeps its turn by `nth`, everything else by what it is: ids may fall in any order.
          const order = shuffled(drafts.length, keys);
          const arrival = shuffled(drafts.length, keys);
          const entries = entriesOf(drafts, { order });
          const state = folded(arrival.map((place) => entries[place]));
          expect(bare(state.survey)).toEqual(bare(survey));
          expect(state.setAside).toEqual([]);
          expect(state.disagreements).toEqual([]);
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('gives back every sample file that can be read, each with readings, placements across too', () => {
    const folder = new URL('../../fixtures/samples/', import.meta.url);
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.csv'),
    );
    const read = files
      .map((file) => readCsv(readFileSync(new URL(file, folder), 'utf8')))
      .filter((result) => result.ok);
    expect(read).toHaveLength(files.length - 1);
    const across = read.filter(({ survey }) => (survey.across ?? []).length > 0);
    expect(across).toHaveLength(2);
    for (const { survey } of read) {
      const state = folded(entriesOf(entriesFromSurvey(survey)));
      expect(bare(state.survey)).toEqual(bare(survey));
      expect(state.survey.lines[0].placements[0].readings.length).toBeGreaterThan(3);
    }
  });

  it('states only what the envelope of the field book takes', () => {
    fc.assert(
      fc.property(anySurvey, (survey) => {
        for (const entry of entriesOf(entriesFromSurvey(survey))) {
          expect(readEntry(entry)).toEqual({ ok: true, entry });
        }
      }),
      { seed: SEED, numRuns: 50 },
    );
  });

  it('says of each reading in which row of the import it stands, counting from 0', () => {
    const [line] = folded(entriesOf(entriesFromSurvey(plain))).survey.lines;
    const [placement] = line.placements;
    expect(placement.readings.map(({ source }) => source.split('#')[1])).toEqual(['0', '1']);
    expect(placement.voids.map(({ source }) => source.split('#')[1])).toEqual(['2']);
  });

  it('writes no entry for a tolerance that nobody stated', () => {
    const tolerance = { gap: 1.5, over: 1500, houseDefault: true };
    expect(
      folded(entriesOf(entriesFromSurvey({ ...plain, tolerance }))).survey.tolerance,
    ).toBeUndefined();
  });

  it('uses the lines, straightedges and gauges again that the hull already has', () => {
    const first = entriesOf(entriesFromSurvey(plain));
    const hull = hullOf(standing(bookOf(first)).standing);
    const kinds = entriesFromSurvey(plain, { hull }).map(({ kind }) => kind);
    expect(kinds.filter((kind) => ['line', 'straightedge', 'gauge'].includes(kind))).toEqual([]);
    const other = entriesFromSurvey(
      { ...plain, lines: plain.lines.map((line) => ({ ...line, offset: 301 })) },
      { hull },
    );
    expect(other.filter(({ kind }) => kind === 'line')).toHaveLength(1);
  });

  it('splits more readings than one import holds', () => {
    const readings = Array.from({ length: 20_001 }, (_, place) => ({
      station: mm(place / 10),
      gap: mm(1),
      look: 1,
      source: '',
    }));
    const long: Survey = {
      ...plain,
      kind: 'log',
      lines: plain.lines.map((line) => ({
        ...line,
        placements: line.placements.map((placement) => ({ ...placement, readings, voids: [] })),
      })),
    };
    const imports = entriesFromSurvey(long).filter(({ kind }) => kind === 'import');
    expect(imports.map(({ body }) => body['count'])).toEqual([20_000, 1]);
    expect(
      folded(entriesOf(entriesFromSurvey(long))).survey.lines[0].placements[0].readings,
    ).toHaveLength(20_001);
  });

  it('throws on a hull in slings, and says why beforehand', () => {
    const hanging = { ...plain, support: [{ what: 'in slings' }] };
    const why =
      'support: what: a hull in slings is not measured: set it on its supports, checked and chained, first';
    expect(whyNoEntries(hanging)).toBe(why);
    expect(() => entriesFromSurvey(hanging)).toThrow(new RangeError(why));
    expect(whyNoEntries(plain)).toBeUndefined();
  });

  it('changes nothing of the survey it is given', () => {
    const before = structuredClone(plain);
    entriesFromSurvey(plain);
    expect(plain).toEqual(before);
  });
});

/** A permutation of 0 .. length − 1. */
function shuffled(length: number, keys: Iterator<number>): readonly number[] {
  return Array.from({ length }, (_, place) => ({ place, key: keys.next().value as number }))
    .sort((a, b) => a.key - b.key)
    .map(({ place }) => place);
}
