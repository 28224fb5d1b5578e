import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { canonical } from '../../src/book/canonical.ts';
import { readEntry } from '../../src/book/envelope.ts';
import { TEXT_LIMIT, VALUE_LIMIT } from '../../src/book/plain.ts';
import { anyEntry, entryOf, idOf } from './samples.ts';

function nested(depth: number): unknown {
  let value: unknown = 0;
  for (let level = 0; level < depth; level += 1) value = level % 2 === 0 ? [value] : { value };
  return value;
}

describe('readEntry', () => {
  it('keeps kinds, fields and members that it does not know, whole and unchanged', () => {
    fc.assert(
      fc.property(anyEntry, (entry) => {
        const read = readEntry(JSON.parse(canonical(entry)));
        expect(read).toEqual({ ok: true, entry });
      }),
      { seed: 41 },
    );
    const odd = entryOf(1, {
      kind: 'a kind of tomorrow',
      constructor: 'kept',
      prototype: [1],
      hasOwnProperty: false,
      strikes: [{ entry: idOf(2), row: 0, 'field of tomorrow': null } as { entry: string }],
      body: { constructor: { prototype: 1 } },
    });
    expect(readEntry(odd)).toEqual({ ok: true, entry: odd });
    expect(readEntry(odd)).toMatchObject({ entry: { constructor: 'kept' } });
  });

  it('reads -0 as the 0 that canonical JSON writes', () => {
    const read = readEntry(entryOf(1, { body: -0 }));
    expect(read.ok && Object.is(read.entry.body, 0)).toBe(true);
  });

  it('gives a copy that shares no object with what it was read from', () => {
    const body = { rows: [[1, 2]] };
    const read = readEntry(entryOf(1, { body }));
    body.rows[0][0] = 9;
    expect(read).toMatchObject({ ok: true, entry: { body: { rows: [[1, 2]] } } });
  });

  it.each<[string, Record<string, unknown>, RegExp, RegExp]>([
    ['an id out of form', { _id: 'x' }, /^_id: expected the id of an entry/, /^"x"$/],
    ['an envelope of a later version', { v: 2 }, /^v: expected envelope version 1$/, /^2$/],
    ['no kind', { kind: '' }, /^kind: .*1 to 64/, /^""$/],
    ['a time without a zone', { at: '2026-05-04T09:30:00' }, /^at: .*zone/, /2026/],
    ['a day that does not exist', { at: '2026-02-29T09:30:00Z' }, /^at: /, /02-29/],
    ['a month that does not exist', { at: '2026-13-01T09:30:00Z' }, /^at: /, /13-01/],
    ['a number as a name', { by: 7 }, /^by: /, /^7$/],
    ['a name of great length', { by: 'x'.repeat(201) }, /^by: .*200/, /^.{1,80}$/],
    ['strikes that are no list', { strikes: {} }, /^strikes: /, /an object/],
    ['an empty list of strikes', { strikes: [] }, /^strikes: .*1 to/, /a list of 0/],
    ['a strike of nothing', { strikes: [{}] }, /^strikes\.0\.entry: /, /nothing/],
    ['a strike of no id', { strikes: [{ entry: 'x' }] }, /^strikes\.0\.entry: /, /"x"/],
    [
      'a row below 0',
      { strikes: [{ entry: idOf(2), row: -1 }] },
      /^strikes\.0\.row: .*whole number/,
      /^-1$/,
    ],
    ['a row of null', { strikes: [{ entry: idOf(2), row: null }] }, /^strikes\.0\.row: /, /null/],
    ['a reason of null', { why: null }, /^why: /, /null/],
    ['a field of a database', { _rev: '1-a' }, /^_rev: expected no field of a database/, /one/],
    ['a body of undefined', { body: undefined }, /^body: .*JSON/, /nothing/],
    ['a number that JSON cannot say', { body: [NaN] }, /^body\.0: .*JSON/, /NaN|a number/],
    ['a date object', { body: new Date(0) }, /^body: expected a plain object/, /class/],
  ])('refuses %s, saying where and what stood there', (_, wrong, reason, found) => {
    expect(readEntry(entryOf(1)).ok).toBe(true);
    expect(readEntry({ ...entryOf(1), ...wrong })).toEqual({
      ok: false,
      reason: expect.stringMatching(reason) as string,
      found: expect.stringMatching(found) as string,
    });
  });

  it.each(['_id', 'v', 'kind', 'at', 'by', 'device', 'app', 'body'])(
    'refuses an entry without %s',
    (field) => {
      const rest = Object.fromEntries(Object.entries(entryOf(1)).filter(([key]) => key !== field));
      expect(readEntry(rest)).toEqual({
        ok: false,
        reason: `${field}: expected a value`,
        found: 'nothing',
      });
    },
  );

  it.each([[null], [undefined], [7], ['entry'], [[]], [[entryOf(1)]], [() => 0]])(
    'refuses %s, which is no object',
    (value) => {
      expect(readEntry(value).ok).toBe(false);
    },
  );

  it('takes times with a fraction and an offset, and the leap day', () => {
    for (const at of ['2026-05-04T09:30:00.123+05:30', '2028-02-29T23:59:59-11:00']) {
      expect(readEntry(entryOf(1, { at })).ok).toBe(true);
    }
  });

  it('refuses a prototype key at any depth, and pollutes nothing', () => {
    const top: unknown = JSON.parse(
      `${canonical(entryOf(1)).slice(0, -1)},"__proto__":{"polluted":1}}`,
    );
    expect(readEntry(top)).toMatchObject({ ok: false, reason: /^__proto__: / });
    const deep: unknown = JSON.parse('{"a":[{"__proto__":{"polluted":1}}]}');
    expect(readEntry(entryOf(1, { body: deep }))).toMatchObject({
      ok: false,
      reason: 'body.a.0.__proto__: expected an ordinary name',
    });
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('reads nesting up to its limit, and refuses deeper nesting and rings without overflowing', () => {
    expect(readEntry(entryOf(1, { body: nested(63) })).ok).toBe(true);
    expect(readEntry(entryOf(1, { body: nested(64) }))).toMatchObject({ ok: false });
    expect(readEntry(entryOf(1, { body: nested(200_000) }))).toMatchObject({ ok: false });
    const ring: unknown[] = [];
    ring.push(ring);
    expect(readEntry(entryOf(1, { body: ring }))).toMatchObject({ ok: false });
  });

  it('refuses texts, names and numbers of values beyond their limits', () => {
    const long = 'x'.repeat(TEXT_LIMIT);
    expect(readEntry(entryOf(1, { body: long })).ok).toBe(true);
    expect(readEntry(entryOf(1, { body: `${long}x` }))).toMatchObject({
      ok: false,
      reason: /^body: expected text of at most/,
    });
    const named = readEntry(entryOf(1, { body: { [`${long}x`]: 1 } }));
    expect(named.ok).toBe(false);
    expect(JSON.stringify(named).length).toBeLessThan(400);
    expect(readEntry(entryOf(1, { body: Array(VALUE_LIMIT).fill(0) }))).toMatchObject({
      ok: false,
    });
  });

  it('never throws, whatever comes', () => {
    fc.assert(
      fc.property(fc.anything({ withDate: true, withMap: true, withBigInt: true }), (value) => {
        expect(readEntry(value).ok).toBe(false);
        readEntry(entryOf(1, { body: value }));
      }),
      { seed: 42, numRuns: 500 },
    );
  });
});
