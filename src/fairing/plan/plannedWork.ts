import { pairedMoments } from '../../fit/pairedMoments.ts';
import type { Judged, LineAssessment } from '../../survey/assessment.ts';
import type { Tolerance, Typed } from '../../survey/survey.ts';
import type { WorkUnit } from '../../survey/figures.ts';
import { brokenLine } from '../brokenLine.ts';
import { simpsonWeights } from '../simpson.ts';
import { afterWork } from './afterWork.ts';
import { allowedDepth, depthsTo } from './depths.ts';
import type { Camber } from './options.ts';
import { patchesOf } from './patches.ts';
import type {
  AfterWork,
  PlannedWork,
  PlanPoint,
  Range,
  StationWork,
  Target,
  Together,
} from './plan.ts';
import { carryOver, stationWork } from './stations.ts';
import { followTarget } from './followTarget.ts';
import { turnAhead } from './turnAhead.ts';
import { surfaceDraws } from './surfaceDraws.ts';
import type { Solved, Terms } from './targetProgramme.ts';
import { shapeAt, straightPart, targetHeights, type Stretch } from './targetShape.ts';

export type Possible = Extract<Solved, { ok: true }>;

/** A line whose target is found: which of the solved stretches is its own. */
export interface Found {
  readonly line: LineAssessment;
  readonly judged: Judged;
  readonly solved: Possible;
  readonly stretches: readonly Stretch[];
  readonly own: number;
  readonly terms: Terms;
  readonly camber?: Camber;
  /** The forward limit that was asked for, where the readings end aft of it. */
  readonly asked?: number;
  /** Depths at the stretch's places on each surface that a whole panel's readings leave possible, and which panel. */
  readonly together?: { readonly of: string; readonly depths: readonly Float64Array[] };
}

export interface Setting {
  readonly tolerance: Tolerance;
  readonly unit: WorkUnit;
  readonly step: number;
  readonly planned: readonly Typed[];
  readonly fillLimit?: number;
  readonly passLimit?: number;
}

/** Sections of a line with how unsure they are, mm²: what `amounts` are made of. */
export interface Sections {
  readonly fill: Range;
  readonly grind: Range;
  readonly together?: Together;
}

/** A planned line before its width is known and before it is judged as it will be. */
export type Worked = Omit<PlannedWork, 'amounts' | 'after'> & {
  readonly sections: Sections;
  readonly after: () => AfterWork;
};

/** About 95 of 100, under a normal distribution. */
export const WIDE = 1.96;

/** Figures of one line whose target is found: depths, patches, what is unsure, and what it will be. */
export function plannedWork(found: Found, setting: Setting): Worked {
  const { line, judged, solved, stretches, own, terms } = found;
  const { step, unit, tolerance } = setting;
  const stretch = stretches[own];
  const { x, z } = stretch;
  const last = x.length - 1;
  const target = targetHeights(stretch, solved.figures[own]);
  const depths = depthsTo(z, target, terms);
  const depthAt = brokenLine(x, depths);
  const spread = spreadOf(found, depths);
  const stations = stationWork(line, setting.planned, {
    over: [x[0], x[last]],
    judgedTo: judged.judgement.judged[1],
    step,
    ...(terms.grindLimit !== undefined && { grindLimit: terms.grindLimit }),
    depthAt,
    uAt: brokenLine(x, spread.depth),
  });
  const worked = stations.filter((each) => each.is === 'worked');
  const rounded = roundedDepth(stretch, worked, depthAt, terms);
  const roundedAt = (at: number) => rounded(at, step);
  const fill = patchesOf(
    x,
    Array.from(depths, (d) => Math.max(0, d)),
    step,
  );
  const grind = patchesOf(
    x,
    Array.from(depths, (d) => Math.max(0, -d)),
    step,
    terms.grindLimit,
  );
  const { fillLimit } = setting;
  const tooDeep = worked.filter((each) => each.fill.exact > (fillLimit ?? Infinity));
  return {
    target: targetOf(found, roundedAt),
    profile: profileOf(found, target, roundedAt),
    stations,
    fill,
    grind,
    sections: spread.sections,
    ...(tooDeep.length > 0 && {
      laminateFirst: tooDeep.map(({ station, fill: deep }) => ({ station, fill: deep })),
    }),
    carryOver: carryOver(stations, [...fill, ...grind], unit),
    after: () =>
      afterWork(
        judged,
        {
          exact: (at) => (at > x[last] ? 0 : depthAt(at)),
          rounded,
          step,
          most: Math.max(0, ...worked.map((each) => Math.abs(figureOf(each) - exactOf(each)))),
        },
        tolerance,
        unit,
      ),
  };
}

type WorkedStation = Extract<StationWork, { is: 'worked' }>;

const exactOf = ({ fill, grind }: WorkedStation) => fill.exact - grind.exact;
const figureOf = ({ fill, grind }: WorkedStation) => fill.rounded - grind.rounded;

/** The depth as it will be laid on: what rounding adds at the stations is carried evenly between them, and nothing is
 *  filled or ground by it that the terms do not allow. */
function roundedDepth(
  { x }: Stretch,
  worked: readonly WorkedStation[],
  depthAt: (x: number) => number,
  terms: Terms,
): (at: number, step: number) => number {
  const fore = x[x.length - 1];
  const carried = new Map<number, (at: number) => number>();
  const carriedBy = (step: number) => {
    const known = carried.get(step);
    if (known !== undefined) return known;
    const within = worked.filter(({ station }) => station < fore - 0.5);
    const off = within.map((each) => {
      const exact = exactOf(each);
      const most = exact < 0 ? (terms.grindLimit ?? Infinity) : Infinity;
      const steps = Math.floor(Math.abs(exact) / step + 0.5 + 1e-9);
      const size = steps * step > most + 1e-9 ? (steps - 1) * step : steps * step;
      return Math.sign(exact) * size - exact;
    });
    const line = brokenLine([...within.map(({ station }) => station), fore], [...off, 0]);
    carried.set(step, line);
    return line;
  };
  return (at, step) => (at > fore ? 0 : allowedDepth(depthAt(at) + carriedBy(step)(at), terms));
}

/** How unsure depths and sections are: surfaces are drawn from the posterior, and on each the target is found again. */
function spreadOf(found: Found, likely: Float64Array) {
  const { stretches, own, together } = found;
  const stretch = stretches[own];
  const { x } = stretch;
  const { weights } = simpsonWeights(stretch.x);
  const section = (depths: Float64Array, sign: 1 | -1) => {
    let sum = 0;
    for (let i = 0; i < depths.length; i++) {
      const depth = sign * depths[i];
      if (depth > 0) sum += weights[i] * depth;
    }
    return sum;
  };
  const draws = together?.depths ?? ownDepths(found);
  const sectionsOf = (sign: 1 | -1) => draws.map((depths) => section(depths, sign));
  const [fills, grinds] = [sectionsOf(1), sectionsOf(-1)];
  const range = (sign: 1 | -1, possible: readonly number[]): Range => {
    const middle = section(likely, sign);
    const out = WIDE * pairedMoments(possible).deviation;
    return { low: Math.max(0, middle - out), likely: middle, high: middle + out };
  };
  return {
    depth: x.map((_, i) => pairedMoments(draws.map((depths) => depths[i])).deviation),
    sections: {
      fill: range(1, fills),
      grind: range(-1, grinds),
      ...(together && { together: { of: together.of, fill: fills, grind: grinds } }),
    },
  };
}

/** Depths of a line by itself on each surface that its readings leave possible. */
function ownDepths({ judged, solved, stretches, own, terms }: Found): readonly Float64Array[] {
  const stretch = stretches[own];
  const { x, z } = stretch;
  const last = x.length - 1;
  const follow = followTarget(stretch, solved.figures[own], terms, stretches.length === 1);
  const shapes = x.map((_, i) => shapeAt(stretch, i));
  const target = new Float64Array(last + 1);
  return surfaceDraws(judged, stretch).map((surface) => {
    const { miss, rise } = follow(surface);
    const up = surface[last] - z[last];
    for (let i = 0; i <= last; i++) {
      const { base, perMiss, perRise } = shapes[i];
      target[i] = base + up + miss * perMiss + rise * perRise;
    }
    return depthsTo(surface, target, terms);
  });
}

function targetOf(found: Found, depthAt: (x: number) => number): Target {
  const { judged, solved, stretches, own, terms, camber, asked } = found;
  const stretch = stretches[own];
  const { x, feathered, turn } = stretch;
  const fore = x[x.length - 1];
  const length = fore - feathered;
  const figures = solved.figures[own];
  const ahead = turnAhead(judged, fore, depthAt, length, turn);
  return {
    way: terms.way,
    over: [x[0], fore],
    line: straightPart(stretch, figures),
    ...(camber && { camber }),
    feather: { length, turn },
    meets: {
      at: fore,
      from: feathered,
      turn: length === 0 ? 0 : figures.miss / length,
      ...(asked !== undefined && { asked }),
      ...(ahead && { ahead }),
    },
    cost: solved.cost,
  };
}

function profileOf(
  { judged, stretches, own }: Found,
  target: readonly number[],
  depthAt: (x: number) => number,
): readonly PlanPoint[] {
  const { x } = stretches[own];
  const fore = x[x.length - 1];
  const { profile } = judged.judgement;
  const surface = brokenLine(
    profile.map((p) => p.x),
    profile.map((p) => p.z),
  );
  const u = brokenLine(
    profile.map((p) => p.x),
    profile.map((p) => p.u),
  );
  const ahead = profile.map((p) => p.x).filter((at) => at > fore + 1e-6);
  return [...x, ...ahead].map((at, i) => ({
    x: at,
    before: surface(at),
    ...(i < x.length && { target: target[i] }),
    after: surface(at) + depthAt(at),
    u: u(at),
  }));
}
