import { chordsOn, hollow, hump } from '../fit/departures.ts';
import type { Deepest, Judgement } from '../fit/judge.ts';
import { movement } from '../fit/movement.ts';
import type { Surveyed } from '../fit/differenceDraws.ts';
import { STATIONS_NEEDED } from '../fit/posterior.ts';
import type { Judged, LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { Change, NotCompared, SectionChange, SizedChange, Way } from './comparison.ts';
import { sameEdge } from './unlikeBetween.ts';

/** Length of the tail whose angle is followed, mm: that of an assessment. */
const TAIL = 300;

export interface ChangeQuestion {
  readonly tolerance: number;
  readonly least: number;
  readonly over: number;
}

/** What one line did between two surveys. Lengths in mm. What the one edge did to both surveys alike cancels; edges
 *  that differ, that nobody named, or of which different things are known, count in both. */
export function lineChange(
  first: LineAssessment,
  second: LineAssessment,
  one: SurveyAssessment,
  two: SurveyAssessment,
  { tolerance, least, over }: ChangeQuestion,
): Change | NotCompared {
  const refuse = (reason: NotCompared['reason']): NotCompared => ({
    ok: false,
    reason,
    unlike: [],
  });
  if (!first.outcome.ok || !second.outcome.ok) return refuse('too few readings');
  const [a, b] = [first.outcome, second.outcome];
  const cancels =
    sameEdge({ first: first.line, second: second.line }) === 'same' &&
    sameKnowledge(first, second, one, two);
  const [before, after] = [a, b].map((judged) => surveyed(judged, cancels));
  if (!before || !after) return refuse('too few readings');
  const limit = Math.min(a.judgement.judged[1], b.judgement.judged[1]);
  const aft = Math.max(a.judgement.judged[0], b.judgement.judged[0]);
  if ([first, second].some((line) => stationsWithin(line, aft, limit) < STATIONS_NEEDED)) {
    return refuse('no common stretch');
  }
  const moved = movement(before, after, { over, limit, tail: TAIL, tolerance, least });
  if (!moved.ok) return refuse(moved.reason);
  const wayAt = wayBetween(a.judgement, b.judgement, over);
  return {
    ok: true,
    outcome: moved.class,
    sections: moved.sections.map(
      ({ from, to, class: outcome, way, probability }): SectionChange => {
        const common = { from, to, outcome, probability };
        if (way === 'none') return common;
        const deepest = way === 'in' ? moved.inward : moved.outward;
        const inside = deepest.at >= from && deepest.at <= to;
        return { ...common, way: wayAt(way, inside ? deepest.at : (from + to) / 2) };
      },
    ),
    inward: sized(moved.inward, wayAt('in', moved.inward.at)),
    outward: sized(moved.outward, wayAt('out', moved.outward.at)),
    ...(moved.tail && { tail: moved.tail }),
    threshold: moved.threshold,
    visible: moved.visible,
    stillness: moved.stillness,
    difference: moved.difference,
    compared: moved.compared,
    edge: cancels
      ? 'cancels'
      : a.systematic.length + b.systematic.length > 0
        ? 'counts in both'
        : 'taken as straight',
  };
}

function surveyed({ fitted, systematic }: Judged, cancels: boolean): Surveyed | undefined {
  if (!fitted) return undefined;
  return { profile: fitted.profile, ...(!cancels && { systematic }) };
}

/** An edge that one survey corrects by a check and the other does not is not out alike in both. */
function sameKnowledge(
  first: LineAssessment,
  second: LineAssessment,
  one: SurveyAssessment,
  two: SurveyAssessment,
): boolean {
  const known = ([line, survey]: readonly [LineAssessment, SurveyAssessment]) => {
    const names = new Set(line.line.placements.map(({ edge }) => edge));
    const states = survey.edges
      .filter(({ name }) => names.has(name))
      .map(({ state, date, corrected, uncorrected }) => [
        state,
        date,
        corrected > 0,
        uncorrected.length > 0,
      ]);
    return JSON.stringify(states);
  };
  return known([first, one]) === known([second, two]);
}

function stationsWithin({ points }: LineAssessment, from: number, to: number): number {
  const within = points.filter(({ station }) => station >= from - 1 && station <= to + 1);
  return new Set(within.map(({ station }) => Math.round(station))).size;
}

function sized(deepest: Deepest, way: Way): SizedChange {
  return { ...deepest, way };
}

/** What going hollow or proud did at a place: to the hollow or the hump that is there before or after. */
function wayBetween(before: Judgement, after: Judgement, over: number) {
  const [one, two] = [before, after].map(({ profile }) => {
    const on = chordsOn(
      profile.map((p) => p.x),
      over,
    );
    const z = Float64Array.from(profile, (p) => p.z);
    const sizes = { hollow: hollow(z, on), hump: hump(z, on) };
    return (what: 'hollow' | 'hump', at: number): number => {
      let nearest = 0;
      for (let i = 1; i < on.x.length; i++) {
        if (Math.abs(on.x[i] - at) < Math.abs(on.x[nearest] - at)) nearest = i;
      }
      return sizes[what][nearest];
    };
  });
  return (way: 'in' | 'out', at: number): Way => {
    if (way === 'in') return two('hollow', at) >= one('hump', at) ? 'hollow deeper' : 'hump lower';
    return two('hump', at) > one('hollow', at) ? 'hump higher' : 'hollow shallower';
  };
}
