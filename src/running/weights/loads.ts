import { expected, uncertainty, type Estimate } from '../estimate.ts';
import type { LedgerItem, LoadState } from './ledger.ts';
import { termsOf, type Term } from './terms.ts';

/** A figure with its standard uncertainty. */
export interface Figure {
  readonly value: number;
  readonly u: number;
}

/** What a state of the boat weighs, and where that acts. */
export interface LoadFigures {
  readonly ok: true;
  /** kg */
  readonly displacement: Figure;
  /** Forward of the transom's bottom edge, mm. */
  readonly lcg: Figure;
  /** Above the keel at the transom, mm; absent where the height of an item is not known. */
  readonly vcg?: Figure;
  /** Between displacement and LCG, kg·mm: things whose mass is in doubt move both. */
  readonly covariance: number;
}

export interface NoLoad {
  readonly ok: false;
  readonly reason: string;
}

/** Displacement, LCG and VCG of a state: masses summed, moments about the transom's bottom edge divided by them.
 *  Uncertainty by first-order propagation over the items' masses and places (GUM 5.1.2), a thing counted once wherever it
 *  stands. Exact for the handbook's examples; against seeded draws within 3 % (test/running/weights/loads.test.ts). */
export function loadOf(items: readonly LedgerItem[], state: LoadState): LoadFigures | NoLoad {
  const found = linearLoads(items, [state]);
  if (!found.ok) return found;
  const [load] = found.loads;
  const figure = (value: number, row: Float64Array): Figure => ({
    value,
    u: Math.sqrt(found.covariance(row, row)),
  });
  return {
    ok: true,
    displacement: figure(load.displacement, load.rows.displacement),
    lcg: figure(load.lcg, load.rows.lcg),
    ...(load.vcg && { vcg: figure(load.vcg.value, load.vcg.row) }),
    covariance: found.covariance(load.rows.displacement, load.rows.lcg),
  };
}

/** What changed between two states, each with its own uncertainty: what both share cancels. */
export interface LoadShift {
  readonly ok: true;
  readonly displacement: Figure;
  readonly lcg: Figure;
  readonly vcg?: Figure;
}

export function shiftBetween(
  items: readonly LedgerItem[],
  from: LoadState,
  to: LoadState,
): LoadShift | NoLoad {
  const found = linearLoads(items, [from, to]);
  if (!found.ok) return found;
  const [before, after] = found.loads;
  const figure = (a: number, rowA: Float64Array, b: number, rowB: Float64Array): Figure => {
    const row = rowB.map((value, i) => value - rowA[i]);
    return { value: b - a, u: Math.sqrt(found.covariance(row, row)) };
  };
  return {
    ok: true,
    displacement: figure(
      before.displacement,
      before.rows.displacement,
      after.displacement,
      after.rows.displacement,
    ),
    lcg: figure(before.lcg, before.rows.lcg, after.lcg, after.rows.lcg),
    ...(before.vcg &&
      after.vcg && {
        vcg: figure(before.vcg.value, before.vcg.row, after.vcg.value, after.vcg.row),
      }),
  };
}

interface LinearLoad {
  readonly displacement: number;
  readonly lcg: number;
  readonly rows: { readonly displacement: Float64Array; readonly lcg: Float64Array };
  readonly vcg?: { readonly value: number; readonly row: Float64Array };
}

function linearLoads(items: readonly LedgerItem[], states: readonly LoadState[]) {
  const { variables, of } = termsOf(items);
  const values = variables.map(expected);
  const loads: LinearLoad[] = [];
  for (const state of states) {
    const load = linearLoad(of(state), values);
    if (!load) return NOTHING;
    loads.push(load);
  }
  const variances = variables.map((one: Estimate) => uncertainty(one) ** 2);
  return {
    ok: true,
    loads,
    covariance: (a: Float64Array, b: Float64Array) =>
      variances.reduce((sum, variance, i) => sum + variance * a[i] * b[i], 0),
  } as const;
}

const NOTHING: NoLoad = { ok: false, reason: 'nothing is left aboard that weighs' };

function linearLoad(terms: readonly Term[], values: readonly number[]): LinearLoad | undefined {
  const total = terms.reduce((sum, { sign, mass }) => sum + sign * values[mass], 0);
  if (!(total > 0)) return undefined;
  const weight = new Float64Array(values.length);
  for (const { sign, mass } of terms) weight[mass] += sign;
  const centre = (place: (term: Term) => number) => {
    const at =
      terms.reduce((sum, t) => sum + t.sign * values[t.mass] * values[place(t)], 0) / total;
    const row = new Float64Array(values.length);
    for (const term of terms) {
      row[term.mass] += (term.sign * (values[place(term)] - at)) / total;
      row[place(term)] += (term.sign * values[term.mass]) / total;
    }
    return { value: at, row };
  };
  const lcg = centre(({ x }) => x);
  const heights = terms.every(({ height }) => height !== undefined);
  return {
    displacement: total,
    lcg: lcg.value,
    rows: { displacement: weight, lcg: lcg.row },
    ...(heights && { vcg: centre((term) => term.height as number) }),
  };
}
