import type { Deepest } from '../fit/judge.ts';
import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { EdgeAssessment } from '../survey/edge/edgeAssessment.ts';
import type { PanelsAssessment } from '../survey/panels/assessPanels.ts';
import { budgetJson, straightnessJson } from './budgetJson.ts';
import { gaugeDivisions } from './gaugeDivisions.ts';
import { panelsJson } from './panelsJson.ts';
import { rounded } from './rounded.ts';

/** The assessment as one plain object, lengths in mm, angles in degrees, rounded to what a micrometre
 *  or a ten-thousandth of a degree can carry. resolution: a gauge division asked for, mm; panels: where
 *  straightedges were laid across. */
export function assessmentJson(
  all: SurveyAssessment,
  resolution?: number,
  panels?: PanelsAssessment,
) {
  const { survey, tolerance, limit, repeatability, edges, lines, remarks } = all;
  return {
    tolerance: { gap: rounded(tolerance.gap, 4), over: rounded(tolerance.over, 3) },
    houseDefaults: [
      ...(tolerance.houseDefault ? ['tolerance'] : []),
      ...(limit.houseDefault ? ['limit'] : []),
      ...(gaugeDivisions(survey, resolution).houseDefault ? ['resolution'] : []),
      ...(repeatability.from === 'house default' ? ['repeatability'] : []),
    ],
    limit: rounded(limit.mm, 3),
    repeatability: { u: rounded(repeatability.mm, 4), from: repeatability.from },
    edges: edges.map(edgeJson),
    lines: lines.map((line) => lineJson(line, all)),
    ...(panels && panelsJson(panels)),
    remarks: remarks.map(({ kind, line, words }) => ({ kind, ...(line && { line }), words })),
  };
}

/** `bow`: against the line between the ends of what was checked, positive towards the hull, at a distance from end A. */
function edgeJson({
  name,
  length,
  state,
  date,
  bow,
  bound,
  corrected,
  uncorrected,
}: EdgeAssessment) {
  return {
    ...(name !== undefined && { edge: name }),
    ...(length !== undefined && { length: rounded(length, 3) }),
    state,
    ...(date !== undefined && { date }),
    ...(bow && {
      bow: { size: rounded(bow.size, 4), u: rounded(bow.u, 4), at: rounded(bow.at, 1) },
    }),
    ...(bound && { bound: { size: rounded(bound.size, 4), over: rounded(bound.over, 3) } }),
    corrected,
    uncorrected: uncorrected.length,
  };
}

function lineJson(assessed: LineAssessment, all: SurveyAssessment) {
  const { line, part, parts, readings, stations, outcome } = assessed;
  const straightness = straightnessJson(assessed);
  const head = {
    line: line.name,
    side: line.side,
    offset: rounded(line.offset, 3),
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
    hollow: { depth: rounded(hollow.size, 4), ...chordJson(hollow) },
    hump: { height: rounded(hump.size, 4), ...chordJson(hump) },
    ...(tail && {
      tail: { angle: rounded(tail.angle, 4), u: rounded(tail.u, 4), over: tail.over },
    }),
    fairness: rounded(judgement.fairness, 4),
    sections: judgement.sections.map((s) => ({
      from: rounded(s.from, 1),
      to: rounded(s.to, 1),
      class: s.class,
      proven: s.proven,
      leaning: s.leaning,
      probability: rounded(s.probability, 4),
    })),
    profile: judgement.profile.map((p) => ({
      x: rounded(p.x, 2),
      z: rounded(p.z, 4),
      u: rounded(p.u, 4),
    })),
    budget: budgetJson(assessed, all),
    ...(straightness && { straightness }),
  };
}

function chordJson({ u, at, from, to }: Deepest) {
  return { u: rounded(u, 4), at: rounded(at, 1), from: rounded(from, 1), to: rounded(to, 1) };
}
