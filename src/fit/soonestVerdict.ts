import { accounts, type Accounts } from './account.ts';
import { countedIn, type Counted } from './counted.ts';
import type { Chords } from './departures.ts';
import { PROVEN } from './judge.ts';
import { pairedMoments } from './pairedMoments.ts';
import { sectionsOf, type Section } from './sections.ts';

export type Proven = 'hook' | 'rocker' | 'fair';

/** Pairs of draws at which a verdict is looked at: below `giveUp` it is not proven, at `settled` or more it is, and
 *  between them more draws are taken. */
const STAGES = [
  { pairs: 4, giveUp: 0.85, settled: Infinity },
  { pairs: 10, giveUp: 0.88, settled: Infinity },
  { pairs: 34, giveUp: 0.93, settled: 1 },
  { pairs: 102, giveUp: PROVEN, settled: PROVEN },
] as const;

/** A departure that keeps from the tolerance by this many times its spread needs no more draws to be told. */
const FAR = 3.3;

export const MOST_PAIRS = 102;

/** What mirrored pairs of draws prove, by the rule of `judge`, with no more draws than that takes: heights at the places
 *  of `on`. Empty where nothing is proven. Made for asking many times; the verdict itself takes more draws, and has to be
 *  borne out besides (`borneOut`), so that this promises a little more than it will keep. */
export function soonestVerdict(
  on: Chords,
  tolerance: number,
  pair: (k: number) => readonly Float64Array[],
): readonly Proven[] {
  const all: Accounts[] = [];
  for (const { pairs, giveUp, settled } of STAGES) {
    for (let k = all.length / 2; k < pairs; k++) {
      for (const z of pair(k)) all.push(accounts(z, on));
    }
    const counted = countedIn(all, tolerance);
    const { sections, fairness } = sectionsOf(counted, on.x, tolerance, PROVEN);
    const departing = sections.filter(({ leaning }) => leaning !== 'fair');
    const most = Math.max(fairness, ...departing.map(({ probability }) => probability));
    if (most < giveUp) return [];
    const far = pairs > STAGES[0].pairs && most === 1 && isFar(counted, departing, on, tolerance);
    if (most >= settled || far) return verdictOf(departing, fairness);
  }
  return [];
}

function verdictOf(departing: readonly Section[], fairness: number): readonly Proven[] {
  const proven = (['hook', 'rocker'] as const).filter((c) =>
    departing.some(({ leaning, probability }) => leaning === c && probability >= PROVEN),
  );
  return proven.length > 0 ? proven : fairness >= PROVEN ? ['fair'] : [];
}

/** Whether the verdict keeps far from the tolerance in the draws made so far. */
function isFar(
  { hollows, humps }: Counted,
  departing: readonly Section[],
  on: Chords,
  tolerance: number,
): boolean {
  if (departing.length === 0) {
    const sizes = hollows.map((h, k) => Math.max(largest(h), largest(humps[k])));
    const { mean, deviation } = pairedMoments(sizes);
    return mean + FAR * deviation < tolerance;
  }
  return departing.some(({ leaning, from, to }) => {
    const sizes = leaning === 'hook' ? hollows : humps;
    for (let i = 0; i < on.x.length; i++) {
      if (on.x[i] < from || on.x[i] > to) continue;
      const { mean, deviation } = pairedMoments(sizes.map((draw) => draw[i]));
      if (mean - FAR * deviation > tolerance) return true;
    }
    return false;
  });
}

function largest(values: Float64Array): number {
  let best = 0;
  for (let i = 0; i < values.length; i++) if (values[i] > best) best = values[i];
  return best;
}
