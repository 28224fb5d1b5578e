import type { PlanOptions, Way } from '../../src/fairing/plan/options.ts';

/** What stands in words on every worksheet: cautions, order of work, hold points. */

export const CAUTIONS: readonly string[] = [
  'Local codes and licensed practice come first; the product’s label governs.',
  'Supports set and chained; only authorised people move stands. Never under slings alone.',
  'Old bottom-paint dust is toxic: collect all of it, keep it off skin and out of drains.',
  'Styrene and dust: ventilate. Wear a respirator, eye protection and skin cover.',
  'Peroxide catalyst burns skin and eyes and must not be contaminated: measure and store it apart.',
  'Grinding: stop at laminate. Soft, wet or flexing is structure: stop, call a qualified marine surveyor.',
];

/** Common practice, no source. */
export const ORDER_OF_WORK: readonly (readonly [step: string, how: string])[] = [
  ['Strip', 'Paint and loose filler off the marked stretch and a hand’s breadth around it.'],
  [
    'Mark out',
    'Stations on tape outside the patch, so that they outlast the work. Lay the edge again and compare with the proof of place.',
  ],
  ['Grind', 'Only where a grind depth stands, never deeper, never into laminate.'],
  ['Clean', 'Dust off, wiped as the label says, dry.'],
  [
    'Fill, pass by pass',
    'No pass thicker than the label allows. Where a dam is called for, tape a straight batten to the transom and fill to it.',
  ],
  [
    'Long-board',
    'Fore and aft, feather out past the low; a board under 3 ft (900 mm) misses lows.',
  ],
  ['Guide coat', 'Ink or guide coat over all; what stays dark is low.'],
  ['Check', 'Lay the edge on each worked line and on the control line; write what you read.'],
  ['Seal', 'As the label says. Keep the trailing edge at the transom sharp.'],
];

/** Points at which the work waits for somebody's initials. */
export const HOLD_POINTS: readonly string[] = [
  'Paint stripped, edge laid again, reading as told: go on',
  'Ground, no laminate showing',
  'Last pass cured as the label says',
  'Guide coat: no low left',
  'Edge laid: worked lines and control line read and written down',
];

export const EXHIBIT =
  'A measurement exhibit, not a condition survey. The hook may be moulded in; part of what a trailer or bunks made may go after days afloat.';

export const CALL_ANYONE =
  'If anything is soft, wet or flexing, or reads otherwise than told here: stop and call, before going on.';

const WAY_WORDS: Readonly<Record<Way, string>> = {
  'fill only': 'Filled to the target; nothing is ground.',
  'grind only': 'Ground to the target; nothing is filled.',
  'least work': 'Filled and ground to the target that takes the least work.',
};

/** How the bottom is brought to its target, and whether by lines or by panels. */
export function targetWords({ way, panel }: PlanOptions): string {
  if (panel === undefined) return WAY_WORDS[way];
  const target =
    panel.target === 'one plane'
      ? 'One target for each panel: a plane over all its lines.'
      : 'One target for each panel: straight fore and aft on every line, fair athwart, its twist left as it is.';
  return `${WAY_WORDS[way]} ${target}`;
}
