import { drawn } from '../estimate.ts';
import type { Load } from '../planing/running.ts';
import type { LedgerItem, LoadState } from './ledger.ts';
import { termsOf } from './terms.ts';

/** A ledger from which loads can be drawn: `size` standard normal numbers make one boat, the same in every state. */
export interface DrawnLoads {
  readonly size: number;
  /** Undefined where that draw leaves nothing aboard. */
  readonly at: (normals: ArrayLike<number>, state: LoadState) => Load | undefined;
}

export function drawLoads(items: readonly LedgerItem[]): DrawnLoads {
  const { variables, of } = termsOf(items);
  return {
    size: variables.length,
    at(normals, state) {
      const values = variables.map((estimate, i) => drawn(estimate, normals[i]));
      let displacement = 0;
      let along = 0;
      let up: number | undefined = 0;
      for (const { sign, mass, x, height } of of(state)) {
        const counted = sign * values[mass];
        displacement += counted;
        along += counted * values[x];
        up = up === undefined || height === undefined ? undefined : up + counted * values[height];
      }
      if (!(displacement > 0)) return undefined;
      return {
        displacement,
        lcg: along / displacement,
        ...(up !== undefined && { vcg: up / displacement }),
      };
    },
  };
}
