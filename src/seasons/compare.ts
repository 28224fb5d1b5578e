import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { Comparison, ControlOutcome, LineChange, NotCompared } from './comparison.ts';
import { lineChange } from './lineChange.ts';
import { matchLines, SAME_LINE_WITHIN, type MatchedLine } from './matchLines.ts';
import { touches, type Repair } from './repair.ts';
import { standsInTheWay, type AlikeWhat, type Unlike } from './unlike.ts';
import { unlikeBetween } from './unlikeBetween.ts';

/** What is asked for; lengths in mm. */
export interface CompareOptions {
  /** The change that matters; the second survey's tolerance where absent. */
  readonly tolerance?: number;
  /** A smaller change is laid to the measuring; a quarter of the second survey's tolerance where absent. */
  readonly least?: number;
  /** How far apart the offsets of one line may be written. */
  readonly within?: number;
  /** Differences that are accepted knowingly. */
  readonly accept?: readonly AlikeWhat[];
  /** Names of lines that nobody worked on. Where absent, those that a repair in between left alone. */
  readonly control?: readonly string[];
  /** All repairs that are known of the hull. */
  readonly repairs?: readonly Repair[];
}

/** House default, no source: marks found again, temperature and laying change a reading by no more than this part of
 *  the tolerance from one haul-out to the next. */
export const LEAST_SHARE = 1 / 4;

/** What changed on a hull between two surveys, line by line. What is not alike is listed, and what stands in the way
 *  of a line is not compared until it is accepted. Exchanging the surveys turns every sign.
 *  Throws RangeError on an option that is not a positive length. */
export function compare(
  first: SurveyAssessment,
  second: SurveyAssessment,
  options: CompareOptions = {},
): Comparison {
  const tolerance = options.tolerance ?? second.tolerance.gap;
  const least = options.least ?? LEAST_SHARE * second.tolerance.gap;
  for (const [name, value] of Object.entries({ tolerance, least })) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a positive length expected, got ${value}`);
    }
  }
  const { matched, onlyFirst, onlySecond } = matchLines(
    first.survey.lines,
    second.survey.lines,
    options.within ?? SAME_LINE_WITHIN,
  );
  const repairs = options.repairs ?? [];
  const unlike = unlikeBetween(first.survey, second.survey, {
    matched,
    repairs,
    accept: options.accept ?? [],
  });
  const control = controlNames(matched, unlike, repairs, options.control);
  const question = {
    tolerance,
    least,
    over: Math.max(first.tolerance.over, second.tolerance.over),
  };
  const lines = matched.flatMap((pair): readonly LineChange[] => {
    const names = [pair.first.name, pair.second.name];
    const inTheWay = unlike.filter((u) => names.some((name) => standsInTheWay(u, name)));
    const isControl = names.some((name) => control.includes(name));
    return partsOf(pair, first, second).map(([one, two]) => ({
      first: one,
      second: two,
      matchedBy: pair.by,
      control: isControl,
      outcome:
        inTheWay.length > 0 ? refusedFor(inTheWay) : lineChange(one, two, first, second, question),
    }));
  });
  return {
    first,
    second,
    tolerance,
    least,
    unlike,
    lines,
    unmatched: [
      ...onlyFirst.map((line) => ({ line, in: 'first' as const })),
      ...onlySecond.map((line) => ({ line, in: 'second' as const })),
    ],
    control: controlOutcome(lines),
  };
}

function refusedFor(inTheWay: readonly Unlike[]): NotCompared {
  return { ok: false, reason: 'unlike', unlike: [...new Set(inTheWay.map(({ what }) => what))] };
}

/** Parts of a line that have a stretch in common; the first of each where none have. */
function partsOf(
  { first, second }: MatchedLine,
  one: SurveyAssessment,
  two: SurveyAssessment,
): readonly (readonly [LineAssessment, LineAssessment])[] {
  const ones = one.lines.filter(({ line }) => line === first);
  const twos = two.lines.filter(({ line }) => line === second);
  const pairs = ones.flatMap((a) => twos.map((b) => [a, b] as const));
  const common = pairs.filter(([a, b]) => overlap(a, b) > 0);
  return common.length > 0 ? common : pairs.slice(0, 1);
}

function overlap(a: LineAssessment, b: LineAssessment): number {
  if (!a.outcome.ok || !b.outcome.ok) return 0;
  const [one, other] = [a.outcome.judgement.judged, b.outcome.judgement.judged];
  return Math.min(one[1], other[1]) - Math.max(one[0], other[0]);
}

function controlNames(
  matched: readonly MatchedLine[],
  unlike: readonly Unlike[],
  repairs: readonly Repair[],
  named: readonly string[] | undefined,
): readonly string[] {
  if (named !== undefined) return named;
  if (!unlike.some(({ what }) => what === 'repair')) return [];
  return matched
    .filter(({ first, second }) => !repairs.some((r) => touches(r, first) || touches(r, second)))
    .flatMap(({ first, second }) => [first.name, second.name]);
}

function controlOutcome(lines: readonly LineChange[]): ControlOutcome {
  const read = lines.flatMap(({ control, outcome }) =>
    control && outcome.ok ? outcome.outcome : [],
  );
  if (read.length === 0) return 'none read';
  if (read.includes('moved')) return 'moved';
  return read.every((outcome) => outcome === 'not moved') ? 'steady' : 'cannot tell';
}
