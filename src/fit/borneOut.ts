import type { Counted } from './counted.ts';
import { normalTail } from './normalTail.ts';
import type { Section } from './sections.ts';
import type { Doubt } from './sizeTold.ts';
import { largestOf } from './largestOf.ts';

/** Beyond this many deviations what is left of a normal tail is less than a double tells from nothing beside 1. */
const SURE = 9;

/** Where the largest departure of a kind is and how large it is told, and what the draws do not know of it. */
interface InDoubt {
  readonly told: { readonly at: number; readonly size: number; readonly u: number };
  readonly doubt: Doubt;
}

interface Proof {
  readonly sections: readonly Section[];
  readonly fairness: number;
}

/** What the draws prove, as far as the sizes that are told bear it out (`sizeTold`): the draws do not know that their
 *  deepest chord sought out scatter, nor that a bottom may have a corner. What they do not prove is
 *  left as it is.
 *  - Hook and rocker are as likely as the draws have them, and no likelier than that the size in proof of the section
 *    (`soughtOut`), normal with its uncertainty, is above the tolerance.
 *  - Fair is no likelier than that every draw's largest hollow and hump, each with the doubt of its kind added
 *    (normal, the two independent), keep within the tolerance. A section is spoiled by the kinds
 *    whose largest lies in it.
 *  `sizeIn`: the size of a section's own kind as it bears out a proof. Mirroring swaps hook and rocker to the last bit. */
export function borneOut(
  { sections, fairness }: Proof,
  { hollows, humps }: Counted,
  { tolerance, proven }: { readonly tolerance: number; readonly proven: number },
  { hollow, hump }: { readonly hollow: InDoubt; readonly hump: InDoubt },
  sizeIn: (section: Section) => { readonly size: number; readonly u: number },
): Proof {
  const chancesOf = () =>
    hollows.map((sizes, k) => ({
      hollow: chances(tolerance - largestOf(sizes), hollow.doubt),
      hump: chances(tolerance - largestOf(humps[k]), hump.doubt),
    }));
  let draws: ReturnType<typeof chancesOf> | undefined;
  const spoiledBy = (hollowDoubted: boolean, humpDoubted: boolean): number => {
    const all = (draws ??= chancesOf());
    const lost = (k: number): number => {
      const { hollow: h, hump: r } = all[k];
      const kept = (hollowDoubted ? h.borneOut : h.drawn) * (humpDoubted ? r.borneOut : r.drawn);
      return h.drawn * r.drawn - kept;
    };
    let sum = 0;
    for (let k = 0; k < all.length; k += 2) sum += lost(k) + lost(k + 1);
    return Math.max(0, sum / all.length);
  };
  const likely = (section: Section): number => {
    const { leaning, probability, from, to } = section;
    if (probability < proven) return probability;
    if (leaning === 'fair') {
      const holds = ({ told: { at } }: InDoubt) => at >= from && at <= to;
      return Math.max(0, probability - spoiledBy(holds(hollow), holds(hump)));
    }
    const { size, u } = sizeIn(section);
    return Math.min(probability, within(size - tolerance, u));
  };
  return {
    sections: sections.map((section) => {
      const probability = likely(section);
      const isProven = probability >= proven;
      return {
        ...section,
        class: isProven ? section.leaning : 'undecided',
        proven: isProven,
        probability,
      };
    }),
    fairness: fairness < proven ? fairness : Math.max(0, fairness - spoiledBy(true, true)),
  };
}

/** How likely a departure keeps within the tolerance, `room` above it: as it was drawn, and with its doubt. */
function chances(room: number, { shift, variance }: Doubt): { drawn: number; borneOut: number } {
  return { drawn: room >= 0 ? 1 : 0, borneOut: within(room - shift, Math.sqrt(variance)) };
}

/** Probability that a normal number of mean 0 is no more than `room`. */
function within(room: number, deviation: number): number {
  if (room > SURE * deviation) return 1;
  if (deviation > 0) return 1 - normalTail(room / deviation);
  return room >= 0 ? 1 : 0;
}
