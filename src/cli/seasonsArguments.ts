import type { CompareOptions } from '../seasons/compare.ts';
import { readRepair } from '../seasons/repairsStated.ts';
import type { Repair } from '../seasons/repair.ts';
import { ALIKE, type AlikeWhat } from '../seasons/unlike.ts';
import type { AssessOptions } from '../survey/assess.ts';
import { GAP_BOUNDS, LENGTH_BOUNDS } from '../survey/bounds.ts';
import { ASSESS_OPTIONS, assessOptionsOf, lengthArgument } from './assessOptions.ts';
import { parsedArguments, refused, type Refused } from './parsedArguments.ts';

export interface SeasonsAsked {
  readonly files: readonly string[];
  readonly json: boolean;
  /** Figures as CSV instead: only where the command gives figures. */
  readonly csv: boolean;
  readonly assess: AssessOptions;
  readonly seasons: CompareOptions;
}

export type SeasonsArguments = { readonly ok: true; readonly asked: SeasonsAsked } | Refused;

const LENGTHS = { movement: 'tolerance', least: 'least', within: 'within' } as const;

/** Reads the arguments of `compare` and `trend`; anything that is not understood is refused in words.
 *  `fewest`: how many files the command needs; `csv`: whether it may be asked for figures as CSV. */
export function readSeasonsArguments(
  args: readonly string[],
  { fewest, csv = false }: { readonly fewest: number; readonly csv?: boolean },
): SeasonsArguments {
  const parsed = parsedArguments(args, {
    ...ASSESS_OPTIONS,
    movement: { type: 'string' },
    least: { type: 'string' },
    within: { type: 'string' },
    accept: { type: 'string', multiple: true },
    control: { type: 'string', multiple: true },
    repair: { type: 'string', multiple: true },
    json: { type: 'boolean' },
    csv: { type: 'boolean' },
  });
  if (!parsed.ok) return parsed;
  const { values, files } = parsed;
  if (files.length < fewest) return refused(`${fewest} files or more are expected, oldest first`);
  if (values.csv === true && !csv) return refused('--csv is of `trend` only');
  if (values.csv === true && values.json === true) return refused('--csv or --json, not both');
  const assess = assessOptionsOf(values);
  if (!assess.ok) return assess;
  const seasons: { -readonly [K in keyof CompareOptions]: CompareOptions[K] } = {};
  for (const [option, name] of Object.entries(LENGTHS) as [keyof typeof LENGTHS, 'least'][]) {
    const text = values[option];
    if (text === undefined) continue;
    const read = lengthArgument(option, text, option === 'within' ? LENGTH_BOUNDS : GAP_BOUNDS);
    if (!read.ok) return read;
    seasons[name] = read.mm;
  }
  const accept = listIn(values.accept);
  const strange = accept.find((what) => !isAlike(what));
  if (strange !== undefined) {
    return refused(`--accept: found '${strange}', expected any of ${ALIKE.join(', ')}`);
  }
  const repairs: Repair[] = [];
  for (const text of values.repair ?? []) {
    const repair = readRepair(text);
    if (repair === undefined) {
      return refused(`--repair: found '${text}', expected "2026-03-14; P450, P700; what was done"`);
    }
    repairs.push(repair);
  }
  if (accept.length > 0) seasons.accept = accept.filter(isAlike);
  if (values.control !== undefined) seasons.control = listIn(values.control);
  if (repairs.length > 0) seasons.repairs = repairs;
  const json = values.json === true;
  return {
    ok: true,
    asked: { files, json, csv: values.csv === true, assess: assess.options, seasons },
  };
}

function listIn(texts: readonly string[] = []): readonly string[] {
  return texts.flatMap((text) => text.split(',').map((each) => each.trim())).filter(Boolean);
}

function isAlike(what: string): what is AlikeWhat {
  return ALIKE.some((each) => each === what);
}
