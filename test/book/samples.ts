import * as fc from 'fast-check';

import type { Attachment } from '../../src/book/attachment.ts';
import { type Book, bookOf } from '../../src/book/book.ts';
import type { Entry, Strike } from '../../src/book/entry.ts';
import { entryId } from '../../src/book/id.ts';

/** Invented entries for tests. */
export const HULL = '0123456789ab';
export const SURVEY = 'cdefghjkmnpq';

/** The id of the n-th entry of a survey. */
export function idOf(n: number): string {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, n);
  return entryId({ hull: HULL, survey: SURVEY, time: 1_777_777_777_000, random });
}

export function entryOf(n: number, more: Partial<Entry> & Record<string, unknown> = {}): Entry {
  return {
    _id: idOf(n),
    v: 1,
    kind: 'reading',
    at: '2026-05-04T09:30:00Z',
    by: 'Yard hand',
    device: 'Tablet 1',
    app: '0.1.0',
    body: { gap: n },
    ...more,
  };
}

/** The n-th entry, striking others whole. */
export function striker(n: number, ...targets: readonly number[]): Entry {
  return entryOf(n, { strikes: targets.map((target) => ({ entry: idOf(target) })) });
}

/** What JSON can say, without the one name that an entry refuses. */
export const anyJson = fc
  .jsonValue({ maxDepth: 4 })
  .filter((value) => !JSON.stringify(value).includes('__proto__'))
  .map((value): unknown => JSON.parse(JSON.stringify(value).replace(/-0(?![.\d])/g, '0')));

const anyStrike: fc.Arbitrary<Strike> = fc.record(
  { entry: fc.nat({ max: 14 }).map(idOf), row: fc.nat({ max: 5 }) },
  { requiredKeys: ['entry'] },
);

/** Entries of ten ids that strike one another and ids that are not there; the same id often comes with two contents. */
export const anyEntry: fc.Arbitrary<Entry> = fc
  .record({
    n: fc.nat({ max: 9 }),
    kind: fc.constantFrom('reading', 'a kind of tomorrow'),
    strikes: fc.option(fc.array(anyStrike, { minLength: 1, maxLength: 3 }), { nil: undefined }),
    body: fc.oneof(fc.constantFrom(0, 1), anyJson),
    later: fc.option(anyJson, { nil: undefined }),
  })
  .map(({ n, kind, strikes, body, later }) =>
    entryOf(n, {
      kind,
      body,
      ...(strikes === undefined ? {} : { strikes }),
      ...(later === undefined ? {} : { 'field of tomorrow': later }),
    }),
  );

export const anyEntries: fc.Arbitrary<readonly Entry[]> = fc.array(anyEntry, { maxLength: 14 });
export const anyBook: fc.Arbitrary<Book> = anyEntries.map(bookOf);

export const anyAttachments: fc.Arbitrary<readonly Attachment[]> = fc.uniqueArray(
  fc.record({
    entry: fc.nat({ max: 9 }).map(idOf),
    name: fc.constantFrom('photo 1', 'photo "2"', 'Kiel außen'),
    type: fc.constantFrom('image/jpeg', 'text/csv; charset=utf-8'),
    base64: fc.uint8Array({ maxLength: 20 }).map((bytes) => Buffer.from(bytes).toString('base64')),
  }),
  { selector: ({ entry, name }) => `${entry} ${name}`, maxLength: 4 },
);
