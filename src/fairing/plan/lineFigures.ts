import type { Judged, LineAssessment, SurveyAssessment } from '../../survey/assessment.ts';
import { hookOrRocker } from '../hookOrRocker.ts';
import { WORK_STEP } from '../workStep.ts';
import type { TiedPanel } from '../../survey/panels/tiedPanels.ts';
import { solvePanelGroup } from '../panel/panelGroup.ts';
import { checkOptions } from './checkOptions.ts';
import { hindranceWords, tooNearTransom } from './hindrance.ts';
import type { Feather, Material, PlanOptions } from './options.ts';
import type { Amounts, LineFacts, LinePlan, WorkPlan } from './plan.ts';
import { plannedWork, type Found, type Setting, type Worked } from './plannedWork.ts';
import { sideSums, times, totalOf, type Summed } from './sums.ts';
import { solveTarget, type Terms } from './targetProgramme.ts';
import { stretchOf, type Stretch } from './targetShape.ts';
import { widthsOf, type Width } from './widths.ts';

/** Cost of a mm ground against a mm filled, where nobody says: what is ground off is the hull. House default. */
export const GRIND_WEIGHT = 3;
/** Length of the feather, mm, and the part of the tolerance that it may take up. House defaults. */
export const FEATHER = { length: 300, ofTolerance: 1 / 10 } as const;
/** Lines to port and starboard match within this, mm, as where their shapes are compared. */
const MATCHING = 10;

/** What a plan and a comparison of ways have in common. */
export interface Figured {
  /** Lines that are planned, or cannot be; the others are not in it. */
  readonly worked: ReadonlyMap<LineAssessment, Worked | Impossible>;
  readonly setting: Setting & { readonly feather: Feather; readonly material?: Material };
  readonly widths: ReadonlyMap<string, Width>;
}

type Untouched = Extract<LinePlan, { is: 'nothing to do' | 'measure first' }>;
type Impossible = Extract<LinePlan, { is: 'impossible' }>;

/** Figures of every line that is to be worked, or why it cannot be. Errors as `workPlan`. */
export function figuresOf(assessment: SurveyAssessment, options: PlanOptions): Figured {
  checkOptions(options);
  const { unit, material, fillLimit } = options;
  const { tolerance, survey } = assessment;
  const feather = options.feather ?? {
    length: FEATHER.length,
    turn: (FEATHER.ofTolerance * tolerance.gap) / FEATHER.length,
  };
  const setting = {
    tolerance,
    unit,
    step: options.step ?? WORK_STEP[unit],
    planned: options.planned ?? [],
    ...(fillLimit !== undefined && { fillLimit }),
    ...(material && { material }),
    feather,
  };
  const worked = new Map<LineAssessment, Worked | Impossible>();
  const solve = (group: Group) =>
    group.panel === undefined
      ? solveGroup(group.members, feather, options)
      : solvePanel({ ...group, panel: group.panel }, options, setting);
  for (const found of groupsOf(assessment.lines, options)) {
    const group = found.members;
    const outcome = solve(found);
    group.forEach(({ line }, i) => {
      const own = outcome[i];
      worked.set(line, 'is' in own ? own : plannedWork(own, setting));
    });
  }
  return { worked, setting, widths: widthsOf(survey.lines, options.widths) };
}

/** What the lines take, side by side and in all. */
export function sumsOf(
  lines: readonly Summed[],
  widths: ReadonlyMap<string, Width>,
  material: Material,
): Pick<WorkPlan, 'sides' | 'total'> {
  const sides = sideSums(lines, widths, material);
  const shared = lines.some((plan) => plan.is === 'planned' && plan.amounts.shared);
  return { sides, total: totalOf(sides, shared) };
}

interface Member {
  readonly line: LineAssessment;
  readonly judged: Judged;
}

interface Group {
  readonly members: readonly Member[];
  readonly panel?: TiedPanel;
}

/** Lines to be planned: one by one, port with starboard where they are to be alike, or panel by panel. */
function groupsOf(
  lines: readonly LineAssessment[],
  { alike, also = [], panel: choice }: PlanOptions,
): readonly Group[] {
  const members = lines.flatMap((line): Member[] =>
    line.outcome.ok ? [{ line, judged: line.outcome }] : [],
  );
  const asked = ({ line, judged }: Member) =>
    also.includes(line.line.id) || hookOrRocker(judged.judgement.verdict);
  const done = new Set<Member>();
  const groups: Group[] = [];
  for (const panel of choice?.tied ?? []) {
    const own = panel.lines.flatMap(({ id }) =>
      members.filter(
        (each) => each.line.line.id === id && each.line.parts === 1 && !done.has(each),
      ),
    );
    if (own.length === 0 || !own.some(asked)) continue;
    own.forEach((each) => done.add(each));
    groups.push({ members: own, panel });
  }
  for (const member of members) {
    if (done.has(member)) continue;
    const other =
      alike === true && choice === undefined
        ? members.find((m) => !done.has(m) && matches(member, m))
        : undefined;
    const group = other === undefined ? [member] : [member, other];
    if (!group.some(asked)) continue;
    group.forEach((each) => done.add(each));
    groups.push({ members: group });
  }
  return groups;
}

function matches({ line: a }: Member, { line: b }: Member): boolean {
  const sides = [a.line.side, b.line.side];
  return (
    sides.includes('port') &&
    sides.includes('starboard') &&
    Math.abs(a.line.offset - b.line.offset) <= MATCHING &&
    a.parts === 1 &&
    b.parts === 1
  );
}

/** A target for each member, or why it has none. */
function solveGroup(
  group: readonly Member[],
  feather: Feather,
  options: PlanOptions,
): readonly (Found | Impossible)[] {
  const { way, grindLimit, grindWeight = GRIND_WEIGHT, camber, unit } = options;
  const ends = group.map(({ judged }) => judged.judgement.judged[1]);
  const forward = Math.min(options.forward ?? Infinity, ...ends);
  const stretches: Stretch[] = [];
  for (const { judged } of group) {
    const stretch = stretchOf(judged.judgement.profile, forward, feather, camber);
    if (stretch !== undefined) stretches.push(stretch);
  }
  if (stretches.length < group.length) {
    const because = tooNearTransom(forward, unit);
    return group.map(({ line }) => ({ ...factsOf(line), is: 'impossible', because }));
  }
  const terms: Terms = { way, grindWeight, ...(grindLimit !== undefined && { grindLimit }) };
  const unstated = way === 'grind only' && grindLimit === undefined;
  const solved = unstated ? undefined : solveTarget(stretches, terms);
  if (solved?.ok) {
    return group.map(({ line, judged }, own): Found => ({
      line,
      judged,
      solved,
      stretches,
      own,
      terms,
      ...(camber && { camber }),
      ...(options.forward !== undefined &&
        options.forward > forward + 0.5 && { asked: options.forward }),
    }));
  }
  // Without a stated limit it is still worth saying what grinding would take: the least that would do.
  const least = solved ?? solveTarget(stretches, { ...terms, grindLimit: 1e-3 });
  if (least.ok) {
    // Nothing stands above a straight line by a thousandth of a mm: there is nothing to grind.
    return group.map(({ line, judged }, own) => ({
      line,
      judged,
      solved: least,
      stretches,
      own,
      terms,
    }));
  }
  const because = hindranceWords(least, grindLimit, unit);
  return group.map(({ line }) => ({ ...factsOf(line), is: 'impossible', because }));
}

/** The part of the tolerance that a panel's feather may take up: one target does not meet every line. House default. */
const PANEL_FEATHER = 1 / 2;

function solvePanel(
  group: Group & { readonly panel: TiedPanel },
  options: PlanOptions,
  { tolerance, unit }: Setting,
): readonly (Found | Impossible)[] {
  const { way, grindLimit, grindWeight = GRIND_WEIGHT, camber, forward, panel } = options;
  if (panel === undefined) throw new RangeError('a target for panels expected');
  const turn = (PANEL_FEATHER * tolerance.gap) / FEATHER.length;
  const solved = solvePanelGroup(group, panel, {
    feather: options.feather ?? { length: FEATHER.length, turn },
    terms: { way, grindWeight, ...(grindLimit !== undefined && { grindLimit }) },
    tolerance: tolerance.gap,
    unit,
    ...(camber && { camber }),
    ...(forward !== undefined && { asked: forward }),
  });
  if (solved.is === 'found') return solved.found;
  return group.members.map(({ line }) => ({
    ...factsOf(line),
    is: 'impossible',
    because: solved.because,
  }));
}

/** A line's figures with what it takes over the width that it stands for. */
export function planOf(
  { sections, after: _, ...work }: Worked,
  line: LineAssessment,
  widths: ReadonlyMap<string, Width>,
  { passLimit }: Material,
): Omit<Extract<LinePlan, { is: 'planned' }>, 'after'> {
  const known = widths.get(line.line.id);
  const width = known && known.inner + known.outer;
  const amount = (which: 'fill' | 'grind') => ({
    section: sections[which],
    ...(width !== undefined && {
      area: width * work[which].reduce((sum, { from, to }) => sum + to - from, 0),
      volume: times(sections[which], width),
    }),
  });
  const deepest = Math.max(0, ...work.fill.map((patch) => patch.deepest.depth.rounded));
  const amounts: Amounts = {
    ...(width !== undefined && { width }),
    fill: amount('fill'),
    grind: amount('grind'),
    ...(passLimit !== undefined && { passes: Math.ceil(deepest / passLimit - 1e-9) }),
    shared: line.outcome.ok && line.outcome.systematic.length > 0,
    ...(sections.together && { together: sections.together }),
  };
  return { ...factsOf(line), is: 'planned', ...work, amounts };
}

function factsOf({ line, part, parts }: LineAssessment): LineFacts {
  return { line, part, parts };
}

/** A line that is not worked, and why. */
export function untouched(line: LineAssessment): Untouched {
  const { outcome } = line;
  if (!outcome.ok) return { ...factsOf(line), is: 'measure first', why: outcome.reason };
  return outcome.judgement.verdict.includes('fair')
    ? { ...factsOf(line), is: 'nothing to do', why: 'proven fair' }
    : { ...factsOf(line), is: 'measure first', why: 'undecided' };
}
