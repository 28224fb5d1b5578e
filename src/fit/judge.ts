import { mean } from 'simple-statistics';
import { accounts, type Account, type Accounts } from './account.ts';
import { borneOut } from './borneOut.ts';
import { countedIn, sizesTold } from './counted.ts';
import { chords, deepestChord, type Chords } from './departures.ts';
import { farFrom } from './farFrom.ts';
import { heightsAt } from './functionals.ts';
import { pairedMoments } from './pairedMoments.ts';
import { meanCoefficients, type Profile } from './posterior.ts';
import { posteriorDraws } from './posteriorDraws.ts';
import { PROVEN } from './proven.ts';
import { sizeTold } from './sizeTold.ts';
import { asProof, soughtOut } from './soughtOut.ts';
import { sectionsOf, type Section } from './sections.ts';
import { withSystematic, type SystematicMode } from './systematic.ts';
import { tailAngle, tailWeights, type TailAngle } from './tail.ts';

/** What is asked of a profile. Lengths in x's unit, the tolerance in the gaps' unit. */
export interface Question {
  readonly tolerance: number;
  /** The edge that the tolerance speaks of: no chord is longer. */
  readonly over: number;
  /** Judged no farther forward than this. */
  readonly limit: number;
  readonly tail: number;
}

/** The deepest hollow or highest hump that counts: its size, its standard uncertainty, where, and
 *  the ends of the chord that shows it. */
export interface Deepest {
  readonly size: number;
  readonly u: number;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

export interface ProfilePoint {
  readonly x: number;
  readonly z: number;
  readonly u: number;
}

/** level + slope·(x − middle). */
export interface ReferenceLine {
  readonly middle: number;
  readonly level: number;
  readonly slope: number;
}

export type Verdict = 'hook' | 'rocker' | 'fair' | 'undecided';

export interface Judgement {
  readonly verdict: readonly Verdict[];
  readonly told: Account['told'];
  readonly hollow: Deepest;
  readonly hump: Deepest;
  readonly tail?: TailAngle;
  readonly sections: readonly Section[];
  /** Probability that nothing on the line departs by more than the tolerance. */
  readonly fairness: number;
  /** Height against the reference line, with its standard uncertainty. */
  readonly profile: readonly ProfilePoint[];
  /** Least-squares line of the judged stretch, in the datum of the profile's mean. */
  readonly reference: ReferenceLine;
  readonly judged: readonly [number, number];
}

export { PROVEN };

/** Draws with which a verdict that keeps far from the tolerance is left as it is. */
const FEW_PAIRS = 50;

/** Pairs of draws, and where a probability must lie for the stage to be gone on to. */
const STAGES = [
  { pairs: 100, where: [0, 1] },
  { pairs: 200, where: [0.8, 0.999] },
  { pairs: 600, where: [0.9, 0.985] },
] as const;

/** Judges a profile from its whole posterior: in every draw the account is taken and what counts is
 *  compared with the tolerance. More draws are made where a probability comes near the threshold. What the draws
 *  prove has to be borne out by what they do not know (`borneOut`).
 *  Mirroring the readings swaps hook and rocker to the last bit (test/fit/judge.test.ts).
 *  `systematic`: what bends the whole profile at once and is not in its posterior, such as a bow of the edge
 *  that nobody has measured; every figure and probability feels it.
 *  Throws RangeError when the judged stretch is empty. Decision rule: ISO 14253-1. */
export function judge(
  profile: Profile,
  question: Question,
  systematic: readonly SystematicMode[] = [],
): Judgement {
  const { tolerance, over, limit, tail } = question;
  const from = profile.domain[0];
  const to = Math.min(profile.domain[1], limit);
  if (!(to > from)) throw new RangeError(`readings within the limit ${limit} expected`);
  const on = chords(from, to, over, { windows: 10 });
  const heights = heightsAt(profile, on.x);

  const coefficients: Float64Array[] = [];
  const draws: Float64Array[] = [];
  const all: Accounts[] = [];
  const drawUpTo = (pairs: number) => {
    const done = coefficients.length / 2;
    for (const c of withSystematic(posteriorDraws(profile, done, pairs), systematic, done)) {
      const z = heights(c);
      coefficients.push(c);
      draws.push(z);
      all.push(accounts(z, on));
    }
    const counted = countedIn(all, tolerance);
    return { counted, ...sectionsOf(counted, on.x, tolerance, PROVEN) };
  };
  let found = drawUpTo(FEW_PAIRS);
  if (!farFrom(tolerance, found.counted, found, on.x)) found = drawUpTo(STAGES[0].pairs);
  for (let stage = 1; stage < STAGES.length; stage++) {
    const [low, high] = STAGES[stage].where;
    const { fairness, sections } = found;
    const near = [fairness, ...sections.map((s) => s.probability)];
    if (!near.some((p) => p > low && p < high)) break;
    found = drawUpTo(STAGES[stage].pairs);
  }

  const { counted } = found;
  const surface = accountedSurfaces(heights(meanCoefficients(profile)), on, counted.typical);
  const sizes = sizesTold(all, counted);
  const countedOn = { judged: [from, to], over, told: counted.typical } as const;
  const toldOf = (kind: 'hollow' | 'hump', within?: Pick<Section, 'from' | 'to'>) => {
    const largest =
      kind === 'hollow'
        ? deepest(sizes.hollows, on, surface.forHollow, 1, within)
        : deepest(sizes.humps, on, surface.forHump, -1, within);
    return sizeTold(profile, largest, kind, countedOn);
  };
  const hollow = toldOf('hollow');
  const hump = toldOf('hump');
  const { sections, fairness } = borneOut(
    found,
    counted,
    { tolerance, proven: PROVEN },
    { hollow, hump },
    (section) => {
      const [kind, whole] =
        section.leaning === 'hook' ? (['hollow', hollow] as const) : (['hump', hump] as const);
      const { at } = whole.told;
      const isIts = at >= section.from && at <= section.to;
      const drawn = kind === 'hollow' ? sizes.hollows : sizes.humps;
      return asProof(
        isIts ? whole.told : toldOf(kind, section).told,
        soughtOut(drawn, on.x, section),
      );
    },
  );
  const weights = tailWeights(profile, from, tail, to);
  return {
    verdict: lineVerdict(sections, fairness),
    told: counted.typical,
    hollow: hollow.told,
    hump: hump.told,
    ...(weights && { tail: tailAngle(weights, coefficients, tail) }),
    sections,
    fairness,
    ...detrended(draws, on),
    judged: [from, to],
  };
}

export function accountedSurfaces(z: Float64Array, on: Chords, told: Account['told']) {
  const { hollow, hump } = accounts(z, on);
  return {
    forHollow: told === 'humps first' ? z.map((v, i) => v - hump[i]) : z,
    forHump: told === 'hollows first' ? z.map((v, i) => v + hollow[i]) : z,
  };
}

/** Sizes that differ by this part of themselves are one; this part of a surface's height is none. */
const ROUNDING = 1e-9;

/** Where a departure is largest in the mean of the draws, and how large; `within`: sought there only. */
export function deepest(
  sizes: readonly Float64Array[],
  on: Chords,
  surface: Float64Array,
  sign: 1 | -1,
  within: { readonly from: number; readonly to: number } = { from: -Infinity, to: Infinity },
): Deepest {
  const n = on.x.length;
  const average = new Float64Array(n);
  for (let k = 0; k < sizes.length; k += 2) {
    for (let i = 0; i < n; i++) average[i] += sizes[k][i] + sizes[k + 1][i];
  }
  let i = on.x.findIndex((x) => x >= within.from);
  // Of places that are as deep, whatever rounding says, the aftmost.
  const nothing = ROUNDING * sizes.length * (Math.max(...surface) - Math.min(...surface));
  for (let k = i + 1; k < n && on.x[k] <= within.to; k++) {
    if (average[k] > average[i] * (1 + ROUNDING) + nothing) i = k;
  }
  const { from, to } = deepestChord(surface, on, i, sign);
  const { mean: size, deviation: u } = pairedMoments(sizes.map((draw) => draw[i]));
  return { size, u, at: on.x[i], from: on.x[from], to: on.x[to] };
}

function lineVerdict(sections: readonly Section[], fairness: number): readonly Verdict[] {
  const proven = (['hook', 'rocker'] as const).filter((c) =>
    sections.some((s) => s.proven && s.class === c),
  );
  if (proven.length > 0) return proven;
  return fairness >= PROVEN ? ['fair'] : ['undecided'];
}

export function detrended(
  draws: readonly Float64Array[],
  { x }: Chords,
): Pick<Judgement, 'profile' | 'reference'> {
  const n = x.length;
  const count = draws.length;
  const middle = mean(Array.from(x));
  let sxx = 0;
  for (const value of x) sxx += (value - middle) ** 2;
  const sum = new Float64Array(n);
  const squares = new Float64Array(n);
  const lines = draws.map((z) => {
    let level = 0;
    let slope = 0;
    for (let i = 0; i < n; i++) {
      level += z[i];
      slope += z[i] * (x[i] - middle);
    }
    return { level: level / n, slope: slope / sxx };
  });
  for (let k = 0; k < count; k += 2) {
    const [z, mirrored] = [draws[k], draws[k + 1]];
    const [line, other] = [lines[k], lines[k + 1]];
    for (let i = 0; i < n; i++) {
      const off = x[i] - middle;
      const a = z[i] - (line.level + line.slope * off);
      const b = mirrored[i] - (other.level + other.slope * off);
      sum[i] += a + b;
      squares[i] += a * a + b * b;
    }
  }
  const profile = Array.from(x, (at, i) => ({
    x: at,
    z: sum[i] / count,
    u: Math.sqrt(Math.max(0, squares[i] - (sum[i] * sum[i]) / count) / (count - 1)),
  }));
  const level = pairedMoments(lines.map((l) => l.level)).mean;
  const slope = pairedMoments(lines.map((l) => l.slope)).mean;
  return { profile, reference: { middle, level, slope } };
}
