import type { Held } from '../survey.ts';
import type { Conditions } from './conditions.ts';
import type { Lay } from './groupRows.ts';
import { LAY_KEYS, type LayFacts } from './measuredRow.ts';

/** What holds where a file does not say. Lengths in mm. */
export type LayDefaults = Pick<LayFacts, 'held' | 'block' | 'division' | 'edgeLength'>;

/** What holds for a lay: its own rows first, then the `#` lines, then the defaults. */
export function layFacts(
  { facts }: Lay,
  stated: Readonly<Conditions>,
  defaults: LayDefaults,
  assumed: Set<string>,
): LayFacts & { readonly held: Held } {
  const { block, blockFore, blocksAt, ...whole } = pick(stated);
  const said = facts.held ?? stated.held ?? defaults.held;
  const height = facts.block ?? block ?? defaults.block;
  const held = said ?? (height === undefined ? 'resting' : 'blocks');
  if (said === undefined) {
    assumed.add(
      held === 'blocks' ? 'held on blocks, since a block height stands' : 'held: resting',
    );
  }
  const fore = facts.blockFore ?? blockFore;
  const at = facts.blocksAt ?? blocksAt;
  const { edgeLength, division } = defaults;
  return {
    ...(edgeLength === undefined ? {} : { edgeLength }),
    ...(division === undefined ? {} : { division }),
    ...whole,
    ...facts,
    held,
    ...(held === 'blocks' && height !== undefined ? { block: height } : {}),
    ...(held === 'blocks' && fore !== undefined ? { blockFore: fore } : {}),
    ...(held === 'blocks' && at !== undefined ? { blocksAt: at } : {}),
  };
}

function pick(stated: Readonly<Conditions>): LayFacts {
  return Object.fromEntries(
    LAY_KEYS.flatMap((key) => (stated[key] === undefined ? [] : [[key, stated[key]]])),
  );
}
