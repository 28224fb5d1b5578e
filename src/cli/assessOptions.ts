import type { AssessOptions } from '../survey/assess.ts';
import { GAP_BOUNDS, LENGTH_BOUNDS, outside } from '../survey/bounds.ts';
import { readLength } from '../survey/readingText.ts';

/** Options that every command takes which assesses a survey, as `parseArgs` of node:util wants them. */
export const ASSESS_OPTIONS = {
  tolerance: { type: 'string' },
  over: { type: 'string' },
  resolution: { type: 'string' },
  repeatability: { type: 'string' },
  limit: { type: 'string' },
  'edge-bound': { type: 'string' },
  'edge-length': { type: 'string' },
} as const;

type Name = keyof typeof ASSESS_OPTIONS;

/** Each option, what it sets, and where it must lie. */
const NAMES: readonly (readonly [Name, keyof AssessOptions, typeof LENGTH_BOUNDS])[] = [
  ['tolerance', 'tolerance', GAP_BOUNDS],
  ['over', 'over', LENGTH_BOUNDS],
  ['resolution', 'resolution', GAP_BOUNDS],
  ['repeatability', 'repeatability', GAP_BOUNDS],
  ['limit', 'limit', LENGTH_BOUNDS],
  ['edge-bound', 'edgeBound', GAP_BOUNDS],
  ['edge-length', 'edgeLength', LENGTH_BOUNDS],
];

export type LengthRead =
  { readonly ok: true; readonly mm: number } | { readonly ok: false; readonly message: string };

/** A length given to an option, which states its unit; `bounds` as src/survey/bounds.ts has them. */
export function lengthArgument(
  name: string,
  text: string,
  bounds: typeof LENGTH_BOUNDS,
): LengthRead {
  const refused = (expected: string): LengthRead => ({
    ok: false,
    message: `--${name}: found '${text}', expected ${expected}`,
  });
  const length = readLength(text);
  if (!length.ok) return refused(length.expected);
  if (!(length.mm > 0)) return refused('a length above 0');
  const expected = outside(length.mm, bounds);
  return expected === undefined ? { ok: true, mm: length.mm } : refused(expected);
}

/** What was asked for beyond what a survey says; the first option that cannot be used, in words. */
export function assessOptionsOf(values: {
  readonly [K in Name]?: string | undefined;
}):
  | { readonly ok: true; readonly options: AssessOptions }
  | { readonly ok: false; readonly message: string } {
  const options: { -readonly [K in keyof AssessOptions]: AssessOptions[K] } = {};
  for (const [name, sets, bounds] of NAMES) {
    const text = values[name];
    if (text === undefined) continue;
    const read = lengthArgument(name, text, bounds);
    if (!read.ok) return read;
    options[sets] = read.mm;
  }
  if (options.edgeBound !== undefined && options.edgeLength === undefined) {
    const expected = 'the length that it holds over, such as --edge-length 1800mm';
    return { ok: false, message: `--edge-bound: expected beside it ${expected}` };
  }
  return { ok: true, options };
}
