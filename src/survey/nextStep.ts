import type { LineAssessment, SurveyAssessment } from './assessment.ts';
import { showPlace, type WorkUnit } from './figures.ts';
import { nextActs, type NextAct } from './nextActs.ts';
import { capital, listed } from './sentence.ts';
import type { Typed } from './survey.ts';

/** A departure nearer to the tolerance than this many of its own uncertainties is said to lie at it. */
const NEAR = 1.5;
/** Where even the best step decides it less often than this, it is said what else there is. */
const LIKELY = 0.5;
const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six'] as const;

/** A next step in words, with the stations that it asks for, so that one tap can take them. */
export interface NextStep {
  readonly words: string;
  readonly kind: NextAct['kind'] | 'more stations' | 'mistyped' | 'agree';
  readonly stations: readonly Typed[];
}

/** What would decide an undecided line, from the posterior of its readings: one sentence each, the best return on its
 *  minutes first, at most three; what is missing where there are too few readings; empty where nothing is undecided. */
export function nextSteps(
  line: LineAssessment,
  all: SurveyAssessment,
  unit: WorkUnit,
): readonly string[] {
  return nextStepsOf(line, all, unit).map(({ words }) => words);
}

/** The same with what the steps ask for. */
export function nextStepsOf(
  line: LineAssessment,
  all: SurveyAssessment,
  unit: WorkUnit,
): readonly NextStep[] {
  const { outcome } = line;
  if (!outcome.ok) {
    const missing = outcome.needed - outcome.n;
    if (missing <= 0) {
      const words = 'Look for a station, tolerance or gauge division that was mistyped.';
      return [{ words, kind: 'mistyped', stations: [] }];
    }
    const words = `Read at least ${missing} more station${missing === 1 ? '' : 's'}: ${outcome.needed} are the least a verdict can rest on, 10 or more are usual.`;
    return [{ words, kind: 'more stations', stations: [] }];
  }
  const { judgement } = outcome;
  if (!judgement.verdict.includes('undecided')) return [];
  const acts = nextActs(line, all);
  const steps = acts.map((act): NextStep => {
    const { kind, stations } = act;
    return { words: `${actWords(act, unit)}: ${oftenWords(act.chance)}.`, kind, stations };
  });
  if (acts.some(({ chance }) => chance >= LIKELY)) return steps;
  const { hollow, hump } = judgement;
  const deepest = hollow.size >= hump.size ? hollow : hump;
  const logged = line.logged !== undefined;
  const none = logged
    ? 'logging it again would not be likely to'
    : 'neither a few stations, nor repeats, nor a finer gauge would be likely to';
  const near = Math.abs(deepest.size - all.tolerance.gap) < NEAR * deepest.u;
  const agree = near
    ? `The deepest departure is so near the tolerance that ${acts.length === 0 ? `${none} decide it` : 'even these may not decide it'}: agree what counts, or treat the line as at its limit.`
    : acts.length === 0
      ? `${capital(none)} decide it: ${logged ? 'log it with what scatters less, or read it by hand.' : 'read the whole line at closer stations, with a finer gauge.'}`
      : undefined;
  if (agree === undefined) return steps;
  return [...steps.slice(0, 2), { words: agree, kind: 'agree', stations: [] }];
}

function actWords({ kind, stations, layings, gauge }: NextAct, unit: WorkUnit): string {
  const places = listedPlaces(stations, unit);
  switch (kind) {
    case 'stations':
      return stations.length > 6
        ? 'Read halfway between all the stations as well'
        : `Read ${places} as well, between those read`;
    case 'put off':
      return `Read ${places}, which ${stations.length === 1 ? 'was' : 'were'} put off`;
    case 'lay again':
      return layings === 1
        ? 'Lay the edge again and read the line once more'
        : `Lay the edge again and read the line ${COUNTS[layings]} more times`;
    case 'log again':
      return layings === 1
        ? 'Log the line once more'
        : `Log the line ${COUNTS[layings]} more times`;
    case 'finer gauge':
      return `Lay the edge again and read the line with a gauge of ${gauge?.text ?? 'a finer division'}`;
    case 'check edge':
      return 'Check the whole straightedge for a bow, and state what was found';
  }
}

/** "13 1/2 and 16 1/2 in", "40, 110 and 260 mm". */
/** Places with their unit behind the last. */
function listedPlaces(stations: readonly Typed[], unit: WorkUnit): string {
  const bare = stations.map(({ mm }) => showPlace(mm, unit).slice(0, -unit.length - 1));
  return `${listed(bare)} ${unit}`;
}

/** A chance in words and tens: it is not known better. */
function oftenWords(chance: number): string {
  const tens = Math.round(10 * chance);
  return tens >= 10
    ? 'decides it nearly always'
    : `decides it about ${tens} time${tens === 1 ? '' : 's'} of 10`;
}
