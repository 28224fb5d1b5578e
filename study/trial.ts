import { judge, type Judgement } from '../src/fit/judge.ts';
import { scatterBeyondStated } from '../src/fit/scatter.ts';
import { fitReadings } from '../src/survey/fitReadings.ts';
import { SCATTER_TOLD } from '../src/survey/readingRemarks.ts';
import type { Ground, Truth } from './truth.ts';

/** How a line was read. mm. */
export interface Reading {
  readonly spacing: number;
  /** Standard uncertainty as it was stated, and as it really is. */
  readonly stated: number;
  readonly real: number;
}

/** What one reading of one line came to, held against the truth. */
export interface Trial {
  readonly hookOrRocker: boolean;
  readonly fair: boolean;
  /** The kind of the larger departure is named; either, where the two are equal. */
  readonly found: boolean;
  readonly labelRight: boolean;
  /** The true size of the larger departure lies within the size told ± 1.96 u. */
  readonly depthCovered: boolean;
  readonly tailCovered: boolean;
  /** It was said that the readings scatter more than stated. */
  readonly scatterTold: boolean;
}

/** From this many tolerances upwards the lesser departure, too, must be named for the label to be right;
 *  from the tolerance up to here it may be. */
export const MUST_BE_NAMED = 1.5;

/** Half the width of a 95 % interval, in standard uncertainties (GUM, JCGM 100:2008, table G.1). */
const K95 = 1.96;

/** Reads the true shape at stations `spacing` apart, both ends included, with normal errors, under an edge
 *  laid 25 mm off and not parallel, and judges it as the tool does. */
export function trial(
  truth: Truth,
  { length, tolerance, over, tail }: Ground,
  { spacing, stated, real }: Reading,
  normal: () => number,
): Trial {
  const x = Array.from({ length: Math.round(length / spacing) + 1 }, (_, i) => i * spacing);
  const gap = x.map((at) => 25 + 0.002 * at - truth.height(at) + real * normal());
  const profile = fitReadings([{ x, gap, u: x.map(() => stated) }], tolerance, length);
  if (!profile.ok) throw new Error(`${x.length} stations were refused: ${profile.reason}`);
  const judgement = judge(profile, { tolerance, over, limit: length, tail });
  return {
    ...held(judgement, truth, tolerance),
    scatterTold: scatterBeyondStated(profile) > SCATTER_TOLD,
  };
}

/** A judgement held against the truth. */
export function held(
  judgement: Pick<Judgement, 'verdict' | 'hollow' | 'hump' | 'tail'>,
  truth: Truth,
  tolerance: number,
): Omit<Trial, 'scatterTold'> {
  const named = {
    hollow: judgement.verdict.includes('hook'),
    hump: judgement.verdict.includes('rocker'),
  };
  const lesser = truth.larger === 'hollow' ? 'hump' : 'hollow';
  const lesserRight = named[lesser]
    ? truth[lesser] > tolerance
    : truth[lesser] < MUST_BE_NAMED * tolerance;
  const told = judgement[truth.larger];
  const { tail } = judgement;
  return {
    hookOrRocker: named.hollow || named.hump,
    fair: judgement.verdict.includes('fair'),
    found:
      named[truth.larger] || (named[lesser] && truth[lesser] >= truth[truth.larger] * (1 - 1e-9)),
    labelRight: named[truth.larger] && lesserRight,
    depthCovered: Math.abs(told.size - truth[truth.larger]) <= K95 * told.u,
    tailCovered: tail !== undefined && Math.abs(tail.angle - truth.tailAngle) <= K95 * tail.u,
  };
}
