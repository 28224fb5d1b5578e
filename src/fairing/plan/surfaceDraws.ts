import { heightsAt } from '../../fit/functionals.ts';
import type { Profile } from '../../fit/posterior.ts';
import { posteriorDraws } from '../../fit/posteriorDraws.ts';
import { withSystematic } from '../../fit/systematic.ts';
import type { Judged } from '../../survey/assessment.ts';
import type { Stretch } from './targetShape.ts';

/** Enough for a standard uncertainty to a fourteenth of itself. */
const PAIRS = 50;

const drawn = new WeakMap<Judged, readonly Float64Array[]>();

/** Surfaces that the readings leave possible, in mirrored pairs, at the places of a stretch; each carries an
 *  arbitrary straight line. The same readings always give the same surfaces; what is drawn is kept with the line for
 *  the next plan of it. */
export function surfaceDraws(judged: Judged, stretch: Stretch): readonly Float64Array[] {
  const { profile } = fittedOf(judged);
  let draws = drawn.get(judged);
  if (draws === undefined) {
    draws = withSystematic(posteriorDraws(profile, 0, PAIRS), judged.systematic, 0);
    drawn.set(judged, draws);
  }
  const heights = heightsAt(profile, stretch.x);
  return draws.map(heights);
}

/** The profile of a line with something put on it, or taken off: `depth` in mm at x, slowly varying. A spline follows
 *  its coefficients, so each is moved by the depth at the place that it stands for (Greville's abscissa); between
 *  them that is within a hundredth of a mm on depths that run over hundreds of mm (test/fairing/plan/surfaceDraws.test.ts).
 *  Source: de Boor, A Practical Guide to Splines (1978), ch. XI (Schoenberg's approximation; from memory). */
export function withDepth(profile: Profile, depth: (x: number) => number): Profile {
  const { breaks, size } = profile.basis;
  const [low, high] = profile.domain;
  const last = breaks.length - 1;
  const knot = (k: number) => breaks[Math.min(last, Math.max(0, k - 3))];
  const shift = Array.from({ length: size }, (_, j) => {
    const place = (knot(j + 1) + knot(j + 2) + knot(j + 3)) / 3;
    return depth(low + place * (high - low));
  });
  return {
    ...profile,
    components: profile.components.map((component) => ({
      ...component,
      coefficients: component.coefficients.map((c, j) => (j < size ? c + shift[j] : c)),
    })),
  };
}

/** The fit behind a judgement. Throws RangeError where a profile was given and not fitted to readings. */
export function fittedOf(judged: Judged): { readonly profile: Profile } {
  const found = judged.fitted ?? judged.apart;
  if (found !== undefined) return found;
  throw new RangeError('a line fitted to its readings expected, got a judgement alone');
}
