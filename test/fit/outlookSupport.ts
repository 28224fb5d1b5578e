import { fitProfile } from '../../src/fit/posterior.ts';
import type { NewReadings } from '../../src/fit/preposterior.ts';

export const T = 1.5;
export const question = { tolerance: T, over: 1500, limit: 1500, tail: 300 };

export function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

export function lineWith(depth: number, width: number, u: number, spacing: number, seed: number) {
  const normal = normals(seed);
  const x = Array.from({ length: Math.round(1500 / spacing) + 1 }, (_, i) => i * spacing);
  const gap = x.map((at) => {
    const off = Math.abs(at - 750) / (width / 2);
    return (off < 1 ? depth * Math.cos((Math.PI / 2) * off) ** 2 : 0) + u * normal();
  });
  const readings = { x, gap, u: x.map(() => u) };
  const profile = fitProfile([readings], 10 * T);
  if (!profile.ok) throw new Error(profile.reason);
  return { profile, readings };
}

export const again = (x: readonly number[], u: number): NewReadings => ({ x, u: x.map(() => u) });
