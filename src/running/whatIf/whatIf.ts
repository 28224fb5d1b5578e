import { beginsAt, type Begins } from '../planing/beginsAt.ts';
import { trimCurve, type AtSpeed } from '../planing/trimCurve.ts';
import { loadOf, type LoadFigures, type NoLoad } from '../weights/loads.ts';
import { casesOf, flapsIn, stateIn, type Case, type WhatIfBoat } from './boat.ts';
import { drawCases, type DrawnRun } from './drawCases.ts';
import { shareOf, spreadOf, type Spread } from './spread.ts';

export interface CaseAtSpeed extends AtSpeed {
  /** Trim in degrees over the draws; absent where too many of them tell nothing. */
  readonly spread?: Spread;
  /** In how many of the draws the boat porpoises, 0 to 1; absent likewise. */
  readonly porpoises?: number;
}

/** From which speed on it porpoises, over the draws in which it does within the speeds asked for. */
export interface BeginsOver {
  /** With every figure at its expectation and the limit in the middle of its band. */
  readonly expected: Begins;
  /** In how many of the draws it porpoises at a speed that was asked for, 0 to 1. */
  readonly chance: number;
  /** m/s; absent where it begins in fewer than 20 draws, or in none. */
  readonly speed?: Spread;
  /** In how many of those it does so already at the slowest speed that is told: it begins there or below. */
  readonly orBelow: number;
}

export interface CaseFigures {
  readonly name: Case;
  readonly load: LoadFigures;
  readonly curve: readonly CaseAtSpeed[];
  readonly begins: BeginsOver;
}

/** What a case changes against the boat as now, at one speed, draw by draw. Degrees; below 0 is less trim, or further
 *  from porpoising. Absent where too many draws tell nothing. */
export interface CaseChange {
  readonly name: Exclude<Case, 'as now'>;
  readonly trim?: Spread;
  readonly margin?: Spread;
  /** In how many of the draws the margin shrinks, 0 to 1. */
  readonly helps?: number;
}

export interface WhatIf {
  readonly ok: true;
  readonly cases: readonly CaseFigures[];
  /** The speed at which the cases are compared, m/s. */
  readonly at: number;
  readonly changes: readonly CaseChange[];
  /** In how many of the draws the weight changes the margin by more than the bottom does, 0 to 1; absent where one of them
   *  is not asked or not told. */
  readonly weightLarger?: number;
  readonly draws: number;
}

/** A boat as now, with its bottom made fair, its weight forward, both, and as proposed. Speeds in m/s, any order; `at` (m/s): where the
 *  complaint is, or where to compare. Uncertainty by 200 seeded draws over weights, tail, flap analogy (`ANALOGY`), limit
 *  band and method (`METHOD`). Refuses a ledger that leaves nothing aboard. Throws RangeError on no speed. */
export function whatIf(
  boat: WhatIfBoat,
  speeds: readonly number[],
  at: number,
  draws = 200,
): WhatIf | NoLoad {
  const all = [...new Set([...speeds, at])].sort((a, b) => a - b);
  if (!all.every((speed) => speed > 0 && speed < Infinity)) {
    throw new RangeError(`speeds above 0 expected, got ${all.join(', ')}`);
  }
  const names = casesOf(boat);
  const loads: LoadFigures[] = [];
  for (const name of names) {
    const load = loadOf(boat.items, stateIn(name, boat.items));
    if (!load.ok) return load;
    loads.push(load);
  }
  const drawnCases = drawCases(boat, names, all, draws);
  const cases = names.map((name, i) => caseFigures(boat, name, loads[i], all, drawnCases[i]));
  const column = all.indexOf(at);
  const here = drawnCases.map((one) => one.map((runs) => runs[column]));
  const changes = names.slice(1).map((name, i) => changeOf(name, here[0], here[i + 1]));
  const weightLarger = compared(here, names);
  return {
    ok: true,
    cases,
    at,
    changes,
    ...(weightLarger !== undefined && { weightLarger }),
    draws: here[0].length,
  };
}

function caseFigures(
  boat: WhatIfBoat,
  name: Case,
  load: LoadFigures,
  speeds: readonly number[],
  draws: readonly (readonly (DrawnRun | undefined)[])[],
): CaseFigures {
  const { hull, water, thrust, friction, gravity, tail } = boat;
  const carried = {
    displacement: load.displacement.value,
    lcg: load.lcg.value,
    ...(load.vcg && { vcg: load.vcg.value }),
  };
  const flaps = flapsIn(name, boat, tail?.angle ?? FAIR);
  const curve = trimCurve(
    {
      ...{ hull, water, load: carried, flaps },
      ...(thrust && { thrust }),
      ...(friction && { friction }),
      ...(gravity !== undefined && { gravity }),
    },
    speeds,
  );
  return {
    name,
    load,
    curve: curve.map((one, i) => {
      const runs = draws.map((draw) => draw[i]);
      const spread = spreadOf(runs.map((run) => run?.trim));
      const porpoises = shareOf(runs.map((run) => beyond(run)));
      return {
        ...one,
        ...(spread && { spread }),
        ...(porpoises !== undefined && { porpoises }),
      };
    }),
    begins: beginsOver(curve, speeds, draws),
  };
}

const FAIR = 0;

function beyond(run: DrawnRun | undefined): boolean | undefined {
  return run?.margin === undefined ? undefined : run.margin > 0;
}

function beginsOver(
  curve: readonly AtSpeed[],
  speeds: readonly number[],
  draws: readonly (readonly (DrawnRun | undefined)[])[],
): BeginsOver {
  const expected = beginsAt(
    speeds,
    curve.map(({ runs, limit }) =>
      runs.ok && limit.ok ? runs.trim - (limit.low + limit.high) / 2 : undefined,
    ),
  );
  const begun = draws.map((draw) =>
    beginsAt(
      speeds,
      draw.map((run) => run?.margin),
    ),
  );
  const told = begun.filter(({ at }) => at !== 'not told');
  const does = told.flatMap((one) => ('speed' in one ? [one] : []));
  const speed = does.length < LEAST_DRAWS ? undefined : spreadOf(does.map((one) => one.speed));
  return {
    expected,
    chance: told.length === 0 ? 0 : does.length / told.length,
    ...(speed && { speed }),
    orBelow:
      does.length === 0 ? 0 : does.filter(({ at }) => at === 'or below').length / does.length,
  };
}

const LEAST_DRAWS = 20;

function changeOf(
  name: Case,
  now: readonly (DrawnRun | undefined)[],
  then: readonly (DrawnRun | undefined)[],
): CaseChange {
  const trim = spreadOf(less(then, now, (run) => run.trim));
  const margins = less(then, now, (run) => run.margin);
  const margin = spreadOf(margins);
  const helps = shareOf(margins.map((change) => (change === undefined ? undefined : change < 0)));
  return {
    name: name as CaseChange['name'],
    ...(trim && { trim }),
    ...(margin && { margin }),
    ...(helps !== undefined && { helps }),
  };
}

function compared(
  here: readonly (readonly (DrawnRun | undefined)[])[],
  names: readonly Case[],
): number | undefined {
  const bottom = names.indexOf('bottom made fair');
  const weight = names.indexOf('weight forward');
  if (bottom < 0 || weight < 0) return undefined;
  const byBottom = less(here[bottom], here[0], (run) => run.margin);
  const byWeight = less(here[weight], here[0], (run) => run.margin);
  return shareOf(
    byWeight.map((w, i) => {
      const b = byBottom[i];
      return w === undefined || b === undefined ? undefined : Math.abs(w) > Math.abs(b);
    }),
  );
}

function less(
  a: readonly (DrawnRun | undefined)[],
  b: readonly (DrawnRun | undefined)[],
  of: (run: DrawnRun) => number | undefined,
): (number | undefined)[] {
  return a.map((run, i) => {
    const other = b[i];
    const [x, y] = [run && of(run), other && of(other)];
    return x === undefined || y === undefined ? undefined : x - y;
  });
}
