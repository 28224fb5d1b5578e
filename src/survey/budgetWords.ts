import type { LineAssessment, SurveyAssessment } from './assessment.ts';
import type { BudgetPart, ResultBudget } from './budget.ts';
import type { BudgetSource } from './budgetSources.ts';
import { showAngle, showMeasured, showPlace, showStretch, type WorkUnit } from './figures.ts';
import { placementsJudged } from './foundApart.ts';
import { laidEdges } from './laidEdges.ts';
import { smallFigure } from './smallFigure.ts';

/** A result's budget in a few sentences. */
export interface BudgetWords {
  /** "Hollow", "Hump", "Tail angle". */
  readonly title: string;
  /** Where most of the doubt comes from, and what would lessen it. */
  readonly headline: string;
  /** The figure that is taken apart, with its uncertainty at 95 %. */
  readonly figure: string;
  /** Where it differs from the figure of the verdict. */
  readonly notes: readonly string[];
}

export const RESULT_TITLES = { hollow: 'Hollow', hump: 'Hump', tail: 'Tail angle' } as const;

function lessenedBy({ kind, distribution }: BudgetSource): string {
  switch (kind) {
    case 'between':
      return 'read closer';
    case 'rounding':
      return 'use a finer gauge';
    case 'repeatability':
      return 'lay the edge again and read the line once more';
    case 'edge':
      // What is known by bounds alone has not been checked; the rest has been checked or worked out.
      return distribution === 'rectangular'
        ? 'have the straightedge checked, or use one that has been'
        : 'check the straightedge itself more closely';
  }
}

/** Results worth taking apart on a screen: the larger departure, and whatever else is told from none. */
export function worthShowing(results: readonly ResultBudget[]): readonly ResultBudget[] {
  const largest = results
    .filter(({ of }) => of !== 'tail')
    .reduce<ResultBudget | undefined>(
      (best, each) => (best && best.shown.value >= each.shown.value ? best : each),
      undefined,
    );
  return results.filter(
    (each) => each === largest || Math.abs(each.shown.value) >= 2 * each.shown.u,
  );
}

/** One budget in words. unit: the person's; a tail angle is in degrees all the same. */
export function budgetWords(result: ResultBudget, unit: WorkUnit): BudgetWords {
  return {
    title: RESULT_TITLES[result.of],
    headline: headline(result),
    figure: figure(result, unit),
    notes: difference(result, unit),
  };
}

function headline({ of, parts }: ResultBudget): string {
  const top = parts.reduce((most, part) => (part.contribution > most.contribution ? part : most));
  const about = of === 'tail' ? 'the tail angle' : `the ${of}`;
  const most = top.share > 50 ? 'Most of the doubt' : 'The largest part of the doubt';
  return `${most} about ${about} (${top.share} %) is ${inSentence(top)}: ${lessenedBy(top)}.`;
}

function inSentence({ kind, name }: BudgetPart): string {
  if (kind === 'between') return 'what lies between the stations';
  return kind === 'rounding' ? `the ${name}` : name;
}

function figure({ of, chord, value, expanded }: ResultBudget, unit: WorkUnit): string {
  // What is shown after ± is twice what is given.
  const half = expanded / 2;
  if (!chord) {
    const way = value > 0 ? 'down' : 'up';
    return `Taken apart here: the tail turned ${way} by ${showAngle(Math.abs(value), half)} (95 %).`;
  }
  const which = of === 'hollow' ? 'below' : 'above';
  return `Taken apart here: ${showMeasured(value, half, unit)} (95 %) ${which} a straight line laid from ${showStretch(chord.from, chord.to, unit)}, near ${showPlace(chord.at, unit)}.`;
}

/** From here on figures of the verdict and of the budget, and readings and what was taken of them, are told
 *  apart in words. */
const APART = 0.15;

function difference({ of, value, u, shown, chord }: ResultBudget, unit: WorkUnit): string[] {
  if (Math.abs(shown.u / u - 1) <= APART && Math.abs(shown.value - value) <= u / 2) return [];
  const in_ = of === 'tail' ? '°' : unit;
  const both = `standard uncertainty ${smallFigure(shown.u, in_)} there, ${smallFigure(u, in_)} here`;
  if (!chord) return [`The verdict's tail angle comes from draws: ${both}.`];
  return [
    `The verdict's figure, ${showMeasured(shown.value, shown.u, unit)}, is of the ${of === 'hollow' ? 'deepest' : 'highest'} place wherever it may lie, and allows for a corner there; this one is of one straight line at one place of an even bottom: ${both}. The verdict goes by its own.`,
  ];
}

/** What is to be said of a line's budgets as a whole: whether its readings scatter as was taken, and what
 *  the budgets do not hold. */
export function budgetNotes(
  line: LineAssessment,
  results: readonly ResultBudget[],
  { edges }: Pick<SurveyAssessment, 'edges'>,
): readonly string[] {
  const notes: string[] = [];
  if (results.length === 0) return notes;
  const placements = placementsJudged(line);
  const { noise } = results[0];
  if (noise >= 1 + APART || noise <= 1 / (1 + APART)) {
    notes.push(
      `The readings scatter ${noise > 1 ? 'more' : 'less'} than was taken: what they bring is reckoned with ${noise.toFixed(1)} times their own uncertainty.`,
    );
  }
  if (laidEdges(edges, placements).some(({ state }) => state === 'not stated')) {
    notes.push(
      'The straightedge was taken as straight: its own bow is not in the budget, since nobody checked it or said what it may be out by.',
    );
  }
  if (placements.some(({ held }) => held === 'blocks')) {
    notes.push(
      'The height of the blocks drops out of every figure, and a difference between the two with it: it only tilts the edge.',
    );
  }
  return notes;
}
