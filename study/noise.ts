import { randomNormal } from 'd3';

/** Standard normal numbers of the study's own, so that errors of readings owe nothing to the draws of the
 *  posterior. Each list of keys (seed, family, run and so on) has a stream of its own.
 *  Uniform numbers: sfc32 (C. Doty-Humphrey, PractRand); the constants from memory. */
export function normalsOf(...keys: readonly number[]): () => number {
  let [a, b, c, counter] = [0x9e3779b9, 0x243f6a88, 0xb7e15162, 1];
  const next = (): number => {
    const out = (a + b + counter++) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + out) | 0;
    return out >>> 0;
  };
  for (const key of keys) {
    a ^= key;
    for (let i = 0; i < 12; i++) next();
  }
  return randomNormal.source(() => next() / 4294967296)(0, 1);
}
