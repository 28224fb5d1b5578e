import { describe, expect, it } from 'vitest';

import across from '../../../fixtures/book/kinds-v1-across.json' with { type: 'json' };
import causes from '../../../fixtures/book/kinds-v1-causes.json' with { type: 'json' };
import crosses from '../../../fixtures/book/kinds-v1-crosses.json' with { type: 'json' };
import edge from '../../../fixtures/book/kinds-v1-edge.json' with { type: 'json' };
import hull from '../../../fixtures/book/kinds-v1-hull.json' with { type: 'json' };
import keel from '../../../fixtures/book/kinds-v1-keel.json' with { type: 'json' };
import log from '../../../fixtures/book/kinds-v1-log.json' with { type: 'json' };
import panel from '../../../fixtures/book/kinds-v1-panel.json' with { type: 'json' };
import photo from '../../../fixtures/book/kinds-v1-photo.json' with { type: 'json' };
import seasons from '../../../fixtures/book/kinds-v1-seasons.json' with { type: 'json' };
import signature from '../../../fixtures/book/kinds-v1-signature.json' with { type: 'json' };
import unexplained from '../../../fixtures/book/kinds-v1-unexplained.json' with { type: 'json' };
import weights from '../../../fixtures/book/kinds-v1-weights.json' with { type: 'json' };
import trial from '../../../fixtures/book/kinds-v1-trial.json' with { type: 'json' };
import work from '../../../fixtures/book/kinds-v1-work.json' with { type: 'json' };
import fixture from '../../../fixtures/book/kinds-v1.json' with { type: 'json' };
import { bookOf } from '../../../src/book/book.ts';
import { readEntry } from '../../../src/book/envelope.ts';
import { readEntryFile } from '../../../src/book/readEntryFile.ts';
import { standing } from '../../../src/book/standing.ts';
import { writeEntryFile } from '../../../src/book/writeEntryFile.ts';
import { hullOf } from '../../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { isKind, KINDS, type KindName } from '../../../src/survey/kinds/kinds.ts';
import { readBody } from '../../../src/survey/kinds/readBody.ts';
import { mm } from '../fold/samples.ts';

const read = (value: unknown) => {
  const entry = readEntry(value);
  if (!entry.ok) throw new Error(entry.reason);
  return entry.entry;
};
const first = fixture.entries.map(read);
const entries = [
  ...first,
  ...[
    work,
    edge,
    log,
    panel,
    photo,
    seasons,
    signature,
    hull,
    weights,
    trial,
    causes,
    across,
    crosses,
    keel,
    unexplained,
  ]
    .flatMap((file): readonly unknown[] => file.entries)
    .map(read),
];

describe('the first version of every kind', () => {
  it('has an example of each kind that is registered', () => {
    expect(new Set(entries.map(({ kind }) => kind))).toEqual(new Set(Object.keys(KINDS)));
  });

  it('has every field that a kind could say', () => {
    const fields = (kind: KindName) =>
      entries
        .filter((entry) => entry.kind === kind)
        .flatMap(({ body }) => Object.keys(body as object));
    for (const kind of Object.keys(KINDS) as KindName[]) {
      const schema = KINDS[kind].schema;
      const known = Object.keys('entries' in schema ? schema.entries : {});
      const missing = known.filter((field) => !fields(kind).includes(field));
      // `sameAs` stands only on a correction.
      expect(
        missing.filter((field) => field !== 'sameAs'),
        kind,
      ).toEqual([]);
    }
  });

  it('is read with every field kept, those of a later version too', () => {
    for (const { kind, body } of entries) {
      if (!isKind(kind)) throw new Error(kind);
      expect(readBody(kind, body)).toEqual({ ok: true, body });
    }
  });

  it('folds to the same hull and the same survey for good', () => {
    const stands = standing(bookOf(first));
    expect(hullOf(stands.standing)).toEqual(fixture.hull);
    expect(surveyOf(stands.standing, stands.struckRows, fixture.surveyKey)).toEqual(fixture.survey);
  });

  it('comes back whole from an entry file', () => {
    const file = writeEntryFile(bookOf(entries));
    expect([...readEntryFile(file).book.entries.values()]).toEqual(
      [...entries].sort((a, b) => (a._id < b._id ? -1 : 1)),
    );
  });
});

describe('the kinds', () => {
  it('are registered under their own names', () => {
    for (const [name, { kind }] of Object.entries(KINDS)) expect(kind).toBe(name);
  });

  it('are no other room’s, nor names that every object has', () => {
    expect(isKind('tide')).toBe(false);
    expect(isKind('toString')).toBe(false);
  });

  const support = { nth: 1, what: 'stands' };
  const reading = { placement: 'p', station: mm(0), gap: mm(0), look: 1 };
  const rows = { mapping: {}, units: {}, placements: ['p'] };
  const columns = ['act', 'placement', 'station', 'station text'];
  const signed = { role: 'measured', name: 'Jo', entries: [], digest: '0'.repeat(64) };
  const slings =
    'a hull in slings is not measured: set it on its supports, checked and chained, first';
  const length = 'expected a length: mm as a finite number, and the text as typed';

  it.each<[string, KindName, unknown, string]>([
    ['a hull without a name', 'hull', { hin: 'X' }, 'name: expected a value, found nothing'],
    ['a name of nothing', 'hull', { name: '' }, 'name: expected at least one character'],
    [
      'a year in words',
      'hull',
      { name: 'A', year: 'old' },
      'year: expected a year from 1850 to 2200',
    ],
    ['a body that is no object', 'hull', 'Plover', 'expected an object'],
    ['a hull marked as in slings', 'support', { ...support, slings: true }, `slings: ${slings}`],
    ['a support that is slings', 'support', { nth: 1, what: 'Slings only' }, `what: ${slings}`],
    [
      'a reading without a gap',
      'reading',
      { placement: 'p', station: mm(0), look: 1 },
      'gap: expected a value, found nothing',
    ],
    ['a gap of null', 'reading', { ...reading, gap: null }, `gap: ${length}`],
    [
      'a gap without its text',
      'reading',
      { ...reading, gap: { mm: 1 } },
      'gap.text: expected a value, found nothing',
    ],
    [
      'a gap that is no number',
      'reading',
      { ...reading, gap: { mm: NaN, text: '?' } },
      `gap.mm: ${length}`,
    ],
    ['a look of 0', 'reading', { ...reading, look: 0 }, 'look: expected a whole number from 1'],
    ['a weight of 0', 'reading', { ...reading, weight: 0 }, 'weight: expected a weight above 0'],
    [
      'a side that is none',
      'line',
      { side: 'left', offset: mm(300) },
      'side: expected port, starboard or centre',
    ],
    [
      'an offset inside the keel',
      'line',
      { side: 'port', offset: mm(-1) },
      'offset: expected a length of 0 or more',
    ],
    [
      'a feature that runs inward',
      'feature',
      {
        feature: 'strake',
        side: 'port',
        offsetFrom: mm(2),
        offsetTo: mm(1),
        stationFrom: mm(0),
        stationTo: mm(1),
      },
      'expected ranges that run outward and forward',
    ],
    [
      'half a tolerance',
      'condition',
      { about: 'tolerance', gap: mm(1) },
      'expected the gap of a tolerance and the length it is over, both or neither',
    ],
    [
      'an acceptance between three surveys',
      'acceptance',
      { surveys: ['a', 'b', 'c'], what: 'support', differs: '', reason: 'known' },
      'surveys: expected the keys of two surveys',
    ],
    [
      'an acceptance without a reason',
      'acceptance',
      { surveys: ['a', 'b'], what: 'support', differs: '', reason: '' },
      'reason: expected at least one character',
    ],
    [
      'a control line without its surveys',
      'control line',
      { line: 'p' },
      'surveys: expected a value, found nothing',
    ],
    ['a condition that says nothing', 'condition', { about: 'sun' }, 'expected something said'],
    [
      'an import whose count is wrong',
      'import',
      { ...rows, columns, count: 2, rows: [['void', 0, 0, '0']] },
      'expected as many rows as `count` says',
    ],
    [
      'an import without a station',
      'import',
      { ...rows, columns: ['act'], count: 0, rows: [] },
      'expected columns for act, placement, station and station text',
    ],
    [
      'an import of too many rows',
      'import',
      { ...rows, columns, count: 20_001, rows: Array<string[]>(20_001).fill([]) },
      'rows: expected at most 20000 rows',
    ],
    [
      'a signature that binds to nothing',
      'signature',
      { role: 'measured', name: 'Jo', entries: [], digest: 'yes' },
      'digest: expected a SHA-256',
    ],
    [
      'a stroke that ends half way',
      'signature',
      { ...signed, strokes: [[0.1, 0.2, 0.3]] },
      'strokes.0: expected x and y in turn',
    ],
    [
      'a stroke outside the field',
      'signature',
      { ...signed, strokes: [[0.1, 1.2]] },
      'strokes.0.1: expected a place in parts of the field’s width, from 0 to 1',
    ],
  ])('refuse %s', (_, kind, body, reason) => {
    expect(readBody(kind, body)).toEqual({ ok: false, reason });
  });

  it('take a hull that was moved from slings to stands, and a gap of 0', () => {
    expect(readBody('support', { nth: 1, what: 'moved from the slings to stands' }).ok).toBe(true);
    expect(readBody('reading', reading)).toEqual({ ok: true, body: reading });
  });
});
