import { beforeEach, describe, expect, it } from 'vitest';
import { normalSequence } from '../../src/fit/normalSequence.ts';

const mean = (v: ArrayLike<number>) => Array.from(v).reduce((sum, x) => sum + x, 0) / v.length;
const moment = (v: Float64Array, power: number) => mean(v.map((x) => x ** power));

it('is Box and Muller’s transform of xoshiro128** from the digits of π', () => {
  // Blackman & Vigna (2021), ACM TOMS 47(4), written out again in arbitrary-precision integers.
  const mask = 0xffffffffn;
  const rotate = (x: bigint, k: bigint) => ((x << k) | (x >> (32n - k))) & mask;
  // The fraction of π in hexadecimal: 243F6A88 85A308D3 13198A2E 03707344.
  const s = [0x243f6a88n, 0x85a308d3n, 0x13198a2en, 0x03707344n];
  const next = () => {
    const result = (rotate((s[1] * 5n) & mask, 7n) * 9n) & mask;
    const t = (s[1] << 9n) & mask;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotate(s[3], 11n);
    return (Number(result) + 1) / 2 ** 32;
  };
  const found = normalSequence(2000);
  for (let i = 0; i < 2000; i += 2) {
    const radius = Math.sqrt(-2 * Math.log(next()));
    const angle = 2 * Math.PI * next();
    expect(found[i]).toBe(radius * Math.cos(angle));
    expect(found[i + 1]).toBe(radius * Math.sin(angle));
  }
});

describe('the fixed normal sequence', () => {
  const n = 100_000;
  let values: Float64Array;
  beforeEach(() => {
    values = Float64Array.from(normalSequence(n));
  });

  it('has the moments of a standard normal within four standard errors', () => {
    // Standard errors of the moments of n normal numbers: √(1/n), √(2/n), √(15/n), √(96/n).
    expect(Math.abs(moment(values, 1))).toBeLessThan(4 * Math.sqrt(1 / n));
    expect(Math.abs(moment(values, 2) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    expect(Math.abs(moment(values, 3))).toBeLessThan(4 * Math.sqrt(15 / n));
    expect(Math.abs(moment(values, 4) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
  });

  it('has the share beyond 1.959964 that a normal has: 5 %, within four standard errors', () => {
    // Two-sided 5 % point of the standard normal, any statistical table.
    const beyond = values.filter((x) => Math.abs(x) > 1.959964).length / n;
    expect(Math.abs(beyond - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / n));
  });

  it('has neighbours that do not go together, at any distance up to 8', () => {
    for (let lag = 1; lag <= 8; lag++) {
      const products = values.subarray(lag).map((x, i) => x * values[i]);
      expect(Math.abs(mean(products))).toBeLessThan(4 * Math.sqrt(1 / n));
    }
  });

  it('begins the same however many are asked for', () => {
    expect(normalSequence(10)).toEqual(values.slice(0, 10));
    expect(normalSequence(70_000)).toEqual(values.slice(0, 70_000));
  });

  it('begins with these numbers, on every machine and for good', () => {
    // Snapshot of this sequence itself: a change would change every verdict near its threshold.
    const first = Array.from(normalSequence(6), (x) => x.toFixed(10));
    expect(first).toMatchInlineSnapshot(`
      [
        "0.0738879518",
        "-0.6075561894",
        "-0.1457640182",
        "-0.5977313190",
        "1.4526621359",
        "-1.0152469080",
      ]
    `);
  });
});
