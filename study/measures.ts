import { mean } from 'simple-statistics';
import { DEPTHS, type Cell, type Depth, type NoiseKey } from './plan.ts';
import type { Trial } from './trial.ts';

/** One row of the table: how often something is so, in per cent. */
export interface Measure {
  readonly label: string;
  readonly means: string;
  /** The departures whose trials count. */
  readonly depths: readonly Depth[];
  readonly so: (trial: Trial) => boolean;
  /** Which way is good; absent where that depends on the noise, and then no family is the worst. */
  readonly good?: 'rare' | 'common';
  /** What was set as the aim where readings scatter as stated. */
  readonly aim: string;
}

const interval = (depth: Depth, what: 'depth' | 'tail'): Measure => ({
  label: `at ${tolerances(depth)}: ${what === 'depth' ? 'depth' : 'tail angle'} interval holds`,
  means:
    what === 'depth'
      ? 'the true size of the larger departure that counts lies within the size told for its kind ± 1.96 u'
      : 'the true tail angle (last 300 mm) lies within the angle told ± 1.96 u',
  depths: [depth],
  so: (t) => (what === 'depth' ? t.depthCovered : t.tailCovered),
  good: 'common',
  aim: '92 to 98',
});

/** The rows, in the order in which they are printed. */
export const MEASURES: readonly Measure[] = [
  {
    label: 'at T: hook or rocker called',
    means:
      'the larger departure is exactly T, so nothing exceeds it, and yet a hook or a rocker was called proven',
    depths: [1],
    so: (t) => t.hookOrRocker,
    good: 'rare',
    aim: '≤ 3, worst ≤ 10',
  },
  {
    label: 'at T: fair called',
    means: 'the same shapes, called fair: what a departure of a hair more than T would meet',
    depths: [1],
    so: (t) => t.fair,
    good: 'rare',
    aim: '≤ 3, worst ≤ 10',
  },
  {
    label: 'at 0.5 T: fair called',
    means: 'the line was called fair, rightly',
    depths: [0.5],
    so: (t) => t.fair,
    good: 'common',
    aim: '≥ 95',
  },
  {
    label: 'at 0.5 T: hook or rocker called',
    means: 'a hook or a rocker was called, wrongly',
    depths: [0.5],
    so: (t) => t.hookOrRocker,
    good: 'rare',
    aim: '',
  },
  {
    label: 'at 1.5 T: found',
    means: 'the kind of the larger departure was called (either, where the two are equal)',
    depths: [1.5],
    so: (t) => t.found,
    good: 'common',
    aim: '≥ 97',
  },
  {
    label: 'at 1.5 T: fair called',
    means: 'the line was called fair, wrongly',
    depths: [1.5],
    so: (t) => t.fair,
    good: 'rare',
    aim: '',
  },
  {
    label: 'at 2.4 T: label right',
    means:
      'the kind of the larger departure was called, and the other kind too if it is 1.5 T or more, and not if it is T or less (between them either is right)',
    depths: [2.4],
    so: (t) => t.labelRight,
    good: 'common',
    aim: '≥ 97',
  },
  ...DEPTHS.map((depth) => interval(depth, 'depth')),
  ...DEPTHS.map((depth) => interval(depth, 'tail')),
  {
    label: 'said that readings scatter more than stated',
    means: 'at any departure; right in the last column only',
    depths: DEPTHS,
    so: (t) => t.scatterTold,
    aim: '',
  },
];

/** Per cent. `mean` over the families, each counting alike; `worst` is the family that fares worst, its
 *  trials of all spacings, signs and edge lengths taken together. `trials`: how many of all. */
export interface Rate {
  readonly mean: number;
  readonly worst?: { readonly rate: number; readonly family: string };
  readonly trials: number;
}

/** How often a measure is so under one noise. Throws RangeError when no trial counts. */
export function rateOf(measure: Measure, cells: readonly Cell[], noise: NoiseKey): Rate {
  const counted = cells.filter((c) => c.noise === noise && measure.depths.includes(c.depth));
  const families = [...new Set(counted.map((c) => c.family))].flatMap((family) => {
    const trials = counted.filter((c) => c.family === family).flatMap((c) => c.trials);
    if (trials.length === 0) return [];
    return [{ family, trials: trials.length, rate: share(trials, measure) }];
  });
  if (families.length === 0) throw new RangeError(`no trials of ${measure.label} under ${noise}`);
  const sign = measure.good === 'rare' ? 1 : -1;
  const worst = families.reduce((a, b) => (sign * b.rate > sign * a.rate ? b : a));
  return {
    mean: mean(families.map((f) => f.rate)),
    ...(measure.good && { worst: { rate: worst.rate, family: worst.family } }),
    trials: families.reduce((sum, f) => sum + f.trials, 0),
  };
}

/** In per cent of at least one trial. */
export function share(trials: readonly Trial[], { so }: Pick<Measure, 'so'>): number {
  return (100 * trials.filter(so).length) / trials.length;
}

export function tolerances(depth: Depth): string {
  return depth === 1 ? 'T' : `${depth} T`;
}
