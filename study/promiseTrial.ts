import { judge } from '../src/fit/judge.ts';
import { outlook, type NewReadings } from '../src/fit/preposterior.ts';
import { fitReadings } from '../src/survey/fitReadings.ts';
import { FAMILIES } from './families.ts';
import { HELD_OUT } from './heldOut.ts';
import { normalsOf } from './noise.ts';
import { truthOf } from './truth.ts';

export const TOLERANCE = 1.5;
const LENGTH = 1500;
const SPACINGS = [75, 100, 125, 150] as const;
const UNCERTAINTIES = [0.15, 0.3, 0.5] as const;
const SHAPES = [...FAMILIES, ...HELD_OUT];

/** One act that was foretold on one undecided line, and then carried out on what is true of it. */
export interface Foretold {
  readonly act: 'laid again' | 'laid thrice' | 'finer gauge' | 'four stations';
  /** Uncertainty of a reading at first, and the length of the edge, mm. */
  readonly u: number;
  readonly over: number;
  /** How often it was said to decide, and whether it did. */
  readonly promised: number;
  readonly kept: boolean;
}

/** A line of random shape, departure (0.4 to 1.8 tolerances), stations, scatter and edge is read and judged; where that
 *  leaves it undecided, each act is foretold and carried out. Empty where it was decided at once. */
export function promiseTrial(...keys: readonly number[]): readonly Foretold[] {
  const normal = normalsOf(...keys);
  const uniform = uniformOf(normal);
  const one = <Value>(of: readonly Value[]): Value =>
    of[Math.min(of.length - 1, Math.floor(uniform() * of.length))];
  const { shape } = one(SHAPES);
  const sign = uniform() < 0.5 ? -1 : 1;
  const over = uniform() < 0.5 ? LENGTH : 0.6 * LENGTH;
  const ground = { length: LENGTH, tolerance: TOLERANCE, over, tail: 300 };
  const truth = truthOf((s) => sign * shape(s), (0.4 + 1.4 * uniform()) * TOLERANCE, ground);
  if (truth === undefined) return [];
  const spacing = one(SPACINGS);
  const u = one(UNCERTAINTIES);
  const read = (x: readonly number[], spread: number, laid: { height: number; tilt: number }) => ({
    x,
    gap: x.map((at) => laid.height + laid.tilt * at - truth.height(at) + spread * normal()),
    u: x.map(() => spread),
  });
  const x = Array.from({ length: LENGTH / spacing + 1 }, (_, i) => i * spacing);
  const atFirst = { height: 25, tilt: 0.002 };
  const first = read(x, u, atFirst);
  const question = { tolerance: TOLERANCE, over, limit: LENGTH, tail: 300 };
  const profile = fitReadings([first], TOLERANCE, LENGTH);
  if (!profile.ok) throw new Error(profile.reason);
  if (!judge(profile, question).verdict.includes('undecided')) return [];

  const view = outlook(profile, question);
  const carriedOut = (act: Foretold['act'], at: readonly number[], spread: number) => {
    const again = act !== 'four stations';
    const news: NewReadings = { x: at, u: at.map(() => spread), ...(!again && { placement: 0 }) };
    const promised = view.chances([news]).decided;
    const more = read(at, spread, again ? { height: 24, tilt: -0.001 } : atFirst);
    const all = again
      ? [first, more]
      : [
          {
            x: [...first.x, ...more.x],
            gap: [...first.gap, ...more.gap],
            u: [...first.u, ...more.u],
          },
        ];
    const after = fitReadings(all, TOLERANCE, LENGTH);
    if (!after.ok) throw new Error(after.reason);
    const kept = !judge(after, question).verdict.includes('undecided');
    return { act, u, over, promised, kept };
  };
  const between = x.slice(1).map((at) => at - spacing / 2);
  return [
    carriedOut('laid again', x, u),
    // Three layings over the same stations are as good as one whose readings are that much surer.
    carriedOut('laid thrice', x, u / Math.sqrt(3)),
    carriedOut('finer gauge', x, u / 2),
    carriedOut('four stations', view.mostTelling(between, u, 0, 4, spacing), u),
  ];
}

/** Evenly distributed numbers from normal ones, by the distribution function as logistic (to 0.01). */
function uniformOf(normal: () => number): () => number {
  return () => 1 / (1 + Math.exp(-1.702 * normal()));
}

/** What a number of promises came to: their mean, how many were kept, and what luck may move that by. */
export function keptOf(promises: readonly Pick<Foretold, 'promised' | 'kept'>[]): {
  readonly count: number;
  readonly promised: number;
  readonly kept: number;
  readonly luck: number;
} {
  const count = promises.length;
  const promised = promises.reduce((sum, each) => sum + each.promised, 0) / count;
  const kept = promises.filter((each) => each.kept).length / count;
  const luck = Math.sqrt(promises.reduce((sum, { promised: p }) => sum + p * (1 - p), 0)) / count;
  return { count, promised, kept, luck };
}
