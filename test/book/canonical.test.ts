import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { canonical } from '../../src/book/canonical.ts';
import { anyJson } from './samples.ts';

describe('canonical', () => {
  it('writes the sample of RFC 8785, section 3.2.2, as its section 3.2.3 does', () => {
    // The RFC's input and output, from memory.
    const input: unknown = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(canonical(input)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  it('sorts names by UTF-16 code units, as the example of RFC 8785, section 3.2.3', () => {
    // The RFC's seven names in their order, from memory.
    const names = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33'];
    const backwards = Object.fromEntries<number>(
      names.map((name, place): [string, number] => [name, place]).reverse(),
    );
    expect([...canonical(backwards).matchAll(/:(\d)/g)].map((match) => Number(match[1]))).toEqual([
      0, 1, 2, 3, 4, 5, 6,
    ]);
  });

  it('gives the same text in whatever order members were added, and reads back the same', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), anyJson), (object) => {
        fc.pre(!Object.hasOwn(object, '__proto__'));
        const backwards = Object.fromEntries(Object.entries(object).reverse());
        expect(canonical(backwards)).toBe(canonical(object));
        expect(JSON.parse(canonical(object))).toEqual({ ...object });
      }),
      { seed: 31 },
    );
  });

  it('keeps a lone surrogate as its escape', () => {
    expect(canonical('\ud800')).toBe(String.raw`"\ud800"`);
  });

  it.each([
    ['not a number', NaN],
    ['infinity', Infinity],
    ['undefined in a list', [undefined]],
    ['a hole in a list', Array(1)],
    ['undefined as a member', { a: undefined }],
    ['a date', new Date(0)],
    ['a big integer', 1n],
  ])('throws a RangeError rather than write null for %s', (_, value) => {
    expect(() => canonical({ value })).toThrow(RangeError);
  });

  it('throws a RangeError on a ring of objects', () => {
    const ring: Record<string, unknown> = {};
    ring['again'] = ring;
    expect(() => canonical(ring)).toThrow(RangeError);
  });
});
