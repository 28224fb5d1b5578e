import { HOUSE_TOLERANCE } from '../survey/assess.ts';
import { GAP_BOUNDS, LENGTH_BOUNDS } from '../survey/bounds.ts';
import { canProve, type PlannedLine } from '../survey/canProve.ts';
import { showTolerance } from '../survey/figures.ts';
import { canProveWords, recommendedWords } from '../survey/planWords.ts';
import { readLength } from '../survey/readingText.ts';
import { recommendedPlan } from '../survey/recommendedPlan.ts';
import { startingStations } from '../survey/startingStations.ts';
import { houseDivision, readingSpread } from '../survey/usable.ts';
import { ASSESS_OPTIONS, assessOptionsOf, lengthArgument } from './assessOptions.ts';
import { parsedArguments, refused, type Refused } from './parsedArguments.ts';
import { rounded } from './rounded.ts';
import { complain } from './surveyFile.ts';

const OPTIONS = {
  ...ASSESS_OPTIONS,
  stations: { type: 'string' },
  layings: { type: 'string' },
  hook: { type: 'string' },
  feature: { type: 'string' },
  unit: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** `aftrun plan`: what a gauge and a set of stations can prove before anything is read, and which set proves a hook of
 *  1.5 tolerances, or of the depth asked for. Exit status 0, or 2 for wrong arguments. */
export function planCommand(args: readonly string[]): number {
  const read = readPlanArguments(args);
  if (!read.ok) {
    complain(`aftrun plan: ${read.message}`);
    return 2;
  }
  const { planned, hook, feature, division, stated, json } = read;
  const { unit } = planned;
  const can = canProve(planned);
  const better = recommendedPlan(
    planned,
    { hook, ...(feature !== undefined && { feature }) },
    division,
    (other) => spreadWith(other, stated),
  );
  if (json) {
    const answer = {
      tolerance: { gap: planned.tolerance, over: planned.over },
      limit: planned.limit,
      uncertainty: planned.u,
      stations: planned.stations,
      layings: planned.layings,
      proves: can,
      recommended: {
        hook,
        ...better,
        ...(better.ok && { stations: better.stations.map(({ mm }) => mm) }),
      },
    };
    const short = (_: string, value: unknown) =>
      typeof value === 'number' ? rounded(value, 3) : value;
    process.stdout.write(`${JSON.stringify(answer, short, 2)}\n`);
    return 0;
  }
  const list = (marks: readonly { readonly text: string }[]) =>
    marks.map(({ text }) => text.replace(` ${unit}`, '')).join(', ');
  const lines = [
    `Tolerance ${showTolerance(planned.tolerance, unit)} over ${showTolerance(planned.over, unit)}; judged to ${showTolerance(planned.limit, unit)} forward of the transom; gauge of ${showTolerance(division, unit)}.`,
    ...canProveWords(can, unit),
    recommendedWords(better, hook, unit),
    ...(better.ok ? [`Stations (${unit}): ${list(better.stations)}.`] : []),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
  return 0;
}

type PlanArguments =
  | {
      readonly ok: true;
      readonly planned: PlannedLine;
      readonly hook: number;
      readonly feature?: number;
      readonly division: number;
      /** Stated repeatability, mm. */
      readonly stated: number | undefined;
      readonly json: boolean;
    }
  | Refused;

/** The unit a person works in, as the last length of a text states it: "0, 3, 6in". */
function unitIn(text: string | undefined): 'mm' | 'in' | undefined {
  const last = text?.split(/[,;]/).at(-1);
  const read = last === undefined ? undefined : readLength(last.trim());
  if (!read?.ok || !read.stated) return undefined;
  return read.unit === 'in' || read.unit === 'ft' ? 'in' : 'mm';
}

function readPlanArguments(args: readonly string[]): PlanArguments {
  const parsed = parsedArguments(args, OPTIONS, { takesFiles: false });
  if (!parsed.ok) return parsed;
  const { values } = parsed;
  const read = assessOptionsOf(values);
  if (!read.ok) return read;
  const unit = values.unit ?? unitIn(values.stations) ?? unitIn(values.tolerance) ?? 'mm';
  if (unit !== 'mm' && unit !== 'in') {
    return refused(`--unit: found '${unit}', expected mm or in`);
  }
  const layings = Number(values.layings ?? '1');
  if (!(Number.isInteger(layings) && layings >= 1 && layings <= 20)) {
    const found = values.layings ?? '';
    return refused(`--layings: found '${found}', expected a whole number from 1 to 20`);
  }
  const { options } = read;
  const limit = options.limit ?? (unit === 'in' ? 60 * 25.4 : 1500);
  const tolerance = options.tolerance ?? HOUSE_TOLERANCE.gap;
  const division = options.resolution ?? houseDivision(unit);
  const stations: number[] = [];
  for (const text of values.stations?.split(/[,;]/) ?? []) {
    const length = readLength(text.trim(), { unit });
    if (!length.ok || length.mm < 0) {
      const expected = length.ok ? 'a place forward of the transom' : length.expected;
      return refused(`--stations: found '${text.trim()}', expected ${expected}`);
    }
    stations.push(length.mm);
  }
  const lengths: { hook?: number; feature?: number } = {};
  for (const name of ['hook', 'feature'] as const) {
    const text = values[name];
    if (text === undefined) continue;
    const length = lengthArgument(name, text, name === 'hook' ? GAP_BOUNDS : LENGTH_BOUNDS);
    if (!length.ok) return length;
    lengths[name] = length.mm;
  }
  return {
    ok: true,
    planned: {
      stations: stations.length > 0 ? stations : startingStations(limit, unit).map(({ mm }) => mm),
      u: spreadWith(division, options.repeatability),
      tolerance,
      over: options.over ?? HOUSE_TOLERANCE.over,
      limit,
      unit,
      layings,
    },
    hook: lengths.hook ?? 1.5 * tolerance,
    ...(lengths.feature !== undefined && { feature: lengths.feature }),
    division,
    stated: options.repeatability,
    json: values.json === true,
  };
}

/** Of one reading with a gauge of that division: as stated, else half a division, the house default. */
function spreadWith(division: number, stated: number | undefined): number {
  return readingSpread(
    division,
    undefined,
    stated === undefined
      ? { mm: division / 2, from: 'house default' }
      : { mm: stated, from: 'stated' },
  );
}
