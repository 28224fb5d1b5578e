import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { entryId, idRange, isKey, newKey, NO_SURVEY, parseId } from '../../src/book/id.ts';
import { HULL, idOf, SURVEY } from './samples.ts';

const key = fc.uint8Array({ minLength: 8, maxLength: 8 }).map(newKey);
const parts = fc.record({
  hull: key,
  survey: fc.oneof(key, fc.constant(NO_SURVEY)),
  time: fc.integer({ min: 0, max: 2 ** 50 - 1 }),
  random: fc.uint8Array({ minLength: 10, maxLength: 10 }),
});

describe('entryId', () => {
  it('writes time and random bits as the published 128-bit example of the same alphabet has them', () => {
    // 16 bytes and their base32 from the documentation of ulidex for Elixir (hexdocs.pm/ulidx/Ulid.html), whose
    // first 48 bits are milliseconds and whose last 80 are random, in the same letters.
    const bytes = [1, 128, 216, 29, 113, 10, 155, 130, 149, 249, 173, 193, 146, 147, 48, 45];
    const time = bytes.slice(0, 6).reduce((sum, byte) => sum * 256 + byte, 0);
    const id = entryId({
      hull: HULL,
      survey: NO_SURVEY,
      time,
      random: Uint8Array.from(bytes.slice(6)),
    });
    expect(id).toBe(`${HULL}:0:${'01G3C1TW8AKE19BYDDR6996C1D'.toLowerCase()}`);
  });

  it('gives back through parseId what it was made of', () => {
    fc.assert(
      fc.property(parts, (made) => {
        const parsed = parseId(entryId(made));
        expect(parsed).toMatchObject({
          ok: true,
          hull: made.hull,
          survey: made.survey,
          time: made.time,
        });
      }),
      { seed: 11 },
    );
  });

  it('sorts by time within a survey', () => {
    fc.assert(
      fc.property(parts, parts, (a, b) => {
        fc.pre(a.time < b.time);
        expect(entryId(a) < entryId({ ...b, hull: a.hull, survey: a.survey })).toBe(true);
      }),
      { seed: 12 },
    );
  });

  it('differs whenever the random bytes differ', () => {
    fc.assert(
      fc.property(parts, parts, (a, b) => {
        fc.pre(a.random.some((byte, index) => byte !== b.random[index]));
        expect(entryId({ ...a, random: b.random })).not.toBe(entryId(a));
      }),
      { seed: 13 },
    );
  });

  it.each([
    ['a hull out of form', { hull: 'ILOVEU000000' }],
    ['a hull of 0', { hull: '0' }],
    ['a survey out of form', { survey: '' }],
    ['a time before 1970', { time: -1 }],
    ['a time with a fraction', { time: 0.5 }],
    ['a time that 10 letters cannot hold', { time: 2 ** 50 }],
    ['too few random bytes', { random: new Uint8Array(9) }],
  ])('throws a RangeError on %s', (_, wrong) => {
    const right = { hull: HULL, survey: SURVEY, time: 0, random: new Uint8Array(10) };
    expect(() => entryId(right)).not.toThrow();
    expect(() => entryId({ ...right, ...wrong })).toThrow(RangeError);
  });
});

describe('parseId', () => {
  it.each([
    ['upper case', idOf(1).toUpperCase(), /hull/],
    ['a letter that the alphabet leaves out', idOf(1).replace(/.$/, 'u'), /random/],
    ['a survey of another length', idOf(1).replace(SURVEY, 'cdef'), /survey/],
    ['a character too many', `${idOf(1)}0`, /27 characters/],
    ['a part too few', `${HULL}:0`, /2 parts/],
    ['a line end behind it', `${idOf(1)}\n`, /27 characters/],
    ['nothing', '', /1 parts/],
  ])('says why %s is no id', (_, text, reason) => {
    expect(parseId(text)).toEqual({ ok: false, reason: expect.stringMatching(reason) as string });
  });
});

describe('newKey', () => {
  it('takes the first 60 bits of 8 bytes', () => {
    expect(newKey(Uint8Array.of(0, 0, 0, 0, 0, 0, 0, 0x1f))).toBe('000000000001');
    expect(newKey(new Uint8Array(8).fill(255))).toBe('zzzzzzzzzzzz');
    expect(isKey(newKey(Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8)))).toBe(true);
    expect(() => newKey(new Uint8Array(7))).toThrow(RangeError);
  });
});

describe('idRange', () => {
  it('holds exactly the ids of its hull or survey', () => {
    fc.assert(
      fc.property(parts, parts, fc.boolean(), fc.boolean(), (a, other, sameHull, sameSurvey) => {
        const b = {
          ...other,
          hull: sameHull ? a.hull : other.hull,
          survey: sameSurvey ? a.survey : other.survey,
        };
        const inside = (range: { startkey: string; endkey: string }): boolean =>
          entryId(b) >= range.startkey && entryId(b) <= range.endkey;
        expect(inside(idRange(a.hull))).toBe(a.hull === b.hull);
        expect(inside(idRange(a.hull, a.survey))).toBe(a.hull === b.hull && a.survey === b.survey);
      }),
      { seed: 14 },
    );
  });

  it('throws a RangeError on a key out of form', () => {
    expect(() => idRange('')).toThrow(RangeError);
    expect(() => idRange(HULL, 'x')).toThrow(RangeError);
  });
});
