import { expected, uncertainty, type Estimate } from '../estimate.ts';
import type { Ledger } from '../fold/ledgerOf.ts';
import { loadOf, type Figure } from './loads.ts';

/** What a ledger that is still being written tells already. */
export type SoFar =
  | { readonly tells: 'nothing' }
  /** Masses without all of their places: what is aboard weighs so much, and no centre is told. */
  | { readonly tells: 'weight'; readonly displacement: Figure; readonly of: number }
  /** Weight and LCG of what can be reckoned with; VCG too where every height is known. */
  | { readonly tells: 'centre'; readonly vcg: boolean };

/** Steps that would add to what is told, the most useful first. */
export interface NextItem {
  readonly what: string;
  readonly adds: string;
}

/** What the ledger tells, as it stands. */
export function soFar({ items, lines }: Ledger): SoFar {
  if (items.some(({ act }) => act === 'aboard')) {
    const load = loadOf(items, 'as now');
    if (load.ok) return { tells: 'centre', vcg: load.vcg !== undefined };
  }
  const masses = lines.flatMap(({ body, mass }): readonly Estimate[] =>
    body.act === 'aboard' && mass ? [mass] : [],
  );
  if (masses.length === 0) return { tells: 'nothing' };
  const value = masses.reduce((sum, mass) => sum + expected(mass), 0);
  const u = Math.hypot(...masses.map(uncertainty));
  return { tells: 'weight', displacement: { value, u }, of: masses.length };
}

/** What one more item, mass or place would add; empty where nothing does. */
export function nextItems({ items, lines }: Ledger): readonly NextItem[] {
  const next: NextItem[] = [];
  if (!lines.some(({ body }) => body.act === 'aboard')) {
    next.push({
      what: 'the boat itself, weighed on a trailer or sling scale, and where it balances',
      adds: 'tells displacement and LCG',
    });
  }
  for (const { body, lacks } of lines) {
    if (lacks.length === 0) continue;
    next.push({
      what: `${lacks.map((one) => `the ${one.replace(/^the /, '')}`).join(' and ')} of “${body.name}”`,
      adds: body.act === 'aboard' ? 'tells LCG with it' : 'lets this change count',
    });
  }
  const told = items.some(({ act }) => act === 'aboard');
  if (told && !items.some(({ act }) => act !== 'aboard')) {
    next.push({
      what: 'what was removed, added or moved since it was built',
      adds: 'tells how far LCG has shifted, and what brings it back',
    });
  }
  const high = lines.filter(
    ({ item, body }) =>
      item && [body.at, body.from, body.to].some((place) => place?.x && !place.height),
  );
  if (high.length > 0) {
    next.push({
      what: `the height of ${high.map(({ body }) => `“${body.name}”`).join(', ')}`,
      adds: 'tells VCG; until then thrust, drag and weight are taken through one point',
    });
  }
  return next;
}
