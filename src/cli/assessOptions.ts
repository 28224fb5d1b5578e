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
} as const;

const NAMES = ['tolerance', 'over', 'resolution', 'repeatability', 'limit'] as const;

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
  readonly [K in (typeof NAMES)[number]]?: string | undefined;
}):
  | { readonly ok: true; readonly options: AssessOptions }
  | { readonly ok: false; readonly message: string } {
  const options: { -readonly [K in keyof AssessOptions]: AssessOptions[K] } = {};
  for (const name of NAMES) {
    const text = values[name];
    if (text === undefined) continue;
    const bounds = name === 'over' || name === 'limit' ? LENGTH_BOUNDS : GAP_BOUNDS;
    const read = lengthArgument(name, text, bounds);
    if (!read.ok) return read;
    options[name] = read.mm;
  }
  return { ok: true, options };
}
