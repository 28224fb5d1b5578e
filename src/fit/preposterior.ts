import { accounts } from './account.ts';
import { cornerDoubt } from './cornerDoubt.ts';
import { countedWeights } from './countedWeights.ts';
import { cholesky, forward, solved } from './cholesky.ts';
import { chords, deepestChord } from './departures.ts';
import { dot } from './functionals.ts';
import type { Question } from './judge.ts';
import { normalSequence } from './normalSequence.ts';
import type { Profile } from './posterior.ts';
import { chosenAt, rowsOf, type ReadingRow } from './readingRows.ts';
import type { Doubt } from './sizeTold.ts';
import { MOST_PAIRS, soonestVerdict, type CornerOf } from './soonestVerdict.ts';

/** Readings that might be made: on a placement of the fit (by its index), or, where none is named, on one laid anew,
 *  which brings an offset and a tilt of its own. x and u of one length. */
export interface NewReadings {
  readonly x: readonly number[];
  readonly u: readonly number[];
  readonly placement?: number;
}

/** How often, by what is known now, a line would be decided after an act, and as what. */
export interface Chances {
  readonly decided: number;
  readonly hook: number;
  readonly rocker: number;
  readonly fair: number;
}

/** What is known of a line, made ready for asking what more readings would do to it. */
export interface Outlook {
  /** How often the verdict is proven once these readings are made as well. `unbent`: with what bends the whole
   *  profile found out and taken off. */
  chances(readings: readonly NewReadings[], unbent?: boolean): Chances;
  /** The stations, at most `count` of the candidates and no nearer than `apart` to one another, that take most of the
   *  variance out of what decides the verdict, in the order in which they are chosen. `u`: of one reading;
   *  `placement`: on which they are read. Each is the best after those before it. */
  mostTelling(
    candidates: readonly number[],
    u: number,
    placement: number,
    count: number,
    apart: number,
  ): readonly number[];
}

/** Places at which departures are sought: a third of those of the verdict, which these chances do not need. */
const PLACES = 36;
const WINDOWS = 6;
/** Pairs of truths that are drawn. */
const TRUTHS = 12;
/** How much wider than the profile itself a new laying's unknown offset and tilt are taken. */
const UNKNOWN = 1e4;
/** Where in the fixed sequence the noise of new readings and the draws that judge begin: past what the truths are made
 *  of. Every pair of truths has draws of its own, so that what is rare in some does not sway all. */
const NOISE_FROM = 1 << 14;
const JUDGES_FROM = 1 << 15;

/** Draws truths from the posterior, gives each the readings that an act would make of it, conditions every account of
 *  the profile on them, weighs the accounts anew by how well they foretold them, and judges what comes out by the
 *  same accounts and sections as `judge` does. The covariance after an act does not depend on what is read, so that
 *  the factors of the fit serve for all truths. Deterministic.
 *  `bends`: draws of what bends the whole profile and is not in its posterior, as coefficients of the spline, in
 *  mirrored pairs; no reading takes it out.
 *  Accuracy: within about one time in ten of refitting and judging simulated readings
 *  (test/fit/preposteriorOdds.test.ts). Source: Raiffa & Schlaifer (1961), Applied Statistical Decision Theory, 3.4
 *  (preposterior analysis). */
export function outlook(
  profile: Profile,
  { tolerance, over, limit }: Question,
  bends: (pairs: number) => readonly Float64Array[] = () => [],
): Outlook {
  const from = profile.domain[0];
  const to = Math.min(profile.domain[1], limit);
  if (!(to > from)) throw new RangeError(`readings within the limit ${limit} expected`);
  const on = chords(from, to, over, { count: PLACES, windows: WINDOWS });
  const rows = rowsOf(profile);
  const { components } = rows;
  const grid = Array.from(on.x, (x) => rows.row(x, 0));
  const n = grid.length;
  const truths = rows.draws(0, TRUTHS);
  const bent = bends(MOST_PAIRS + TRUTHS).map((c) =>
    Float64Array.from(grid, (row) => rows.at(row, c)),
  );
  const own = components.map((_, c) =>
    grid.map((a) => Float64Array.from(grid, (b) => rows.covariance(a, b, c))),
  );
  const spread = Math.max(...own.map((cov) => Math.max(...cov.map((line, i) => line[i]))));
  const corners = new Map<string, Doubt>();
  const cornerOf: CornerOf = (kind, place, told) => {
    const key = `${kind} ${place.at} ${place.from} ${place.to} ${told}`;
    const former = corners.get(key);
    if (former) return former;
    const weights = countedWeights(profile, place, kind, { judged: [from, to], over, told });
    const found = weights
      ? cornerDoubt(profile, weights, [place.at, place.from, place.to], to - from)
      : { shift: 0, variance: 0 };
    corners.set(key, found);
    return found;
  };
  const judging = normalSequence(JUDGES_FROM + TRUTHS * MOST_PAIRS * n);

  /** One account of the profile with the readings of an act still to come. */
  const conditioned = (observed: readonly Observed[], c: number) => {
    const { noise, weight } = components[c];
    const factored = cholesky(
      observed.map((a) =>
        Float64Array.from(observed, (b) => {
          const laid = a.lay >= 0 && a.lay === b.lay ? 1 + 4 * a.row.place * b.row.place : 0;
          return (
            rows.covariance(a.row, b.row, c) +
            (a === b ? (noise * a.u) ** 2 : 0) +
            laid * spread * UNKNOWN
          );
        }),
      ),
    );
    const with_ = grid.map((place) =>
      Float64Array.from(observed, ({ row }) => rows.covariance(place, row, c)),
    );
    const gain = with_.map((cov) => solved(factored, cov));
    const left = cholesky(
      own[c].map((line, i) => line.map((v, j) => v - dot(gain[i], with_[j])).slice(0, i + 1)),
      1e-9 * spread,
    );
    const base = Math.log(weight) - factored.reduce((sum, line, i) => sum + Math.log(line[i]), 0);
    const deviations = new Map<number, Float64Array>();
    return {
      logWeight(y: Float64Array) {
        const off = y.map((v, q) => v - observed[q].row.means[c]);
        forward(factored, off);
        return base - 0.5 * dot(off, off);
      },
      mean(y: Float64Array) {
        const off = y.map((v, q) => v - observed[q].row.means[c]);
        return Float64Array.from(grid, (row, i) => row.means[c] + dot(gain[i], off));
      },
      /** Both truths of a pair ask for the same ones. */
      deviation(k: number) {
        const former = deviations.get(k);
        if (former) return former;
        const start = JUDGES_FROM + k * n;
        const off = new Float64Array(n);
        for (let i = 0; i < n; i++) {
          const line = left[i];
          let sum = 0;
          for (let j = 0; j <= i; j++) sum += line[j] * judging[start + j];
          off[i] = sum;
        }
        deviations.set(k, off);
        return off;
      },
    };
  };

  const chancesOf = (readings: readonly NewReadings[], unbent: boolean): Chances => {
    const observed = readings.flatMap(({ x, u, placement }, lay) =>
      x.map((at, i) => ({
        row: rows.row(at, placement === undefined ? 0 : placement),
        u: u[i],
        lay: placement === undefined ? lay : -1,
      })),
    );
    const after = components.map((_, c) => conditioned(observed, c));
    const noise = normalSequence(NOISE_FROM + TRUTHS * observed.length);
    const found = { decided: 0, hook: 0, rocker: 0, fair: 0 };
    truths.forEach(({ unknowns, noise: level }, t) => {
      const sign = t % 2 === 0 ? 1 : -1;
      const start = NOISE_FROM + Math.floor(t / 2) * observed.length;
      const y = Float64Array.from(
        observed,
        ({ row, u }, q) => rows.at(row, unknowns) + sign * level * u * noise[start + q],
      );
      const logs = after.map((each) => each.logWeight(y));
      const best = Math.max(...logs);
      const total = logs.reduce((sum, log) => sum + Math.exp(log - best), 0);
      const weighed = logs.map((log) => ({ weight: Math.exp(log - best) / total }));
      const means = new Map<number, Float64Array>();
      const middleOf = (c: number) => {
        const former = means.get(c);
        if (former) return former;
        const middle = after[c].mean(y);
        means.set(c, middle);
        return middle;
      };
      const pair = Math.floor(t / 2);
      const draw = (k: number) => {
        const c = chosenAt(weighed, k);
        const middle = middleOf(c);
        const off = after[c].deviation(pair * MOST_PAIRS + k);
        return ([1, -1] as const).map((way) => {
          const bend = unbent ? bent[2 * MOST_PAIRS + t] : bent[2 * k + (way > 0 ? 0 : 1)];
          const z = new Float64Array(n);
          for (let i = 0; i < n; i++) z[i] = middle[i] + way * off[i];
          if (bend) for (let i = 0; i < n; i++) z[i] += bend[i];
          return z;
        });
      };
      const verdict = soonestVerdict(on, tolerance, draw, cornerOf);
      for (const word of verdict) found[word] += 1;
      if (verdict.length > 0) found.decided += 1;
    });
    const share = (count: number) => count / truths.length;
    return {
      decided: share(found.decided),
      hook: share(found.hook),
      rocker: share(found.rocker),
      fair: share(found.fair),
    };
  };
  let idle: Chances | undefined;

  return {
    chances(readings, unbent = false) {
      const found = chancesOf(readings, unbent);
      // With so few draws an act that is none would be seen to decide now and then: that much is taken off.
      idle ??= chancesOf([], false);
      const none = idle;
      const beyond = (what: keyof Chances) =>
        none[what] >= 1 ? 0 : Math.max(0, (found[what] - none[what]) / (1 - none[what]));
      return {
        decided: beyond('decided'),
        hook: beyond('hook'),
        rocker: beyond('rocker'),
        fair: beyond('fair'),
      };
    },

    mostTelling(candidates, u, placement, count, apart) {
      const open = candidates.map((x) => rows.row(x, placement));
      const covariance = (a: ReadingRow, b: ReadingRow) => {
        let sum = 0;
        for (let c = 0; c < components.length; c++) {
          sum += components[c].weight * rows.covariance(a, b, c);
        }
        return sum;
      };
      const level = components.reduce((sum, { weight, noise }) => sum + weight * noise ** 2, 0);
      const ownVariance = level * u * u;
      // What decides: in each truth the chord that shows the largest departure.
      const telling = truths.map(({ unknowns }) => {
        const z = Float64Array.from(grid, (row) => rows.at(row, unknowns));
        const { largest, ...sizes } = accounts(z, on);
        const hollow = largest.hollow >= largest.hump;
        const size = hollow ? sizes.hollow : sizes.hump;
        let i = 0;
        for (let k = 1; k < n; k++) if (size[k] > size[i]) i = k;
        const { from: a, to: b } = deepestChord(z, on, i, hollow ? 1 : -1);
        const share = b === a ? 0 : (on.x[i] - on.x[a]) / (on.x[b] - on.x[a]);
        return open.map(
          (row) =>
            (1 - share) * covariance(grid[a], row) +
            share * covariance(grid[b], row) -
            covariance(grid[i], row),
        );
      });
      const among = open.map((a) => open.map((b) => covariance(a, b)));
      const chosen: number[] = [];
      while (chosen.length < count) {
        let best = -1;
        let most = 0;
        candidates.forEach((x, c) => {
          if (chosen.some((d) => Math.abs(x - candidates[d]) < apart * (1 - 1e-9))) return;
          let taken = 0;
          for (const cov of telling) taken += cov[c] ** 2;
          taken /= among[c][c] + ownVariance;
          if (taken > most * (1 + 1e-9)) [best, most] = [c, taken];
        });
        if (best < 0) break;
        chosen.push(best);
        const pivot = among[best][best] + ownVariance;
        const column = among.map((line) => line[best]);
        for (const cov of telling) {
          const share = cov[best] / pivot;
          for (let c = 0; c < cov.length; c++) cov[c] -= share * column[c];
        }
        among.forEach((line, a) => {
          const share = column[a] / pivot;
          for (let c = 0; c < line.length; c++) line[c] -= share * column[c];
        });
      }
      return chosen.map((c) => candidates[c]);
    },
  };
}

interface Observed {
  readonly row: ReadingRow;
  readonly u: number;
  /** Which laying anew it belongs to; −1 on a placement of the fit. */
  readonly lay: number;
}
