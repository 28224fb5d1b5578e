import { parseArgs } from 'node:util';
import type { AssessOptions } from '../survey/assess.ts';
import { GAP_BOUNDS, LENGTH_BOUNDS, outside } from '../survey/bounds.ts';
import { readLength } from '../survey/readingText.ts';

export type AssessArguments =
  | {
      readonly ok: true;
      readonly file: string;
      readonly json: boolean;
      readonly options: AssessOptions;
    }
  | { readonly ok: false; readonly message: string };

const LENGTHS = ['tolerance', 'over', 'resolution', 'repeatability', 'limit'] as const;

/** Reads the arguments of `assess`. Every length states its unit; anything else is refused in words. */
export function readAssessArguments(args: readonly string[]): AssessArguments {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        tolerance: { type: 'string' },
        over: { type: 'string' },
        resolution: { type: 'string' },
        repeatability: { type: 'string' },
        limit: { type: 'string' },
        json: { type: 'boolean' },
      },
    });
  } catch (error) {
    return { ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  const [file, ...more] = parsed.positionals;
  if (file === undefined) return { ok: false, message: 'a file is expected: assess FILE.csv' };
  if (more.length > 0) {
    return { ok: false, message: `one file is expected, found also ${more.join(', ')}` };
  }
  const options: { -readonly [K in keyof AssessOptions]: AssessOptions[K] } = {};
  for (const name of LENGTHS) {
    const text = parsed.values[name];
    if (text === undefined) continue;
    const length = readLength(text);
    if (!length.ok || !(length.mm > 0)) {
      const expected = length.ok ? 'a length above 0' : length.expected;
      return { ok: false, message: `--${name}: found '${text}', expected ${expected}` };
    }
    const expected = outside(
      length.mm,
      name === 'over' || name === 'limit' ? LENGTH_BOUNDS : GAP_BOUNDS,
    );
    if (expected !== undefined) {
      return { ok: false, message: `--${name}: found '${text}', expected ${expected}` };
    }
    options[name] = length.mm;
  }
  return { ok: true, file, json: parsed.values.json === true, options };
}
