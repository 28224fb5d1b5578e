import type { AssessOptions } from '../survey/assess.ts';
import { ASSESS_OPTIONS, assessOptionsOf } from './assessOptions.ts';
import { oneFile, parsedArguments, type Refused } from './parsedArguments.ts';

export type AssessArguments =
  | {
      readonly ok: true;
      readonly file: string;
      readonly json: boolean;
      readonly options: AssessOptions;
    }
  | Refused;

/** Reads the arguments of `assess`. Every length states its unit; anything else is refused in words. */
export function readAssessArguments(args: readonly string[]): AssessArguments {
  const parsed = parsedArguments(args, { ...ASSESS_OPTIONS, json: { type: 'boolean' } });
  if (!parsed.ok) return parsed;
  const found = oneFile(parsed.files, 'assess FILE.csv');
  if (!found.ok) return found;
  const read = assessOptionsOf(parsed.values);
  if (!read.ok) return read;
  return { ok: true, file: found.file, json: parsed.values.json === true, options: read.options };
}
