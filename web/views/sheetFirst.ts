import type { LinePlan, PlannedWork, WorkPlan } from '../../src/fairing/plan/plan.ts';
import { proofOfPlace } from '../../src/fairing/proofOfPlace.ts';
import { showWorkDepth } from '../../src/fairing/workStep.ts';
import { showPlace, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import { capital, listed } from '../../src/survey/sentence.ts';
import type { Placement, Side } from '../../src/survey/survey.ts';
import { inWorkUnit } from './readingText.ts';
import { plainLength } from './sheetLaid.ts';

export type Planned = Extract<LinePlan, { is: 'planned' }>;

/** What is to be done on one side, in a sentence or a few. */
export interface SideWork {
  readonly side: string;
  readonly words: string;
}

const SIDES: readonly Side[] = ['port', 'starboard', 'centre'];

/** The work in a sentence a side: "Fill P18in and P30in, TRANSOM to 48 in, deepest 1/4 in at 18 in on P30in." */
export function sideWork({ lines }: WorkPlan, unit: WorkUnit): readonly SideWork[] {
  return SIDES.flatMap((side) => {
    const here = lines.filter(({ line }) => line.side === side);
    if (here.length === 0) return [];
    const planned = here.filter(isPlanned);
    const said = [
      ...patchWords('Fill', planned, 'fill', unit),
      ...patchWords('Grind', planned, 'grind', unit),
    ];
    const open = here.filter((plan) => plan.is === 'measure first').map(nameOf);
    const stuck = here.flatMap((plan) =>
      plan.is === 'impossible' ? [`${nameOf(plan)}: ${plan.because.words}`] : [],
    );
    if (said.length === 0 && stuck.length === 0) said.push('Nothing.');
    if (open.length > 0) {
      said.push(`Not decided, measure first, leave alone: ${listed(open)}.`);
    }
    return [{ side: side.toUpperCase(), words: [...said, ...stuck].join(' ') }];
  });
}

function patchWords(
  verb: string,
  planned: readonly Planned[],
  what: 'fill' | 'grind',
  unit: WorkUnit,
): readonly string[] {
  const patches = planned.flatMap((plan) => plan[what].map((patch) => ({ plan, patch })));
  if (patches.length === 0) return [];
  const names = [...new Set(patches.map(({ plan }) => nameOf(plan)))];
  const from = Math.min(...patches.map(({ patch }) => patch.from));
  const to = Math.max(...patches.map(({ patch }) => patch.to));
  const atTransom = patches.some(({ patch }) => meetsTransom(patch));
  const { plan, patch } = patches.reduce((a, b) =>
    b.patch.deepest.depth.exact > a.patch.deepest.depth.exact ? b : a,
  );
  const start = atTransom ? 'TRANSOM' : showPlace(from, unit);
  const deepest = `deepest ${depthWords(patch.deepest.depth, unit)} at ${stationWords(plan, patch.deepest.at, unit)}`;
  return [
    `${verb} ${listed(names)}, ${start} to ${showPlace(to, unit)}, ${deepest}${names.length > 1 ? ` on ${nameOf(plan)}` : ''}.`,
  ];
}

/** A check that the marks, the edge and the hull are what they were: one a side that is worked. */
export function proofWords(plan: WorkPlan, unit: WorkUnit): readonly string[] {
  return SIDES.flatMap((side) => {
    const deepest = plan.lines
      .filter(isPlanned)
      .filter(({ line }) => line.side === side)
      .flatMap((each) =>
        [...each.fill, ...each.grind].map((patch) => ({ each, deepest: patch.deepest })),
      )
      .sort((a, b) => b.deepest.depth.exact - a.deepest.depth.exact)[0];
    if (deepest === undefined) return [];
    const proof = proofOfPlace(deepest.each.line, deepest.deepest.at);
    if (proof === undefined) return [];
    const { placement, reading, line } = proof;
    return [
      `${edgeWords(placement, unit)} on ${line.name}, ${layWords(placement, unit)}: you should read ${inWorkUnit(reading.gap, unit)} at ${inWorkUnit(reading.station, unit)}. If not, stop.`,
    ];
  });
}

function edgeWords({ edge, edgeLength }: Placement, unit: WorkUnit): string {
  if (edgeLength !== undefined) return `${plainLength(edgeLength, unit)} edge`;
  return edge ?? 'The edge of the survey';
}

function layWords(placement: Placement, unit: WorkUnit): string {
  const { held, block, aftEnd, aftMark } = placement;
  const end = aftMark === undefined ? 'aft end' : `end ${aftMark}`;
  const at =
    aftEnd === undefined
      ? `its ${end} aft as on the survey (where, was not written down)`
      : Math.abs(aftEnd) < 0.5
        ? `${end} at the TRANSOM`
        : aftEnd < 0
          ? `${end} ${plainLength(-aftEnd, unit)} aft of the TRANSOM`
          : `${end} at ${plainLength(aftEnd, unit)}`;
  if (held === 'resting') return `resting, ${at}`;
  return `on blocks${block === undefined ? '' : ` ${plainLength(block, unit)} high`}, ${at}`;
}

/** What may not be worked on: what is known of on the bottom, and what every bottom has. */
export function leaveAlone(hull: HullState | undefined, plan: WorkPlan): readonly string[] {
  const features = [...new Set((hull?.features ?? []).map(({ feature }) => feature))].filter(
    (feature) => feature !== 'strake' && feature !== 'fitting',
  );
  const idle = plan.lines.filter(({ is }) => is !== 'planned').map(nameOf);
  return [
    `${capital(listed(['strakes', 'chine edges', 'fittings', ...features.map((f) => `the ${f}s marked`)]))}: mask, do not fill or grind.`,
    'The trailing edge at the transom stays sharp.',
    ...(idle.length > 0 ? [`Lines that are not worked: ${listed(idle)}.`] : []),
  ];
}

export function limitWords({ options, lines }: WorkPlan, unit: WorkUnit): readonly string[] {
  const { grindLimit, fillLimit, material } = options;
  const grinds = lines.some((line) => line.is === 'planned' && line.grind.length > 0);
  const laminate = lines
    .filter(isPlanned)
    .flatMap(({ line, laminateFirst = [] }) =>
      laminateFirst.length === 0
        ? []
        : [
            `${line.name} at ${laminateFirst.map(({ station }) => showPlace(station, unit)).join(', ')}`,
          ],
    );
  return [
    grindLimit === undefined
      ? 'Grind limit: none stated. Grind nothing.'
      : `Grind limit: ${showTolerance(grindLimit, unit)}, and never into laminate.${grinds ? '' : ' Nothing is to be ground.'}`,
    ...(fillLimit === undefined
      ? []
      : [
          `Laminate first where more than ${showTolerance(fillLimit, unit)} is filled: ${laminate.length === 0 ? 'nowhere' : laminate.join('; ')}.`,
        ]),
    material?.passLimit === undefined
      ? 'One pass: no thicker than the label allows.'
      : `One pass: ${showTolerance(material.passLimit, unit)} at most${passWords(lines)}.`,
  ];
}

function passWords(lines: readonly LinePlan[]): string {
  const most = Math.max(0, ...lines.filter(isPlanned).map(({ amounts }) => amounts.passes ?? 1));
  return most > 1 ? `; ${most} passes at the deepest` : '';
}

/** Unread stations inside the work, and how to carry over them. */
export function carryWords({ lines }: WorkPlan): readonly string[] {
  return lines
    .filter(isPlanned)
    .flatMap((plan) => plan.carryOver.map(({ words }) => `${nameOf(plan)}: ${words}`));
}

/** Lines that stay as they are, one of which is read again as a control: the nearest that is proven fair. */
export function controlLine(plan: WorkPlan): LinePlan | undefined {
  const worked = plan.lines.filter(isPlanned);
  if (worked.length === 0) return undefined;
  const rank = (each: LinePlan) => (each.is === 'nothing to do' ? 0 : 1);
  const away = (each: LinePlan) =>
    Math.min(
      ...worked.map(({ line }) =>
        line.side === each.line.side ? Math.abs(line.offset - each.line.offset) : Infinity,
      ),
    );
  return plan.lines
    .filter(({ is, line }) => is !== 'planned' && line.placements.length > 0)
    .sort((a, b) => rank(a) - rank(b) || away(a) - away(b) || (a.line.id < b.line.id ? -1 : 1))[0];
}

/** Whether a patch reaches the transom, runs out at it, or is carried straight aft to it. */
export function meetsTransom({ aft, from }: PlannedWork['fill'][number]): boolean {
  return aft === 'transom' || aft === 'carried aft to the transom' || from < 1;
}

export function isPlanned(plan: LinePlan): plan is Planned {
  return plan.is === 'planned';
}

export function nameOf({ line, part, parts }: LinePlan): string {
  return parts > 1 ? `${line.name} (part ${part} of ${parts})` : line.name;
}

export function depthWords(depth: PlannedWork['fill'][number]['deepest']['depth'], unit: WorkUnit) {
  return `${showWorkDepth(depth, unit)} ${unit}`;
}

/** A station of a line as it was typed, in the person's unit; a place between stations to the nearest mark. */
export function stationWords({ stations }: PlannedWork, mm: number, unit: WorkUnit): string {
  const typed = stations.find(({ station }) => Math.abs(station - mm) < 0.5);
  return typed === undefined
    ? showPlace(mm, unit)
    : inWorkUnit({ mm: typed.station, text: typed.text }, unit);
}
