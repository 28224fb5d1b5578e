import { accounts, type Account, type Accounts } from './account.ts';
import { borneOut } from './borneOut.ts';
import { countedIn, sizesTold, type Counted } from './counted.ts';
import { deepestChord, type Chords } from './departures.ts';
import { accountedSurfaces, deepest, PROVEN, type Deepest } from './judge.ts';
import { isFarAbove } from './farFrom.ts';
import { largestOf } from './largestOf.ts';
import { pairedMoments } from './pairedMoments.ts';
import { sectionsOf, type Section } from './sections.ts';
import { asTold, type Doubt } from './sizeTold.ts';
import { asProof, soughtOut } from './soughtOut.ts';

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

/** This part of the tolerance is no departure: rounding alone makes one. */
const NOTHING = 1e-9;

export const MOST_PAIRS = 102;

/** What a corner near a departure would do to its size. */
export type CornerOf = (
  kind: 'hollow' | 'hump',
  place: Pick<Deepest, 'at' | 'from' | 'to'>,
  told: Account['told'],
) => Doubt;

/** What mirrored pairs of draws prove, by the rule of `judge`, with no more draws than that takes: heights at the places
 *  of `on`. Empty where nothing is proven. Made for asking many times; what the draws prove has to be borne out as the
 *  verdict's own has (`borneOut`). */
export function soonestVerdict(
  on: Chords,
  tolerance: number,
  pair: (k: number) => readonly Float64Array[],
  cornerOf: CornerOf,
): readonly Proven[] {
  const all: Accounts[] = [];
  const sum = new Float64Array(on.x.length);
  for (const { pairs, giveUp, settled } of STAGES) {
    for (let k = all.length / 2; k < pairs; k++) {
      for (const z of pair(k)) {
        all.push(accounts(z, on));
        for (let i = 0; i < sum.length; i++) sum[i] += z[i];
      }
    }
    const counted = countedIn(all, tolerance);
    const { sections, fairness } = sectionsOf(counted, on.x, tolerance, PROVEN);
    const departing = sections.filter(({ leaning }) => leaning !== 'fair');
    const most = Math.max(fairness, ...departing.map(({ probability }) => probability));
    if (most < giveUp) return [];
    const far = pairs > STAGES[0].pairs && most === 1 && isFar(counted, departing, on, tolerance);
    if (most < settled && !far) continue;
    if (verdictOf(departing, fairness).length === 0) return [];
    const mean = sum.map((total) => total / all.length);
    const proof = doubted({ sections, fairness }, { all, counted, mean }, on, tolerance, cornerOf);
    return verdictOf(
      proof.sections.filter(({ leaning }) => leaning !== 'fair'),
      proof.fairness,
    );
  }
  return [];
}

interface Drawn {
  readonly all: readonly Accounts[];
  readonly counted: Counted;
  readonly mean: Float64Array;
}

/** The proof of the draws as far as the sizes that would be told bear it out: `sizeTold` at a few places. */
function doubted(
  proof: { readonly sections: readonly Section[]; readonly fairness: number },
  { all, counted, mean }: Drawn,
  on: Chords,
  tolerance: number,
  cornerOf: CornerOf,
) {
  const sizes = sizesTold(all, counted);
  const { forHollow, forHump } = accountedSurfaces(mean, on, counted.typical);
  const toldOf = (kind: 'hollow' | 'hump', within?: Pick<Section, 'from' | 'to'>) => {
    const [draws, surface, sign] =
      kind === 'hollow'
        ? ([sizes.hollows, forHollow, 1] as const)
        : ([sizes.humps, forHump, -1] as const);
    const found = deepest(draws, on, surface, sign, within);
    const ofMean = deepestChord(surface, on, on.x.indexOf(found.at), sign).depth;
    const corner =
      ofMean > NOTHING * tolerance
        ? cornerOf(kind, found, counted.typical)
        : { shift: 0, variance: 0 };
    return asTold(found, ofMean, corner);
  };
  return borneOut(
    proof,
    counted,
    { tolerance, proven: PROVEN },
    { hollow: toldOf('hollow'), hump: toldOf('hump') },
    (section) => {
      const hook = section.leaning === 'hook';
      const { told } = toldOf(hook ? 'hollow' : 'hump', section);
      return asProof(told, soughtOut(hook ? sizes.hollows : sizes.humps, on.x, section));
    },
  );
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
    const sizes = hollows.map((h, k) => Math.max(largestOf(h), largestOf(humps[k])));
    const { mean, deviation } = pairedMoments(sizes);
    return mean + FAR * deviation < tolerance;
  }
  return departing.some((section) =>
    isFarAbove(section.leaning === 'hook' ? hollows : humps, on.x, section, tolerance, FAR),
  );
}
