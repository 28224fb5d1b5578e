import type { Checks } from './sheetChoices.ts';

/** What stands in words on every worksheet: cautions, gates and what each choice means. */

/** The gates, in the order in which they are looked at. `stops`: the answer that makes it structure. */
export const GATES: readonly {
  readonly check: keyof Checks;
  readonly asks: string;
  readonly stops: 'yes' | 'no';
}[] = [
  { check: 'sounded', asks: 'Sounded: solid all over', stops: 'no' },
  { check: 'flex', asks: 'Flexes when pushed', stops: 'yes' },
  { check: 'moisture', asks: 'Moisture found', stops: 'yes' },
];

export const STRUCTURE =
  'Soft, wet or flexing is structure, not filler. Stop. Call a qualified marine surveyor before any other work.';

export const UNCHECKED =
  'What is NOT CHECKED has to be checked before anything is ground or filled.';

export const CAUTIONS: readonly string[] = [
  'Local codes and licensed practice come first; the product’s label governs.',
  'Supports set and chained; only authorised people move stands. Never under slings alone.',
  'Old bottom-paint dust is toxic: collect all of it, keep it off skin and out of drains.',
  'Styrene and dust: ventilate. Wear a respirator, eye protection and skin cover.',
  'Peroxide catalyst burns skin and eyes and must not be contaminated: measure and store it apart.',
  'Grinding: stop at laminate. Soft, wet or flexing is structure: stop, call a qualified marine surveyor.',
];

export const EXHIBIT =
  'A measurement exhibit, not a condition survey. The hook may be moulded in; part of what a trailer or bunks made may go after days afloat.';

export const REFERENCE_WORDS = {
  'touching the high spots':
    'Fill only: one straight line over the judged stretch, laid from the water side so that it touches the high spots. Nothing is ground.',
  'best straight line':
    'Best straight line (least squares) over the judged stretch: hollows are filled to it, high spots stand proud of it.',
} as const;
