import { WORK_STEP_WORDS } from '../../src/fairing/workStep.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { measuredParts, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { Typed } from '../../src/survey/survey.ts';
import type { Check, Paper, SheetChoices } from './sheetChoices.ts';
import { sheetLine, type SheetLine } from './sheetLine.ts';
import { sheetPlan, type PlanDrawing } from './sheetPlan.ts';
import { sheetProfile, sheetScale, type ProfileDrawing } from './sheetProfile.ts';
import { GATES, REFERENCE_WORDS, STRUCTURE, UNCHECKED } from './sheetWords.ts';
import { withUnit } from './readingText.ts';
import { stationKey } from './readingsView.ts';

export interface SheetFrom {
  readonly assessment: SurveyAssessment;
  readonly hull?: HullState;
  /** Of the survey, where stated. */
  readonly place?: string;
  readonly by?: string;
  /** Stations that were planned; without any, those that more than half of the lines have. */
  readonly planned?: readonly Typed[];
  readonly choices: SheetChoices;
  readonly unit: WorkUnit;
}

/** The whole worksheet in words and drawings, ready to be set. */
export interface SheetView {
  readonly paper: Paper;
  readonly unit: WorkUnit;
  readonly hull: string;
  readonly date: string;
  readonly invented: boolean;
  readonly facts: readonly Fact[];
  readonly conditions: readonly Fact[];
  readonly tolerance: string;
  readonly judgedTo: string;
  readonly reference: string;
  readonly rounding: string;
  readonly grindLimit: string;
  readonly checks: readonly {
    readonly asks: string;
    readonly answer: Check;
    readonly stops: boolean;
  }[];
  /** Set where a gate stops the work. */
  readonly stop?: string;
  /** Set where a gate is not checked yet. */
  readonly unchecked?: string;
  readonly plan: PlanDrawing;
  readonly lines: readonly (SheetLine & { readonly profile?: ProfileDrawing })[];
  /** What the readings suggest of the whole hull. */
  readonly remarks: readonly string[];
}

export interface Fact {
  readonly label: string;
  readonly value: string;
}

/** mm on paper that a profile takes: what both A4 and Letter have between their margins. */
const PROFILE_WIDTH = 184;

/** Everything a worksheet says, from a survey's assessment, what is known of the hull and the person's choices.
 *  Throws RangeError on a grind limit that is not above 0. */
export function sheetView(from: SheetFrom): SheetView {
  const { assessment, hull, choices, unit } = from;
  const { survey, tolerance, limit } = assessment;
  const planned = from.planned?.length ? from.planned : commonStations(assessment);
  const done = assessment.lines.map((line) => sheetLine(line, assessment, planned, choices, unit));
  const scale = sheetScale(done, PROFILE_WIDTH);
  const checks = GATES.map(({ check, asks, stops }) => {
    const answer = choices.checks[check];
    return { asks, answer, stops: answer === stops };
  });
  return {
    paper: choices.paper,
    unit,
    hull: hull?.hull?.name ?? survey.hull ?? 'hull not named',
    date: survey.date ?? 'on a date not stated',
    invented: hull?.hull?.invented === true,
    facts: hullFacts(hull, unit),
    conditions: conditionFacts(from),
    tolerance: `${toleranceText(tolerance.gap, tolerance, unit)} over ${toleranceText(tolerance.over, tolerance, unit)}, ${
      tolerance.houseDefault
        ? 'house default: nobody has set one'
        : tolerance.setBy === undefined
          ? 'who set it is not stated'
          : `set by ${tolerance.setBy}`
    }`,
    judgedTo: `${showTolerance(limit.mm, unit)} forward of the transom${limit.houseDefault ? ' (house default)' : ''}`,
    reference: REFERENCE_WORDS[choices.reference],
    rounding: `Fill and grind ${WORK_STEP_WORDS[unit]}`,
    grindLimit:
      choices.grindLimit === undefined
        ? 'none stated: nothing may be ground'
        : `${showTolerance(choices.grindLimit, unit)} at most, and never into laminate`,
    checks,
    ...(checks.some(({ stops }) => stops) && { stop: STRUCTURE }),
    ...(checks.some(({ answer }) => answer === 'NOT CHECKED') && { unchecked: UNCHECKED }),
    plan: sheetPlan(assessment, hull),
    lines: done.map((each) => {
      const profile = sheetProfile(each, scale, {
        width: PROFILE_WIDTH,
        tolerance: { gap: tolerance.gap, label: toleranceText(tolerance.gap, tolerance, unit) },
        unit,
      });
      return { ...each.sheet, ...(profile && { profile }) };
    }),
    remarks: assessment.remarks.filter(({ about }) => about === 'survey').map(({ words }) => words),
  };
}

/** A house default is told as it is set, in mm: it is no whole fraction of an inch. */
function toleranceText(
  mm: number,
  { houseDefault }: SurveyAssessment['tolerance'],
  unit: WorkUnit,
): string {
  return showTolerance(mm, houseDefault ? 'mm' : unit);
}

/** Stations that more than half of the lines have: one that a line lacks was meant to be read there too. */
function commonStations({ survey }: SurveyAssessment): readonly Typed[] {
  const seen = new Map<number, { station: Typed; lines: number }>();
  for (const { placements } of survey.lines) {
    const here = new Map<number, Typed>();
    for (const { readings, voids, later } of placements) {
      for (const { station } of [...readings, ...voids, ...later]) {
        here.set(stationKey(station.mm), station);
      }
    }
    for (const [key, station] of here) {
      const known = seen.get(key);
      seen.set(key, { station, lines: known === undefined ? 1 : known.lines + 1 });
    }
  }
  return [...seen.values()]
    .filter(({ lines }) => 2 * lines > survey.lines.length)
    .map(({ station }) => station);
}

function hullFacts(state: HullState | undefined, unit: WorkUnit): readonly Fact[] {
  const hull = state?.hull;
  if (hull === undefined) return [];
  const { hin, year, length, beamAtChine, deadrise, propulsion } = hull;
  return facts([
    ['HIN', hin],
    ['Year', year === undefined ? undefined : String(year)],
    ['Length', length && withUnit(length, unit)],
    ['Beam at chine', beamAtChine && withUnit(beamAtChine, unit)],
    ['Deadrise', deadrise && `${deadrise.degrees}°`],
    ['Propulsion', propulsion],
  ]);
}

function conditionFacts({ assessment, place, by, unit }: SheetFrom): readonly Fact[] {
  const { survey, repeatability } = assessment;
  const support = survey.support.map(({ what, at, engine, checkedBy }) =>
    [
      what,
      ...(at === undefined ? [] : [`since ${at}`]),
      ...(engine === undefined ? [] : [`engine ${engine}`]),
      ...(checkedBy === undefined ? [] : [`checked by ${checkedBy}`]),
    ].join(', '),
  );
  const radius = survey.transomRadius;
  const spread = measuredParts(0, repeatability.mm / 2, unit).spread;
  return facts([
    ['Place', place],
    ['Measured by', by],
    ['Stands on', support.length === 0 ? undefined : support.join('; then ')],
    [
      'Transom edge',
      radius === undefined
        ? undefined
        : radius === 0
          ? 'sharp'
          : `radius ${showTolerance(radius, unit)}: nothing was read on it. The first figure is carried straight aft to the transom.`,
    ],
    ...Object.entries(survey.conditions)
      .filter(([about]) => !/^(transom radius|tolerance|limit of the straight run)$/i.test(about))
      .map(([about, said]): readonly [string, string] => [capital(about), said]),
    ['Repeatability', `${spread} ${unit}, ${repeatability.from}`],
  ]);
}

function facts(
  rows: readonly (readonly [label: string, value: string | undefined])[],
): readonly Fact[] {
  return rows.flatMap(([label, value]) =>
    value === undefined || value.trim() === '' ? [] : [{ label, value }],
  );
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
