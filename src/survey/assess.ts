import { max, min } from 'simple-statistics';
import { judge } from '../fit/judge.ts';
import { placementLines, STATIONS_NEEDED, type Profile } from '../fit/posterior.ts';
import { scatterBeyondStated } from '../fit/scatter.ts';
import { slipIn } from '../fit/slip.ts';
import { tiedGroups } from '../fit/tied.ts';

import type {
  Judged,
  Limit,
  LineAssessment,
  ReadingPoint,
  Remark,
  Repeatability,
  SurveyAssessment,
  TooFew,
} from './assessment.ts';
import { assessEdges } from './edge/edgeAssessment.ts';
import { edgeUses, type EdgeUse } from './edge/edgeUse.ts';
import { systematicOf } from './edge/systematicOf.ts';
import { fitReadings, roughnessFloor } from './fitReadings.ts';
import { SCATTER_TOLD, scatterRemark, slipRemark } from './readingRemarks.ts';
import { remarksOn } from './remarks.ts';
import type { Line, Placement, Survey, Tolerance } from './survey.ts';
import {
  asPlacement,
  byPeriod,
  readingUncertainty,
  repeatabilityOf,
  SAME_STATION,
  usableReadings,
  type UsableReading,
} from './usable.ts';

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
 *  answered as such, never guessed. The same survey always gives the same assessment. */
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
  const { edges, remarks: edgeRemarks } = assessEdges(survey, edgeOf);
  const remarks: Remark[] = [];
  const lines = survey.lines.flatMap((line) =>
    assessLine(line, {
      survey,
      tolerance,
      repeatability,
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
  readonly limit: number;
  readonly resolution: number | undefined;
  readonly edgeOf: (placement: Placement) => EdgeUse;
  readonly remark: (remark: Remark) => void;
}

function assessLine(line: Line, setting: Setting): LineAssessment[] {
  const periods = byPeriod(line).filter((placements) =>
    placements.some((p) => p.readings.length > 0),
  );
  if (periods.length > 1) {
    setting.remark({
      about: 'line',
      line: line.name,
      kind: 'support moved',
      words: `${line.name}: the support was moved between its placements, so what was read before and after is shown apart and never tied.`,
    });
  }
  const parts = periods.flatMap((placements) => partsOf(line, placements, setting));
  const shown = parts.length > 0 ? parts : [[]];
  return shown.map((part, i) => assessPart(line, part, i + 1, shown.length, setting));
}

/** One part a tied group. Placements too short to have a shape of their own, and tied to nothing,
 *  are set aside with a remark; untied groups are parts of their own, never bridged. */
function partsOf(line: Line, placements: readonly Placement[], setting: Setting) {
  const usable = placements
    .map((p) =>
      usableReadings(p, setting.survey.workUnit, setting.resolution, setting.edgeOf(p).errorAt),
    )
    .filter((readings) => readings.length > 0);
  const plain = usable.map((readings) => asPlacement(readings, () => 1));
  const groups = tiedGroups(plain, SAME_STATION).map((group) => group.map((i) => usable[i]));
  const told = groups.filter((group) => stationsIn(group.flat()) >= 3);
  const kept = told.length > 0 ? told : groups.slice(0, 1);
  for (const group of groups) {
    if (kept.includes(group)) continue;
    setting.remark({
      about: 'placement',
      line: line.name,
      kind: 'placement says nothing',
      words: `${line.name}, placement ${group[0][0].placement.name}: ${strayWords(group.flat().length)} no two stations with another placement, and so ${group.flat().length === 1 ? 'says' : 'say'} nothing of the shape; not used.`,
    });
  }
  if (kept.length > 1) {
    setting.remark({
      about: 'line',
      line: line.name,
      kind: 'placements not tied',
      words: `${line.name}: its placements share fewer than two stations, so it is shown as ${kept.length} profiles. Lay the edge once more so that it shares two stations or more with both.`,
    });
  }
  return kept;
}

function strayWords(count: number): string {
  return count === 1 ? 'one reading that shares' : `${count} readings that share`;
}

function stationsIn(readings: readonly UsableReading[]): number {
  return new Set(readings.map((r) => Math.round(r.reading.station.mm / SAME_STATION))).size;
}

function assessPart(
  line: Line,
  group: readonly (readonly UsableReading[])[],
  part: number,
  parts: number,
  setting: Setting,
): LineAssessment {
  const { tolerance, limit, repeatability } = setting;
  const all = group.flat();
  const within = all.filter((r) => r.reading.station.mm <= limit + SAME_STATION / 2);
  const stations = stationsIn(within);
  const uncertainty = (r: UsableReading) => readingUncertainty(r, repeatability);
  const common = { line, part, parts, readings: within.length, stations };
  const plain = group.map((readings) => asPlacement(readings, uncertainty));
  const profile = stations < STATIONS_NEEDED ? undefined : fitReadings(plain, tolerance.gap, limit);
  if (!profile?.ok) {
    const outcome: TooFew = {
      ok: false,
      reason: 'too few readings',
      n: stations,
      needed: STATIONS_NEEDED,
    };
    return { ...common, outcome, points: pointsOf(group, limit, uncertainty) };
  }
  const modes = group.map((readings) => setting.edgeOf(readings[0].placement).modes);
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
    const reading = group[slip.placement][slip.index];
    setting.remark(slipRemark(line, reading, slip, setting.survey.workUnit));
  }
  if (scatterBeyondStated(profile) > SCATTER_TOLD) {
    setting.remark(scatterRemark(line, repeatability));
  }
  const outcome: Judged = {
    ok: true,
    judgement,
    systematic,
    fitted: { profile, readings: group },
    spacing: spacingOf(within),
    readingUncertainty: max(within.map(uncertainty)),
    division: max(within.map((r) => r.division)),
  };
  return {
    ...common,
    outcome,
    points: pointsOf(group, limit, uncertainty, { profile, judgement }),
  };
}

function spacingOf(readings: readonly UsableReading[]): Judged['spacing'] {
  const x = [...new Set(readings.map((r) => r.reading.station.mm))].sort((a, b) => a - b);
  const steps = x.slice(1).map((value, i) => value - x[i]);
  return { narrowest: min(steps), widest: max(steps) };
}

function pointsOf(
  group: readonly (readonly UsableReading[])[],
  limit: number,
  uncertainty: (r: UsableReading) => number,
  fitted?: { readonly profile: Profile; readonly judgement: Judged['judgement'] },
): ReadingPoint[] {
  const datum = fitted && placementLines(fitted.profile);
  return group
    .flatMap((readings, p) =>
      readings.map((r): ReadingPoint => {
        const { station, gap, look, source } = r.reading;
        const common = {
          station: station.mm,
          stationText: station.text,
          gap: r.gap,
          gapText: gap.text,
          u: uncertainty(r),
          placement: r.placement.id,
          look,
          judged: station.mm <= limit + SAME_STATION / 2,
          source,
        };
        if (!fitted || !datum) return common;
        const { reference } = fitted.judgement;
        const own = datum[p].offset + datum[p].tilt * (station.mm - fitted.profile.domain[0]);
        const line = reference.level + reference.slope * (station.mm - reference.middle);
        return { ...common, z: own - r.gap - line };
      }),
    )
    .sort((a, b) => a.station - b.station);
}
