import type { Entry } from '../../src/book/entry.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { surveyKeyOf, type HullState } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { Placement, Typed } from '../../src/survey/survey.ts';
import { inWorkUnit } from './readingText.ts';

export type LayBody = BodyOf<'placement'>;

/** A laying of the edge as it was stated: `id` is the one by which readings refer to it. */
export interface StatedLay<K extends LayKind = 'placement'> {
  readonly id: string;
  readonly body: BodyOf<K>;
}

type LayKind = 'placement' | 'placement across';

/** The layings of a survey in the order in which they were stated, each as last put right. */
export function statedLays(standing: readonly Entry[], survey: string): readonly StatedLay[] {
  return stated(standing, survey, 'placement');
}

/** The same of those across the lines. */
export function statedAcross(
  standing: readonly Entry[],
  survey: string,
): readonly StatedLay<'placement across'>[] {
  return stated(standing, survey, 'placement across');
}

function stated<K extends LayKind>(
  standing: readonly Entry[],
  survey: string,
  kind: K,
): readonly StatedLay<K>[] {
  const own = standing.filter((entry) => entry.kind === kind && surveyKeyOf(entry._id) === survey);
  const lays = new Map<string, BodyOf<K>>();
  for (const { id, body } of readStanding(own).of(kind)) lays.set(body.sameAs ?? id, body);
  return [...lays].map(([id, body]) => ({ id, body })).sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Id of what the hull stands on now: the last standing of this haul-out. */
export function supportNow(standing: readonly Entry[], survey: string): string | undefined {
  const own = standing.filter(
    (entry) => entry.kind === 'support' && surveyKeyOf(entry._id) === survey,
  );
  const stated = readStanding(own).of('support');
  const last = stated.reduce<(typeof stated)[number] | undefined>(
    (most, each) => (most === undefined || each.body.nth >= most.body.nth ? each : most),
    undefined,
  );
  return last === undefined ? undefined : (last.body.sameAs ?? last.id);
}

/** What was said of one laying alone. */
export const OF_ONE_LAY: readonly string[] = ['sameAs', 'notes', 'laid', 'support'];

export type LayAct = 'new line' | 'again' | 'moved';

/** The laying that follows another: on a new line, laid again on the same place, or moved along the line. How the edge
 *  is held and what the gap is read with go over; `beside`: the layings that the line has. */
export function layAfter(
  from: LayBody,
  act: LayAct,
  line: string,
  beside: readonly Pick<Placement, 'name' | 'repeat'>[],
  support: string | undefined,
): LayBody {
  const kept = Object.fromEntries(
    Object.entries(from).filter(([field]) => !OF_ONE_LAY.includes(field)),
  ) as LayBody;
  const base = { ...kept, line, ...(support !== undefined && { support }) };
  if (act === 'again') {
    const repeats = beside.filter(({ name }) => name === from.name).map(({ repeat }) => repeat);
    return { ...base, repeat: Math.max(from.repeat, ...repeats) + 1 };
  }
  const names = beside.map(({ name }) => Number(name)).filter(Number.isInteger);
  const name = String(act === 'new line' && beside.length === 0 ? 1 : Math.max(0, ...names) + 1);
  return { ...base, name, repeat: 1 };
}

/** How the edge is held, as a form has it; empty where nothing is stated. */
export interface LaidAs {
  readonly edge: string;
  readonly held: 'resting' | 'blocks';
  readonly block: Typed | undefined;
  readonly blockFore: Typed | undefined;
  readonly face: string;
}

/** What the form starts from. */
export function laidAs({ edge, held, block, blockFore, face }: BodyOf<LayKind>): LaidAs {
  return {
    edge: edge === undefined ? '' : edge,
    held,
    block,
    blockFore,
    face: face === undefined ? '' : face,
  };
}

export type LaidRead =
  | { readonly ok: true; readonly changes: Partial<BodyOf<LayKind>> }
  | { readonly ok: false; readonly words: string };

/** What it changes of a laying; undefined takes a field away. */
export function readLaid({ edge, held, block, blockFore, face }: LaidAs): LaidRead {
  const blocks = held === 'blocks';
  if (blocks && !(block !== undefined && block.mm > 0)) {
    return { ok: false, words: 'Blocks need their height.' };
  }
  const changes = {
    held,
    block: blocks ? block : undefined,
    blockFore: blocks && blockFore !== undefined && blockFore.mm > 0 ? blockFore : undefined,
    ...(edge !== '' && { edge }),
    face: face === 'marked' || face === 'other' ? face : undefined,
  };
  return { ok: true, changes: changes as Partial<BodyOf<LayKind>> };
}

/** A laying with changes; undefined takes a field away. */
export function withChanges<B extends BodyOf<LayKind>>(body: B, changes: Partial<B>): B {
  return Object.fromEntries(
    Object.entries({ ...body, ...changes }).filter(([, value]) => value !== undefined),
  ) as B;
}

/** How the edge lies, in words: "60 in bar, resting, aft end at 0 in". */
export function layWords(body: BodyOf<LayKind>, hull: HullState, workUnit: 'mm' | 'in'): string {
  const { aftEnd, aftMark } = body as Partial<LayBody>;
  const edge = hull.straightedges.find(({ id }) => id === body.edge);
  const length = (typed: Typed) => inWorkUnit(typed, workUnit);
  const parts = [
    edge?.name ?? (body.edgeLength === undefined ? 'straightedge' : length(body.edgeLength)),
    body.held === 'blocks'
      ? `on blocks${body.block === undefined ? '' : ` of ${length(body.block)}`}`
      : 'resting',
    ...(aftEnd === undefined ? [] : [`aft end at ${length(aftEnd)}`]),
    ...(aftMark === undefined ? [] : [`end ${aftMark} aft`]),
    ...(body.face === 'other' ? ['unmarked face to the hull'] : []),
  ];
  return parts.join(', ');
}

/** "lay 1", "lay 1, laid again (2)". */
export function layName({ name, repeat }: Pick<Placement, 'name' | 'repeat'>): string {
  return repeat === 1 ? `lay ${name}` : `lay ${name}, laid again (${repeat})`;
}

/** The line of the hull that a laying lies on. */
export function lineOf(lines: readonly HullLine[], body: LayBody): HullLine | undefined {
  return lines.find(({ ids }) => ids.includes(body.line));
}
