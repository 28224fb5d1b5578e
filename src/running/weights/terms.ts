import type { Estimate } from '../estimate.ts';
import { countsIn, type LedgerItem, type LoadState, type Place } from './ledger.ts';

/** One mass at one place, counted or taken off, by the numbers of its variables. */
export interface Term {
  readonly sign: 1 | -1;
  readonly mass: number;
  readonly x: number;
  /** Absent where the height is not known. */
  readonly height?: number;
}

/** A ledger as sums over shared variables: a thing that stands in two states, or is moved, is in doubt once. */
export interface Terms {
  readonly variables: readonly Estimate[];
  readonly of: (state: LoadState) => readonly Term[];
}

/** Throws RangeError where items that are one thing state different masses, or a mass may be below 0. */
export function termsOf(items: readonly LedgerItem[]): Terms {
  const variables: Estimate[] = [];
  const known = new Map<string, number>();
  const variable = (key: string, estimate: Estimate): number => {
    const found = known.get(key);
    if (found !== undefined) return found;
    known.set(key, variables.length);
    return variables.push(estimate) - 1;
  };
  const masses = new Map<string, string>();
  const termAt = (item: LedgerItem, index: number, place: Place, sign: 1 | -1): Term => {
    const thing = item.thing === undefined ? `item ${index}` : `thing ${item.thing}`;
    const stated = JSON.stringify(item.mass);
    if ((masses.get(thing) ?? stated) !== stated) {
      throw new RangeError(`one mass for ${item.thing ?? item.name} expected, got two`);
    }
    masses.set(thing, stated);
    if (!(lowest(item.mass) >= 0)) {
      throw new RangeError(`a mass of 0 or more for ${item.name} expected, got ${stated}`);
    }
    const { x, height } = place;
    return {
      sign,
      mass: variable(`${thing} mass`, item.mass),
      // The same figures for the same thing are the same place.
      x: variable(`${thing} x ${JSON.stringify(x)}`, x),
      ...(height && { height: variable(`${thing} height ${JSON.stringify(height)}`, height) }),
    };
  };
  const weighedNow = items.some((item) => item.act === 'aboard' && item.weighed === 'as now');
  const all = items.flatMap(
    (item, i): { readonly term: Term; readonly in: (s: LoadState) => boolean }[] => {
      if (item.act === 'aboard') return [{ term: termAt(item, i, item.at, 1), in: () => true }];
      // Changes that were aboard when the boat was weighed are taken out of what it was before them.
      const back = weighedNow && item.since === 'as now';
      const counts = (state: LoadState) =>
        back ? !countsIn('as now', state) : countsIn(item.since, state);
      const change = (place: Place, sign: 1 | -1) => ({
        term: termAt(item, i, place, back ? (-sign as 1 | -1) : sign),
        in: counts,
      });
      switch (item.act) {
        case 'removed':
          return [change(item.from, -1)];
        case 'added':
          return [change(item.to, 1)];
        case 'moved':
          return [change(item.from, -1), change(item.to, 1)];
      }
    },
  );
  return { variables, of: (state) => all.filter((one) => one.in(state)).map(({ term }) => term) };
}

function lowest(estimate: Estimate): number {
  return 'low' in estimate ? estimate.low : estimate.value;
}
