import type { Side } from '../../survey/survey.ts';
import { pairedMoments } from '../../fit/pairedMoments.ts';
import { simpsonWeights } from '../simpson.ts';
import type { Material } from './options.ts';
import type { Amounts, LinePlan, Range, SideSum, WorkSum } from './plan.ts';
import { WIDE } from './plannedWork.ts';
import type { Width } from './widths.ts';

type Work = 'fill' | 'grind';

/** A line as the sums need it: whether it is judged as it will be does not matter here. */
export type Summed =
  Omit<Extract<LinePlan, { is: 'planned' }>, 'after'> | Exclude<LinePlan, { is: 'planned' }>;

/** A line that the sums go over: its section, and that of one with nothing to do is none. */
interface Node {
  readonly plan: Summed;
  readonly width: Width;
  readonly amounts?: Amounts;
}

/** What each side takes. Between the lines the sections are integrated by Simpson's rules where the lines stand
 *  evenly, else by trapezoids; beyond the innermost and the outermost each section holds for what its line speaks for.
 *  Where a width is stated, each section is multiplied by its line's width instead. */
export function sideSums(
  plans: readonly Summed[],
  widths: ReadonlyMap<string, Width>,
  material: Material,
): readonly SideSum[] {
  return (['port', 'starboard', 'centre'] as const).flatMap((side) => {
    const own = plans.filter(({ line }) => line.side === side);
    return own.length === 0 ? [] : [sideSum(side, own, widths, material)];
  });
}

function sideSum(
  side: Side,
  own: readonly Summed[],
  widths: ReadonlyMap<string, Width>,
  material: Material,
): SideSum {
  const without: { line: string; why: string }[] = [];
  const nodes: Node[] = [];
  for (const plan of own) {
    const width = widths.get(plan.line.id);
    const why = missing(plan, width);
    if (why !== undefined) without.push({ line: plan.line.name, why });
    else if (width !== undefined) {
      nodes.push({ plan, width, ...(plan.is === 'planned' && { amounts: plan.amounts }) });
    }
  }
  nodes.sort((a, b) => a.plan.line.offset - b.plan.line.offset);
  const { weights, rule } = across(nodes);
  const sum = (work: Work) => workSum(nodes, weights, work);
  const fill = sum('fill');
  const passes = Math.max(0, ...nodes.map(({ amounts }) => amounts?.passes ?? NaN).filter(isKnown));
  return {
    side,
    fill,
    grind: sum('grind'),
    ...needs(fill.volume, passArea(nodes), passes, material),
    without,
    rule,
  };
}

const isKnown = (value: number) => !Number.isNaN(value);

function missing(plan: Summed, width: Width | undefined): string | undefined {
  if (plan.is === 'measure first') return plan.why;
  if (plan.is === 'impossible') return 'not possible as asked';
  if (plan.parts > 1) return `read in ${plan.parts} parts that nothing ties: add it by hand`;
  if (plan.is === 'planned' && width === undefined) return 'state the width that it stands for';
  return undefined;
}

/** Weights that make a side's volume of its sections, mm. */
function across(nodes: readonly Node[]): { weights: readonly number[]; rule: WorkSum['rule'] } {
  if (nodes.length === 0) return { weights: [], rule: 'none' };
  const full = nodes.map(({ width }) => width.inner + width.outer);
  const offsets = nodes.map(({ plan }) => plan.line.offset);
  const apart = offsets.every((offset, i) => i === 0 || offset > offsets[i - 1]);
  if (nodes.length === 1 || !apart || nodes.some(({ width }) => width.stated)) {
    return { weights: full, rule: 'widths' };
  }
  const { weights, rule } = simpsonWeights(offsets);
  const last = nodes.length - 1;
  return {
    weights: weights.map(
      (weight, i) =>
        weight + (i === 0 ? nodes[0].width.inner : 0) + (i === last ? nodes[last].width.outer : 0),
    ),
    rule: rule === 'one ordinate' ? 'widths' : rule,
  };
}

function workSum(nodes: readonly Node[], weights: readonly number[], work: Work): WorkSum[Work] {
  if (nodes.length === 0) return {};
  let area = 0;
  const parts: Range[] = [];
  const panels = new Map<
    string,
    { readonly likely: number; readonly possible: readonly number[] }
  >();
  let shared = false;
  nodes.forEach(({ amounts }, i) => {
    if (amounts === undefined) return;
    area += amounts[work].area ?? NaN;
    const { section } = amounts[work];
    const { together } = amounts;
    if (together === undefined) {
      parts.push(times(section, weights[i]));
      shared ||= amounts.shared;
      return;
    }
    const own = together[work].map((value) => value * weights[i]);
    const likely = section.likely * weights[i];
    const sum = panels.get(together.of);
    panels.set(
      together.of,
      sum === undefined
        ? { likely, possible: own }
        : {
            likely: sum.likely + likely,
            possible: sum.possible.map((value, d) => value + own[d]),
          },
    );
  });
  for (const { likely, possible } of panels.values()) parts.push(wide(likely, possible));
  return { ...(isKnown(area) && { area }), volume: addUp(parts, shared) };
}

/** A sum over a panel's lines, as unsure as it is over the surfaces that are possible: what one line has in doubt with
 *  another is counted as it is. */
function wide(likely: number, possible: readonly number[]): Range {
  const out = WIDE * pairedMoments(possible).deviation;
  return { low: Math.max(0, likely - out), likely, high: likely + out };
}

/** What is unsure adds up in squares where lines err each on their own, and plainly where they err alike. */
export function addUp(parts: readonly Range[], shared: boolean): Range {
  const likely = parts.reduce((sum, part) => sum + part.likely, 0);
  const outs = parts.map((part) => part.high - part.likely);
  const out = shared ? outs.reduce((sum, v) => sum + v, 0) : Math.hypot(...outs);
  return { low: Math.max(0, likely - out), likely, high: likely + out };
}

export function times({ low, likely, high }: Range, factor: number): Range {
  return { low: low * factor, likely: likely * factor, high: high * factor };
}

/** Area times passes, mm². */
function passArea(nodes: readonly Node[]): number | undefined {
  let sum = 0;
  for (const { amounts } of nodes) {
    if (amounts === undefined) continue;
    const { area } = amounts.fill;
    if (area === undefined || amounts.passes === undefined) return undefined;
    sum += area * amounts.passes;
  }
  return sum;
}

/** What follows from the volume to fill and the stated material. */
function needs(
  volume: Range | undefined,
  passArea: number | undefined,
  passes: number,
  { density, passLimit, pot, waste = 0, rate }: Material,
): Pick<WorkSum, 'weight' | 'passes' | 'batches' | 'hours'> {
  const litres = volume && times(volume, 1e-6);
  const mixed = litres && times(litres, 1 / (1 - waste));
  const hours =
    rate?.per === 'litre'
      ? litres && times(litres, rate.hours)
      : rate && passArea !== undefined
        ? times(level(passArea * 1e-6), rate.hours)
        : undefined;
  return {
    ...(volume && density !== undefined && { weight: times(volume, density * 1e-3) }),
    ...(passLimit !== undefined && { passes }),
    ...(mixed && pot !== undefined && { batches: whole(times(mixed, 1 / pot)) }),
    ...(hours && { hours }),
  };
}

const level = (value: number): Range => ({ low: value, likely: value, high: value });

function whole({ low, likely, high }: Range): Range {
  const up = (value: number) => Math.ceil(value - 1e-9);
  return { low: up(low), likely: up(likely), high: up(high) };
}

/** All sides together. */
export function totalOf(sides: readonly SideSum[], shared: boolean): WorkSum {
  const ranges = (pick: (side: SideSum) => Range | undefined) => {
    const known = sides.map(pick).filter((range) => range !== undefined);
    return known.length === 0 ? undefined : addUp(known, shared);
  };
  const work = (which: Work): WorkSum[Work] => {
    const areas = sides.map((side) => side[which].area).filter((area) => area !== undefined);
    const volume = ranges((side) => side[which].volume);
    return {
      ...(areas.length > 0 && { area: areas.reduce((sum, area) => sum + area, 0) }),
      ...(volume && { volume }),
    };
  };
  const passes = sides.map((side) => side.passes).filter((count) => count !== undefined);
  const weight = ranges((side) => side.weight);
  const hours = ranges((side) => side.hours);
  const batches = sides.map((side) => side.batches).filter((range) => range !== undefined);
  const rules = new Set(sides.map((side) => side.rule).filter((rule) => rule !== 'none'));
  return {
    fill: work('fill'),
    grind: work('grind'),
    ...(weight && { weight }),
    ...(passes.length > 0 && { passes: Math.max(...passes) }),
    ...(batches.length > 0 && {
      batches: {
        low: batches.reduce((sum, range) => sum + range.low, 0),
        likely: batches.reduce((sum, range) => sum + range.likely, 0),
        high: batches.reduce((sum, range) => sum + range.high, 0),
      },
    }),
    ...(hours && { hours }),
    without: sides.flatMap((side) => side.without),
    rule: rules.size === 0 ? 'none' : rules.size === 1 ? [...rules][0] : 'mixed',
  };
}
