import type { Family } from './families.ts';
import { normalsOf } from './noise.ts';
import { trial, type Trial } from './trial.ts';
import { truthOf, type Truth } from './truth.ts';

export const LENGTH = 1500;
export const TOLERANCE = 1.5;
export const TAIL = 300;
export const SPACINGS = [75, 100, 125] as const;
/** The edge that the tolerance speaks of, mm: as long as the line, and 0.6 of it. */
export const OVERS = [1500, 900] as const;
/** The larger departure that counts, in tolerances. At the tolerance itself, where a verdict is most easily
 *  wrong, all runs are made, elsewhere half of them. */
export const DEPTHS = [0.5, 1, 1.5, 2.4] as const;
/** Runs must be a multiple of this, so that half of them go round spacings and signs in full. */
export const RUNS_STEP = 12;
/** Stated standard uncertainty of a reading in tolerances, and the real one as a multiple of it. */
export const NOISES = [
  { key: 'T/10', stated: 1 / 10, times: 1 },
  { key: 'T/5', stated: 1 / 5, times: 1 },
  { key: 'T/10 stated, 1.5 times that in truth', stated: 1 / 10, times: 1.5 },
] as const;

export type Depth = (typeof DEPTHS)[number];
type Noise = (typeof NOISES)[number];
export type NoiseKey = Noise['key'];

/** The trials of one family under one edge length, one departure and one noise. */
export interface Cell {
  readonly family: string;
  readonly over: number;
  readonly depth: Depth;
  readonly noise: NoiseKey;
  /** Empty where the shape cannot have that departure. */
  readonly trials: readonly (Trial & { readonly spacing: number })[];
}

/** Every cell of one family. Runs go round the spacings and both signs, each equally often. The same seed
 *  gives the same errors, whatever else is in the study. Throws RangeError unless `runs` is a multiple
 *  of 12 and the seed a whole number. `overs` and `noises`: a part of the study. */
export function cellsOf(
  family: Family,
  runs: number,
  seed: number,
  {
    overs = OVERS,
    noises = NOISES,
  }: { readonly overs?: readonly number[]; readonly noises?: readonly Noise[] } = {},
): Cell[] {
  if (!(Number.isInteger(runs) && runs > 0 && runs % RUNS_STEP === 0)) {
    throw new RangeError(`runs in multiples of ${RUNS_STEP} expected, got ${runs}`);
  }
  if (!Number.isSafeInteger(seed)) throw new RangeError(`a whole seed expected, got ${seed}`);
  const name = hash(family.name);
  return overs.flatMap((over) =>
    DEPTHS.flatMap((depth) => {
      const ground = { length: LENGTH, tolerance: TOLERANCE, over, tail: TAIL };
      const truths = [1, -1].map((sign) =>
        truthOf((s) => sign * family.shape(s), depth * TOLERANCE, ground),
      );
      return noises.map(({ key, stated, times }): Cell => {
        const one = (run: number) => {
          const truth: Truth | undefined = truths[run % 2];
          if (!truth) return [];
          const spacing = SPACINGS[Math.floor(run / 2) % SPACINGS.length];
          const u = stated * TOLERANCE;
          const normal = normalsOf(seed, name, over, 10 * depth, hash(key), run);
          const reading = { spacing, stated: u, real: times * u };
          return [{ spacing, ...trial(truth, ground, reading, normal) }];
        };
        const length = depth === 1 ? runs : runs / 2;
        const trials = Array.from({ length }, (_, run) => run).flatMap(one);
        return { family: family.name, over, depth, noise: key, trials };
      });
    }),
  );
}

/** FNV-1a, 32 bits. */
function hash(text: string): number {
  let h = 0x811c9dc5;
  for (const character of text) {
    h = Math.imul(h ^ (character.codePointAt(0) as number), 0x01000193) >>> 0;
  }
  return h;
}
