import { parseArgs } from 'node:util';
import type { AssessOptions } from '../survey/assess.ts';
import { ASSESS_OPTIONS, assessOptionsOf } from './assessOptions.ts';

export type AssessArguments =
  | {
      readonly ok: true;
      readonly file: string;
      readonly json: boolean;
      readonly options: AssessOptions;
    }
  | { readonly ok: false; readonly message: string };

/** Reads the arguments of `assess`. Every length states its unit; anything else is refused in words. */
export function readAssessArguments(args: readonly string[]): AssessArguments {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...ASSESS_OPTIONS, json: { type: 'boolean' } },
    });
  } catch (error) {
    return { ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  const [file, ...more] = parsed.positionals;
  if (file === undefined) return { ok: false, message: 'a file is expected: assess FILE.csv' };
  if (more.length > 0) {
    return { ok: false, message: `one file is expected, found also ${more.join(', ')}` };
  }
  const read = assessOptionsOf(parsed.values);
  if (!read.ok) return read;
  return { ok: true, file, json: parsed.values.json === true, options: read.options };
}
