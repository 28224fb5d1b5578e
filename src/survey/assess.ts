import { judge } from '../fit/judge.ts';
import { STATIONS_NEEDED, type Profile } from '../fit/posterior.ts';
import { scatterBeyondStated } from '../fit/scatter.ts';
import { slipIn } from '../fit/slip.ts';

import type {
  Judged,
  Limit,
  LineAssessment,
  Remark,
  Repeatability,
  SurveyAssessment,
  TooFew,
} from './assessment.ts';
import { disagreeing, disagreeRemark, withoutReading } from './disagreeing.ts';
import { assessEdges } from './edge/edgeAssessment.ts';
import { edgeUses, type EdgeUse } from './edge/edgeUse.ts';
import { systematicOf } from './edge/systematicOf.ts';
import { fitReadings, roughnessFloor } from './fitReadings.ts';
import { partsOf, stationsIn } from './lineParts.ts';
import { pointsOf } from './pointsOf.ts';
import { SCATTER_TOLD, scatterRemark, slipRemark } from './readingRemarks.ts';
import { remarksOn } from './remarks.ts';
import { repeatabilityOf } from './repeatability.ts';
import type { Line, Placement, Survey, Tolerance } from './survey.ts';
import { byPeriod, SAME_STATION } from './usable.ts';
import {
  columnUncertainties,
  readingCount,
  usableAt,
  usableColumns,
  type UsableColumns,
} from './usableColumns.ts';

/** What the person asks for beyond what the survey says; each goes before the survey's own. mm. */
export interface AssessOptions {
  readonly tolerance?: number;
  readonly over?: number;
  /** Division of the gauge, for every reading. */
  readonly resolution?: number;
  /** Stated repeatability, standard uncertainty; repeats in the survey go before it when they suffice. */
  readonly repeatability?: number;
  readonly limit?: number;
  /** What a straightedge may be out by, for every one without a check, over `edgeLength`, or over its own length. */
  readonly edgeBound?: number;
  /** Length of straightedges whose length nobody stated. */
  readonly edgeLength?: number;
}

/** House defaults, mm: nobody publishes a trade tolerance. */
export const HOUSE_TOLERANCE = { gap: 1.5, over: 1500 } as const;
const TAIL = 300;

/** What a survey's readings prove, line by line.
 *  Throws RangeError on an option that is not a positive length. Lines with too few usable stations are
 *  answered as such, never guessed. Throws RangeError too on a log whose kept file has not been read. The same survey always gives the same assessment. */
export function assess(survey: Survey, options: AssessOptions = {}): SurveyAssessment {
  for (const [name, value] of Object.entries(options)) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a positive length expected, got ${value}`);
    }
  }
  const tolerance = toleranceOf(survey, options);
  const limit = limitOf(survey, options);
  const edgeOf = edgeUses(survey, options);
  const repeatability = repeatabilityOf(
    survey,
    options.repeatability ?? survey.repeatability,
    options.resolution,
    (placement) => edgeOf(placement).errorAt,
  );
  const repeatabilityBeside = (line: Line): Repeatability =>
    repeatability.from === 'repeats'
      ? repeatabilityOf(
          { ...survey, lines: survey.lines.filter((each) => each !== line) },
          options.repeatability ?? survey.repeatability,
          options.resolution,
          (placement) => edgeOf(placement).errorAt,
        )
      : repeatability;
  const { edges, remarks: edgeRemarks } = assessEdges(survey, edgeOf);
  const remarks: Remark[] = [];
  const lines = survey.lines.flatMap((line) =>
    assessLine(line, {
      survey,
      tolerance,
      repeatability,
      repeatabilityBeside,
      limit: options.limit ?? line.limit ?? limit.mm,
      resolution: options.resolution,
      edgeOf,
      remark: (remark) => remarks.push(remark),
    }),
  );
  return {
    survey,
    tolerance,
    limit,
    repeatability,
    edges,
    lines,
    remarks: [...remarks, ...remarksOn(survey, lines, tolerance, edges), ...edgeRemarks],
  };
}

function toleranceOf(survey: Survey, { tolerance, over }: AssessOptions): Tolerance {
  const base = survey.tolerance ?? { ...HOUSE_TOLERANCE, houseDefault: true };
  if (tolerance === undefined && over === undefined) return base;
  return {
    gap: tolerance ?? base.gap,
    over: over ?? base.over,
    houseDefault: tolerance === undefined && base.houseDefault,
  };
}

/** 60 in for those who work in inches, 1500 mm for the others: common practice, no source. */
function limitOf(survey: Survey, { limit }: AssessOptions): Limit {
  const stated = limit ?? survey.limit;
  if (stated !== undefined) return { mm: stated, houseDefault: false };
  return { mm: survey.workUnit === 'in' ? 60 * 25.4 : 1500, houseDefault: true };
}

interface Setting {
  readonly survey: Survey;
  readonly tolerance: Tolerance;
  readonly repeatability: Repeatability;
  /** Found without a line's own repeats, which its placements would have swayed if they contradict each other. */
  readonly repeatabilityBeside: (line: Line) => Repeatability;
  readonly limit: number;
  readonly resolution: number | undefined;
  readonly edgeOf: (placement: Placement) => EdgeUse;
  readonly remark: (remark: Remark) => void;
}

function assessLine(line: Line, setting: Setting): LineAssessment[] {
  const periods = byPeriod(line).filter((placements) =>
    placements.some((p) => readingCount(p) > 0),
  );
  if (periods.length > 1) {
    setting.remark({
      about: 'line',
      line: line.name,
      kind: 'support moved',
      words: `${line.name}: the support was moved between its placements, so what was read before and after is shown apart and never tied.`,
    });
  }
  const parts = periods.flatMap((placements) =>
    partsOf(
      line,
      placements.map((p) =>
        usableColumns(p, setting.survey.workUnit, setting.resolution, setting.edgeOf(p).errorAt),
      ),
      setting.remark,
    ),
  );
  const shown = parts.length > 0 ? parts : [[]];
  return shown.map((part, i) => assessPart(line, part, i + 1, shown.length, setting));
}

function assessPart(
  line: Line,
  group: readonly UsableColumns[],
  part: number,
  parts: number,
  setting: Setting,
): LineAssessment {
  const { tolerance, limit, repeatability } = setting;
  const judgedTo = limit + SAME_STATION / 2;
  const stations = stationsIn(group, judgedTo);
  const plain = group.map((columns) => ({
    x: columns.x,
    gap: columns.gap,
    u: columnUncertainties(columns, repeatability),
  }));
  const within = withinOf(group, plain, judgedTo);
  const common = { line, part, parts, readings: within.count, stations, ...loggedIn(group) };
  const seen = group.map((columns, p) => ({ columns, u: plain[p].u }));
  const picture = { limit: judgedTo, unit: setting.survey.workUnit };
  const profile = stations < STATIONS_NEEDED ? undefined : fitReadings(plain, tolerance.gap, limit);
  if (!profile?.ok) {
    const outcome: TooFew = {
      ok: false,
      reason: 'too few readings',
      n: stations,
      needed: STATIONS_NEEDED,
    };
    return { ...common, outcome, points: pointsOf(seen, picture) };
  }
  const modes = group.map(({ placement }) => setting.edgeOf(placement).modes);
  const systematic = systematicOf(modes, profile, plain);
  const judgement = judge(
    profile,
    {
      tolerance: tolerance.gap,
      over: tolerance.over,
      limit: Math.max(limit, profile.domain[0] + SAME_STATION),
      tail: TAIL,
    },
    systematic,
  );
  const slip = slipIn(plain, roughnessFloor(tolerance.gap), limit);
  if (slip) {
    const reading = usableAt(group[slip.placement], slip.index, setting.survey.workUnit);
    setting.remark(slipRemark(line, reading, slip, setting.survey.workUnit));
  }
  // A slip that is pointed out is not also held against its whole placement.
  const rest = slip === undefined ? group : withoutReading(group, slip);
  if (rest.length > 1) {
    const modesOf = (placement: Placement) => setting.edgeOf(placement).modes;
    for (const each of disagreeing(rest, setting.repeatabilityBeside(line), modesOf)) {
      setting.remark(disagreeRemark(line, each, setting.survey.workUnit));
    }
  }
  if (scatterBeyondStated(profile) > SCATTER_TOLD) {
    setting.remark(scatterRemark(line, repeatability));
  }
  const outcome: Judged = {
    ok: true,
    judgement,
    systematic,
    fitted: { profile, columns: group },
    spacing: shownSpacing(within.spacing, profile),
    readingUncertainty: within.u,
    division: within.division,
  };
  return { ...common, outcome, points: pointsOf(seen, picture, { profile, judgement }) };
}

/** A log's stations may lie nearer together than the knots of the profile, which then say what it can show. */
function shownSpacing({ narrowest, widest }: Judged['spacing'], profile: Profile) {
  const { domain, basis } = profile;
  const knots = basis.breaks.length - 1;
  if (profile.stations <= knots + 1) return { narrowest, widest };
  const step = (domain[1] - domain[0]) / knots;
  return { narrowest: Math.max(narrowest, step), widest: Math.max(widest, step) };
}

function loggedIn(group: readonly UsableColumns[]): Pick<LineAssessment, 'logged'> {
  const logs = group.flatMap(({ placement }) => placement.log ?? []);
  return logs.length === 0 ? {} : { logged: logs.reduce((sum, { count }) => sum + count, 0) };
}

/** What is said of the readings that are judged: how many, how far apart, how well known at worst. */
function withinOf(
  group: readonly UsableColumns[],
  plain: readonly { readonly u: Float64Array }[],
  judgedTo: number,
): { count: number; spacing: Judged['spacing']; u: number; division: number } {
  let u = 0;
  let division = 0;
  const stations = new Float64Array(group.reduce((sum, { x }) => sum + x.length, 0));
  let count = 0;
  group.forEach(({ x, readings, division: step }, p) => {
    for (let i = 0; i < x.length; i++) {
      if (x[i] > judgedTo) continue;
      stations[count] = x[i];
      count += 1;
      u = Math.max(u, plain[p].u[i]);
      division = Math.max(division, step ?? readings?.[i].division ?? division);
    }
  });
  const sorted = stations.subarray(0, count).sort();
  let narrowest = Infinity;
  let widest = 0;
  for (let i = 1; i < count; i++) {
    const step = sorted[i] - sorted[i - 1];
    if (step === 0) continue;
    narrowest = Math.min(narrowest, step);
    widest = Math.max(widest, step);
  }
  return { count, spacing: { narrowest, widest }, u, division };
}
