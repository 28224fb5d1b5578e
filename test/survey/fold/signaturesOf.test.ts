import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';

import { bookOf } from '../../../src/book/book.ts';
import { canonical } from '../../../src/book/canonical.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { signableOf } from '../../../src/survey/fold/signableOf.ts';
import {
  signatureNow,
  signaturesOf,
  type SurveySignature,
} from '../../../src/survey/fold/signaturesOf.ts';
import { draftOf, stamp, strikesToReplace, type Draft } from '../../../src/survey/kinds/draft.ts';
import { entriesOf, idOf, mm, SIGNATURE, SURVEY } from './samples.ts';

const check = (edge: string, date: string) =>
  draftOf('edge check', {
    edge,
    method: 'reversal',
    date,
    readTo: mm(0.1),
    points: [0, 750, 1500].map((at) => ({ at: mm(at), apart: mm(0) })),
  });

/** One line read at three stations, one of a file, on a hull that has more than the survey uses. */
const DRAFTS: readonly Draft[] = [
  draftOf('hull', { name: 'Sand Martin (invented)' }),
  draftOf('line', { side: 'port', offset: mm(300) }, { ref: 'line' }),
  draftOf('line', { side: 'starboard', offset: mm(300) }),
  draftOf('straightedge', { name: 'bar', length: mm(1500) }, { ref: 'edge' }),
  check('edge', '2026-05-01'),
  draftOf('straightedge', { name: 'string' }),
  draftOf('survey', { date: '2026-05-04', workUnit: 'mm', measured: 'hand' }),
  draftOf(
    'placement',
    { line: 'line', name: '1', repeat: 1, held: 'resting', edge: 'edge' },
    { ref: 'lay' },
  ),
  ...[0, 75, 150].map((at) =>
    draftOf('reading', { placement: 'lay', station: mm(at), gap: mm(at / 75), look: 1 }),
  ),
  draftOf('import', {
    mapping: {},
    units: {},
    count: 1,
    placements: ['lay'],
    columns: ['act', 'placement', 'station', 'station text', 'gap', 'gap text', 'look'],
    rows: [['reading', 0, 225, '225', 2, '2', 1]],
  }),
];
const FIRST = entriesOf(DRAFTS);
const [, , , EDGE] = FIRST;
const READING = FIRST[9];
const IMPORT = FIRST[11];

const stands = (entries: readonly Entry[]) => standing(bookOf(entries));
const sign = (entries: readonly Entry[], n = 50): Entry =>
  stamp(
    draftOf('signature', signatureNow(stands(entries), SURVEY, { role: 'measured', name: 'Jo' })),
    { ...SIGNATURE, id: idOf(n, 'survey') },
  );
const SIGNED = [...FIRST, sign(FIRST)];

const later = (draft: Draft, n: number, more: Partial<Entry> = {}): Entry => ({
  ...stamp(draft, {
    ...SIGNATURE,
    at: '2026-06-01T08:00:00Z',
    by: 'Kim',
    id: idOf(n, draft.scope),
  }),
  ...more,
});
const strike = (target: Entry['strikes'], n: number, why?: string): Entry => ({
  _id: idOf(n, 'hull'),
  v: 1,
  kind: 'strike',
  ...SIGNATURE,
  at: '2026-06-01T08:00:00Z',
  by: 'Kim',
  ...(target !== undefined && { strikes: target }),
  ...(why !== undefined && { why }),
  body: { act: 'strike' },
});

function only(entries: readonly Entry[]): SurveySignature {
  const [signature, ...more] = signaturesOf(stands(entries), SURVEY);
  if (signature === undefined || more.length > 0) throw new Error('one signature expected');
  return signature;
}

describe('what a signature covers', () => {
  it('is the survey’s own entries and what it rests on, not what else the hull has', () => {
    const covered = signableOf(stands(SIGNED), SURVEY).entries;
    const kinds = covered.map(({ kind }) => kind).sort();
    expect(kinds).toEqual([
      'edge check',
      'hull',
      'import',
      'line',
      'placement',
      'reading',
      'reading',
      'reading',
      'straightedge',
      'survey',
    ]);
  });

  it('has the digest that anybody can work out again: SHA-256 of canonical lines', () => {
    const covered = signableOf(stands(FIRST), SURVEY).entries;
    const text = covered.map((entry) => `${canonical(entry)}\n`).join('');
    // node:crypto is a second implementation of FIPS 180-4.
    expect(only(SIGNED).digest).toBe(createHash('sha256').update(text).digest('hex'));
  });

  it('is as signed, whatever order the entries come in, and nothing is amended', () => {
    expect(only([...SIGNED].reverse())).toMatchObject({
      role: 'measured',
      name: 'Jo',
      by: SIGNATURE.by,
      covers: 10,
      holds: 'as signed',
      amendments: [],
    });
  });

  it('is missing where an entry is not on this device, and altered where one says something else', () => {
    expect(only(SIGNED.filter((entry) => entry !== READING))).toMatchObject({
      holds: 'missing',
      missing: 1,
      amendments: [],
    });
    const other = { ...READING, body: { ...(READING.body as object), gap: mm(9) } };
    expect(only(SIGNED.map((entry) => (entry === READING ? other : entry))).holds).toBe('altered');
  });

  it('is not signed any more when the signature is struck', () => {
    const id = SIGNED[SIGNED.length - 1]._id;
    expect(signaturesOf(stands([...SIGNED, strike([{ entry: id }], 60)]), SURVEY)).toEqual([]);
  });
});

describe('an amendment', () => {
  it('is a reading struck after signing, with who, when and why', () => {
    const entries = [...SIGNED, strike([{ entry: READING._id }], 60, 'the edge had slipped')];
    expect(only(entries)).toMatchObject({
      holds: 'as signed',
      amendments: [
        {
          is: 'struck',
          what: { entry: READING },
          at: '2026-06-01T08:00:00Z',
          by: 'Kim',
          why: 'the edge had slipped',
        },
      ],
    });
  });

  it('is one change where a reading is put right, not a strike and an addition', () => {
    const fix = later(
      draftOf(
        'reading',
        { placement: FIRST[7]._id, station: mm(75), gap: mm(4), look: 1 },
        { strikes: strikesToReplace(READING), why: 'misread' },
      ),
      60,
    );
    expect(only([...SIGNED, fix]).amendments).toMatchObject([
      { is: 'changed', what: { entry: fix }, insteadOf: [{ entry: READING }], why: 'misread' },
    ]);
  });

  it('is a row of a file struck, and the row’s return when that is struck in turn is none', () => {
    const row = strike([{ entry: IMPORT._id, row: 0 }], 60);
    expect(only([...SIGNED, row]).amendments).toMatchObject([
      { is: 'struck', what: { entry: IMPORT, row: 0 }, by: 'Kim' },
    ]);
    expect(only([...SIGNED, row, strike([{ entry: row._id }], 61)]).amendments).toEqual([]);
  });

  it('is what was struck when signed and stands again', () => {
    const first = strike([{ entry: READING._id }], 40);
    const before = [...FIRST, first];
    const again = strike([{ entry: first._id }], 60, 'it was right');
    expect(only([...before, sign(before), again]).amendments).toMatchObject([
      { is: 'restored', what: { entry: READING }, why: 'it was right' },
    ]);
    const row = strike([{ entry: IMPORT._id, row: 0 }], 40);
    const rows = [...FIRST, row];
    expect(only([...rows, sign(rows), strike([{ entry: row._id }], 60)]).amendments).toMatchObject([
      { is: 'restored', what: { entry: IMPORT, row: 0 }, by: 'Kim' },
    ]);
  });

  it('is a reading more, in the order in which things were stated', () => {
    const reading = (at: number) =>
      draftOf('reading', { placement: FIRST[7]._id, station: mm(at), gap: mm(1), look: 1 });
    const one = later(reading(300), 60, { at: '2026-06-03T08:00:00Z' });
    const two = later(reading(375), 61, { at: '2026-06-02T08:00:00Z' });
    const found = only([...SIGNED, one, two]).amendments;
    expect(found.map(({ is, what }) => [is, what.entry])).toEqual([
      ['added', two],
      ['added', one],
    ]);
  });

  it('is a check of the straightedge that now speaks for the survey, and the one that no longer does', () => {
    const better = later(check(EDGE._id, '2026-05-03'), 60);
    expect(only([...SIGNED, better]).amendments).toMatchObject([
      { is: 'added', what: { entry: better } },
      { is: 'not counted', what: { entry: FIRST[4] } },
    ]);
  });

  it('is not a new survey of the same hull, a repair, a sheet, a choice, a second signature, or a later check', () => {
    const other = 'zzzzzzzzzzzz';
    const entries = [
      ...SIGNED,
      stamp(draftOf('survey', { workUnit: 'mm', measured: 'hand' }), {
        ...SIGNATURE,
        id: idOf(60, 'survey', other),
      }),
      later(draftOf('repair', { date: '2026-06-01', what: 'filled' }), 61),
      later(draftOf('decision', { choice: 'fill', by: 'owner', signed: 'on paper' }), 62),
      later(draftOf('sheet', { number: 1, way: 'fill only', step: mm(0.5), figures: [] }), 63),
      later(check(EDGE._id, '2027-05-01'), 64),
      later(draftOf('line', { side: 'port', offset: mm(700) }), 65),
    ];
    expect(only(entries).amendments).toEqual([]);
    const both = signaturesOf(stands([...entries, sign(entries, 70)]), SURVEY);
    expect(both.map(({ amendments }) => amendments)).toEqual([[], []]);
    expect(both[0].digest).toBe(both[1].digest);
    expect(signaturesOf(stands(entries), other)).toEqual([]);
  });
});
