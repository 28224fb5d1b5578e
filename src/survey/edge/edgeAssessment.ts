import type { Remark } from '../assessment.ts';
import { showMeasured, showPlace, showTolerance, type WorkUnit } from '../figures.ts';
import { readingCount } from '../usableColumns.ts';
import type { Edge, EdgeBound, EdgeCheck, Line, Placement, Survey } from '../survey.ts';
import type { EdgeError } from './edgeError.ts';
import { UNNAMED_EDGE } from './edgeKnown.ts';
import type { EdgeUse } from './edgeUse.ts';

/** What was taken of one straightedge of a survey, and what it did to the verdict. Lengths in mm. */
export interface EdgeAssessment {
  /** Absent where placements call it nothing. */
  readonly name?: string;
  readonly length?: number;
  /** `checked`: by a check that shows a bow; `stated`: a bound that somebody gave; `not stated`: taken as straight. */
  readonly state: 'checked' | 'stated' | 'not stated';
  readonly date?: string;
  readonly method?: EdgeCheck['method'];
  /** What the check found, from the edge's end A; positive towards the hull. */
  readonly bow?: EdgeError['bow'];
  readonly checkedOver?: readonly [number, number];
  /** What counts as uncertainty where nothing corrects: a bow of at most that, either way. */
  readonly bound?: EdgeBound;
  /** Placements whose readings are corrected, and those that are not though there is a check. */
  readonly corrected: number;
  readonly uncorrected: readonly {
    readonly line: string;
    readonly placement: string;
    readonly why: string;
  }[];
  /** All of that in sentences. */
  readonly words: readonly string[];
}

/** The straightedges of a survey, in the order in which its placements use them, and what is to be said of them. */
export function assessEdges(
  survey: Survey,
  useOf: (placement: Placement) => EdgeUse,
): { readonly edges: readonly EdgeAssessment[]; readonly remarks: readonly Remark[] } {
  const laid = new Map<string, Laid[]>();
  for (const line of survey.lines) {
    for (const placement of line.placements) {
      if (readingCount(placement) === 0) continue;
      const use = useOf(placement);
      const before = laid.get(use.key);
      if (before) before.push({ line, placement, use });
      else laid.set(use.key, [{ line, placement, use }]);
    }
  }
  const edges = [...laid.values()].map((each) => assessEdge(each, survey.workUnit));
  const remarks = [...laid.values()].flatMap((each, i) => remarksOn(each, edges[i]));
  return { edges, remarks };
}

interface Laid {
  readonly line: Line;
  readonly placement: Placement;
  readonly use: EdgeUse;
}

function assessEdge(laid: readonly Laid[], unit: WorkUnit): EdgeAssessment {
  const { use } = laid[0];
  const { edge, check, error } = use;
  const uncorrected = laid.flatMap(({ line, placement, use: { why } }) =>
    why === undefined ? [] : [{ line: line.name, placement: placement.name, why }],
  );
  const bound = laid.map((l) => l.use.bound).find((b) => b !== undefined);
  const found: Omit<EdgeAssessment, 'words'> = {
    ...(edge.name !== '' && { name: edge.name }),
    ...(edge.length !== undefined && { length: edge.length }),
    state: error !== undefined ? 'checked' : bound !== undefined ? 'stated' : 'not stated',
    ...(error !== undefined &&
      check !== undefined && {
        ...(check.date !== undefined && { date: check.date }),
        method: check.method,
        bow: error.bow,
        checkedOver: error.domain,
      }),
    ...(bound !== undefined && { bound }),
    corrected: laid.filter((l) => l.use.state === 'checked').length,
    uncorrected,
  };
  const sag = [...new Set(laid.flatMap((l) => l.use.sag ?? []))];
  const refused = laid[0].use.refused;
  const words = [
    ...(refused === undefined ? [] : [`${called(edge)}: its check cannot be used. ${refused}`]),
    ...stateWords(found, edge, unit),
    ...uncorrectedWords(edge, uncorrected),
    ...sag,
  ];
  return { ...found, words };
}

function stateWords(
  found: Omit<EdgeAssessment, 'words'>,
  edge: Edge,
  unit: WorkUnit,
): readonly string[] {
  const { bow, checkedOver, bound, date, method } = found;
  if (bow !== undefined && checkedOver !== undefined) {
    const how = method === 'three edges' ? 'against two others' : 'by a line scribed twice';
    const when = date === undefined ? '' : ` ${date}`;
    const then = found.corrected > 0 ? ' Readings are corrected by it.' : '';
    return [
      `${called(edge)} was checked${when} ${how}: ${bowWords(bow, checkedOver, unit)}.${then}`,
    ];
  }
  if (bound !== undefined) {
    return [
      `${called(edge)} is stated to be within ${showTolerance(bound.size, unit)} over ${showTolerance(bound.over, unit)}; nobody checked it. A bow of that much either way counts as uncertainty of every verdict.`,
    ];
  }
  return [
    `${called(edge)} was not checked, and nothing is stated of it: the verdict takes it as straight.`,
  ];
}

/** "bows 0.4 mm ± 0.1 mm towards the hull over 1830 mm", or that it is straight within what the check could tell. */
export function bowWords(
  { size, u }: EdgeError['bow'],
  [from, to]: readonly [number, number],
  unit: WorkUnit,
): string {
  const over = showPlace(to - from, unit);
  if (Math.abs(size) <= 2 * u) {
    return `straight over ${over}, as far as the check can tell (${showMeasured(0, u, unit).replace(/^.*± /, 'within ')})`;
  }
  const way = size > 0 ? 'towards the hull' : 'away from the hull';
  return `bows ${showMeasured(Math.abs(size), u, unit)} ${way} over ${over}`;
}

function uncorrectedWords(
  edge: Edge,
  uncorrected: EdgeAssessment['uncorrected'],
): readonly string[] {
  const whys = [...new Set(uncorrected.map(({ why }) => why))];
  return whys.map((why) => {
    const where = uncorrected.filter((each) => each.why === why);
    const named = where.slice(0, 3).map(({ line, placement }) => `${line}, placement ${placement}`);
    const more = where.length > named.length ? ` and ${where.length - named.length} more` : '';
    return `${called(edge)} is not corrected for on ${named.join('; ')}${more}: ${why}. As much bow as the check found, either way, counts as uncertainty instead.`;
  });
}

function called(edge: Edge): string {
  return edge.name === '' || edge.name === UNNAMED_EDGE
    ? 'The straightedge'
    : `The straightedge “${edge.name}”`;
}

function remarksOn(laid: readonly Laid[], found: EdgeAssessment): readonly Remark[] {
  const { edge, refused } = laid[0].use;
  const remarks: Remark[] = [];
  const say = (kind: Remark['kind'], words: string) =>
    remarks.push({ about: 'survey', kind, words });
  if (refused !== undefined) {
    say('edge check not usable', `${called(edge)}: its check cannot be used. ${refused}`);
  }
  if (found.state === 'not stated') {
    say(
      'edge not checked',
      `${called(edge)} was not checked: the verdict takes it as straight. Check it for a bow, or state what it may be out by.`,
    );
  }
  for (const words of uncorrectedWords(edge, found.uncorrected)) say('edge not corrected', words);
  for (const use of laid.map((l) => l.use)) {
    if (use.sag !== undefined && use.modes.every(({ key }) => !key.endsWith(' sag'))) {
      if (remarks.every(({ words }) => words !== use.sag)) say('sag not taken off', use.sag);
    }
  }
  return remarks;
}
