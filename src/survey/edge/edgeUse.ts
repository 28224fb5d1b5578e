import type { SystematicMode } from '../../fit/systematic.ts';
import type { WorkUnit } from '../figures.ts';
import type { Edge, EdgeBound, EdgeCheck, Placement, Survey } from '../survey.ts';
import { edgeError, type EdgeError } from './edgeError.ts';
import { checkFor, edgeKnown } from './edgeKnown.ts';
import { placeOnEdge } from './placeOnEdge.ts';
import { sagUse } from './sagUse.ts';

/** One way in which an edge may be out: its error at a station, mm, for one standard deviation. Modes of one key are
 *  one and the same unknown, whichever placement they stand in. */
export interface EdgeMode {
  readonly key: string;
  readonly name: string;
  readonly distribution: SystematicMode['distribution'];
  readonly at: (station: number) => number;
}

/** What an edge does to the readings of one placement. */
export interface EdgeUse {
  readonly edge: Edge;
  /** Names one and the same edge within a survey. */
  readonly key: string;
  readonly state: 'checked' | 'check as bound' | 'stated' | 'not stated';
  /** Why a check was not used to correct, as the end of a sentence. */
  readonly why?: string;
  readonly check?: EdgeCheck;
  readonly error?: EdgeError;
  /** Why the check itself says nothing, as a sentence. */
  readonly refused?: string;
  readonly bound?: EdgeBound;
  /** Error at a station, positive proud, to be added to the gap read there; absent where none is known. */
  readonly errorAt?: (station: number) => number;
  /** What is said of sag, as a sentence. */
  readonly sag?: string;
  readonly modes: readonly EdgeMode[];
}

/** What is asked for beyond what a survey says, mm: it goes before a stated bound, never before a check. */
export interface EdgeAsked {
  readonly edgeBound?: number | undefined;
  readonly edgeLength?: number | undefined;
}

/** How every placement of a survey is to be treated for its edge. Checks are fitted once an edge.
 *  Throws RangeError where a bound is asked for and no length says over what. */
export function edgeUses(survey: Survey, asked: EdgeAsked = {}): (placement: Placement) => EdgeUse {
  const errors = new Map<string, { check: EdgeCheck; found: ReturnType<typeof edgeError> }>();
  const uses = new Map<Placement, EdgeUse>();
  return (placement) => {
    const done = uses.get(placement);
    if (done !== undefined) return done;
    const edge = withAsked(edgeKnown(survey.edges, placement), asked);
    const key = `edge ${edge.name}, ${edge.length ?? 'no'} mm`;
    const check = checkFor(edge.checks, survey.date);
    let checked = errors.get(key);
    if (check !== undefined && checked === undefined) {
      checked = { check, found: edgeError(check, edge.length) };
      errors.set(key, checked);
    }
    const use = withSag(useOf(placement, edge, key, checked, survey.workUnit), placement);
    uses.set(placement, use);
    return use;
  };
}

function withAsked(edge: Edge, { edgeBound, edgeLength }: EdgeAsked): Edge {
  const length = edge.length ?? edgeLength;
  if (edgeBound === undefined) return { ...edge, ...(length !== undefined && { length }) };
  const over = edgeLength ?? length;
  if (over === undefined) {
    throw new RangeError(
      `edgeBound: the length that ${edgeBound} mm holds over is expected, and none is stated`,
    );
  }
  return { ...edge, ...(length !== undefined && { length }), bound: { size: edgeBound, over } };
}

function useOf(
  placement: Placement,
  edge: Edge,
  key: string,
  checked: { check: EdgeCheck; found: ReturnType<typeof edgeError> } | undefined,
  unit: WorkUnit,
): EdgeUse {
  const common = { edge, key };
  const refused = checked === undefined || checked.found.ok ? {} : { refused: checked.found.words };
  if (checked?.found.ok) {
    const error = checked.found;
    const { check } = checked;
    const place = placeOnEdge(placement, edge, check, error, unit);
    if (place.ok) {
      const { along } = place;
      return {
        ...common,
        state: 'checked',
        check,
        error,
        errorAt: (station) => error.at(along(station)),
        modes: error.modes.map((mode, i) => ({
          key: `${key} check ${i}`,
          name: 'what the check of the straightedge leaves open',
          distribution: 'normal',
          at: (station) => mode(along(station)),
        })),
      };
    }
    // What the check found may be there either way, and as much again as the check itself may be out.
    const bound = {
      size: Math.abs(error.bow.size) + 2 * error.bow.u,
      over: error.domain[1] - error.domain[0],
    };
    return {
      ...common,
      state: 'check as bound',
      why: place.why,
      check,
      error,
      bound,
      modes: [bowMode(key, bound)],
    };
  }
  if (edge.bound !== undefined) {
    const { bound } = edge;
    return { ...common, ...refused, state: 'stated', bound, modes: [bowMode(key, bound)] };
  }
  return { ...common, ...refused, state: 'not stated', modes: [] };
}

/** A bow of at most `size` over `over`, either way: rectangular, its standard deviation the bound over √3 (GUM 4.3.7).
 *  Under a chord c it is size·(c/over)², wherever the chord lies, so that where the edge lay is not asked. */
function bowMode(key: string, { size, over }: EdgeBound): EdgeMode {
  const curvature = (4 * size) / over ** 2 / Math.sqrt(3);
  return {
    key: `${key} bow`,
    name: 'a bow of the straightedge',
    distribution: 'rectangular',
    at: (station) => -curvature * station ** 2,
  };
}

function withSag(use: EdgeUse, placement: Placement): EdgeUse {
  const sag = sagUse(use.edge, placement);
  if (sag === undefined) return use;
  if (!sag.ok) return { ...use, sag: sag.words };
  const { errorAt } = use;
  const { at } = sag;
  return {
    ...use,
    sag: sag.words,
    errorAt: errorAt === undefined ? at : (station) => errorAt(station) + at(station),
    modes: [
      ...use.modes,
      {
        key: `${use.key} sag`,
        name: 'the sag of the straightedge',
        distribution: 'normal',
        at: (station) => sag.share * at(station),
      },
    ],
  };
}
