import { max, min, ticks } from 'd3';
import { heightOn } from '../../src/fairing/straightLine.ts';
import type { PlanPoint } from '../../src/fairing/plan/plan.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { UNITS, showLength } from '../../src/survey/units.ts';
import type { Planned } from './sheetFirst.ts';
import { rounded } from './drawingSize.ts';

/** A worked line's profile before, its target, and after, as drawn on the worksheet. All lengths are mm on paper unless
 *  said otherwise; the target's straight line lies level, TRANSOM left, forward right, the water side down. */
export interface ProfileDrawing {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly before: string;
  readonly target: string;
  readonly after: string;
  readonly tolerance: { readonly y: readonly [number, number]; readonly label: string };
  /** Upright strokes from the surface before to the target. */
  readonly strokes: readonly {
    readonly x: number;
    readonly y1: number;
    readonly y2: number;
    readonly is: 'fill' | 'grind';
  }[];
  /** Stations with their figure, over the drawing. */
  readonly depths: readonly {
    readonly x: number;
    readonly text: string;
    readonly is: 'fill' | 'grind';
  }[];
  readonly along: readonly { readonly x: number; readonly label: string }[];
  readonly across: readonly { readonly y: number; readonly label: string }[];
  /** How far forward the work goes. */
  readonly forward?: number;
  readonly times: number;
}

/** One scale for all lines of a survey, so that their figures compare by eye. */
export interface SheetScale {
  /** mm on paper a mm along the hull. */
  readonly along: number;
  /** Exaggeration across, as printed. */
  readonly times: number;
  /** Farthest forward that is drawn, mm on the hull. */
  readonly end: number;
}

const TIMES = [1, 2, 5, 10, 20, 25, 40, 50, 75, 100] as const;
const TALLEST = 40;
const ROOM = { left: 18, right: 16, top: 13, bottom: 9 } as const;
/** Figures over the drawing stand no closer than this. */
const APART = 8;

export function sheetScale(lines: readonly Planned[], width: number): SheetScale {
  const end = max([1, ...lines.flatMap(({ profile }) => profile.map(({ x }) => x))]) as number;
  const along = (width - ROOM.left - ROOM.right) / end;
  const extents = lines.map((line) => {
    const [low, high] = extentOf(line);
    return high - low;
  });
  const most = max([0.5, ...extents]) as number;
  const fitting = TIMES.filter((times) => most * along * times <= TALLEST);
  return { along, end, times: fitting[fitting.length - 1] ?? 1 };
}

export function sheetProfile(
  plan: Planned,
  scale: SheetScale,
  {
    width,
    tolerance,
    unit,
  }: {
    readonly width: number;
    readonly tolerance: { readonly gap: number; readonly label: string };
    readonly unit: WorkUnit;
  },
): ProfileDrawing {
  const [low, high] = extentOf(plan);
  const across = scale.along * scale.times;
  const x = (mm: number) => rounded(ROOM.left + mm * scale.along);
  const roomy = Math.max(0, 12 - (high - low) * across) / 2;
  const { top } = ROOM;
  const y = (d: number) => rounded(top + roomy + (d - low) * across);
  const bottom = rounded(y(high) + roomy);
  const off = (at: number, z: number) => z - heightOn(plan.target.line, at);
  const path = (of: (p: PlanPoint) => number | undefined) =>
    plan.profile
      .flatMap((p) => {
        const z = of(p);
        return z === undefined ? [] : [`${x(p.x)},${y(off(p.x, z))}`];
      })
      .reduce((d, place) => `${d}${d === '' ? 'M' : 'L'}${place}`, '');
  const strokes = plan.profile.flatMap(({ x: at, before, target }, i) => {
    if (target === undefined) return [];
    const is = target > before ? ('fill' as const) : ('grind' as const);
    const every = is === 'fill' ? 2 : 1;
    if (Math.abs(target - before) * across < 0.4 || i % every !== 0) return [];
    return [{ x: x(at), y1: y(off(at, before)), y2: y(off(at, target)), is }];
  });
  const step = UNITS[unit].mm;
  return {
    width,
    height: rounded(bottom + ROOM.bottom),
    left: ROOM.left,
    right: rounded(width - ROOM.right),
    top,
    bottom,
    before: path((p) => p.before),
    target: path((p) => p.target),
    after: path((p) => p.after),
    tolerance: { y: [y(0), y(-tolerance.gap)], label: tolerance.label },
    strokes,
    depths: depthsOver(plan, unit, x),
    along: alongTicks(scale.end, unit).map((mm) => ({
      x: x(mm),
      label: String(Math.round(mm / step)),
    })),
    across: acrossTicks(low, high, across, unit).map((d) => ({
      y: y(d),
      label: depthLabel(d, unit),
    })),
    ...(plan.target.over[1] < scale.end - 1 && { forward: x(plan.target.over[1]) }),
    times: scale.times,
  };
}

function depthsOver(plan: Planned, unit: WorkUnit, x: (mm: number) => number) {
  let before = -Infinity;
  return plan.stations.flatMap((s) => {
    if (s.is !== 'worked') return [];
    const is = s.fill.rounded >= s.grind.rounded ? ('fill' as const) : ('grind' as const);
    const depth = s[is].rounded;
    const at = x(s.station);
    if (depth === 0 || at - before < APART) return [];
    before = at;
    return [{ x: at, text: depthLabel(depth, unit), is }];
  });
}

/** Hollowest and proudest that is drawn of a line, mm on the hull against its target's straight line. */
function extentOf(plan: Planned): readonly [number, number] {
  const off = plan.profile.flatMap(({ x, before, target, after }) =>
    [before, after, ...(target === undefined ? [] : [target])].map(
      (z) => z - heightOn(plan.target.line, x),
    ),
  );
  return [min([0, ...off]) as number, max([0, ...off]) as number];
}

function alongTicks(end: number, unit: WorkUnit): readonly number[] {
  const { mm } = UNITS[unit];
  if (unit === 'mm') return ticks(0, end, 8);
  const step = [6, 12, 24, 48].find((each) => end / mm / each <= 11) ?? 96;
  return Array.from({ length: Math.floor(end / mm / step + 1e-9) + 1 }, (_, i) => i * step * mm);
}

/** A few depths either side of the target, no closer on paper than their labels are tall. */
function acrossTicks(low: number, high: number, across: number, unit: WorkUnit): readonly number[] {
  const steps =
    unit === 'mm'
      ? [0.5, 1, 2, 5, 10, 20, 50]
      : [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2].map((part) => part * 25.4);
  const step = steps.find((each) => each * across >= 5) ?? steps[steps.length - 1];
  const from = Math.ceil(low / step);
  const to = Math.floor(high / step);
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step);
}

/** Unsigned: which side of the target it lies on says whether it is hollow or proud. */
function depthLabel(d: number, unit: WorkUnit): string {
  const size = Math.abs(d);
  return unit === 'mm'
    ? String(Number(size.toFixed(2)))
    : showLength(size, { unit, denominator: 32 });
}
