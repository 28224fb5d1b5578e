import type { Deepest } from '../fit/judge.ts';
import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import { gaugeDivisions } from './gaugeDivisions.ts';

/** The assessment as one plain object, lengths in mm, angles in degrees, rounded to what a micrometre
 *  or a ten-thousandth of a degree can carry. resolution: a gauge division asked for, mm. */
export function assessmentJson(
  { survey, tolerance, limit, repeatability, lines, remarks }: SurveyAssessment,
  resolution?: number,
) {
  return {
    tolerance: { gap: round(tolerance.gap, 4), over: round(tolerance.over, 3) },
    houseDefaults: [
      ...(tolerance.houseDefault ? ['tolerance'] : []),
      ...(limit.houseDefault ? ['limit'] : []),
      ...(gaugeDivisions(survey, resolution).houseDefault ? ['resolution'] : []),
      ...(repeatability.from === 'house default' ? ['repeatability'] : []),
    ],
    limit: round(limit.mm, 3),
    repeatability: { u: round(repeatability.mm, 4), from: repeatability.from },
    lines: lines.map(lineJson),
    remarks: remarks.map(({ kind, line, words }) => ({ kind, ...(line && { line }), words })),
  };
}

function lineJson({ line, part, parts, readings, stations, outcome }: LineAssessment) {
  const head = {
    line: line.name,
    side: line.side,
    offset: round(line.offset, 3),
    ...(parts > 1 && { part, parts }),
    readings,
  };
  if (!outcome.ok) {
    return { ...head, verdict: ['too few readings'], stations, needed: outcome.needed };
  }
  const { judgement } = outcome;
  const { hollow, hump, tail } = judgement;
  return {
    ...head,
    verdict: judgement.verdict,
    hollow: { depth: round(hollow.size, 4), ...chordJson(hollow) },
    hump: { height: round(hump.size, 4), ...chordJson(hump) },
    ...(tail && {
      tail: { angle: round(tail.angle, 4), u: round(tail.u, 4), over: tail.over },
    }),
    fairness: round(judgement.fairness, 4),
    sections: judgement.sections.map((s) => ({
      from: round(s.from, 1),
      to: round(s.to, 1),
      class: s.class,
      proven: s.proven,
      leaning: s.leaning,
      probability: round(s.probability, 4),
    })),
    profile: judgement.profile.map((p) => ({
      x: round(p.x, 2),
      z: round(p.z, 4),
      u: round(p.u, 4),
    })),
  };
}

function chordJson({ u, at, from, to }: Deepest) {
  return { u: round(u, 4), at: round(at, 1), from: round(from, 1), to: round(to, 1) };
}

function round(value: number, decimals: number): number {
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? 0 : rounded;
}
