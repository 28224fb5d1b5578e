import type { Profile } from '../../fit/posterior.ts';
import { responseTo } from '../../fit/responseTo.ts';
import type { SystematicMode } from '../../fit/systematic.ts';
import type { ReadingColumns } from '../../fit/tied.ts';
import type { EdgeMode } from './edgeUse.ts';

/** Each way in which the edges of a line's placements may be out, as what it does to the fitted profile: one and the
 *  same edge is out alike wherever it was laid, and every edge by itself. `modes`: for each placement, in the order of
 *  `plain`, the readings that the profile was fitted to. */
export function systematicOf(
  modes: readonly (readonly EdgeMode[])[],
  profile: Profile,
  plain: readonly ReadingColumns[],
): readonly SystematicMode[] {
  const byKey = new Map(modes.flat().map((mode) => [mode.key, mode]));
  return [...byKey].map(([key, { name, distribution }]) => {
    const own = modes.map((each) => each.find((mode) => mode.key === key));
    const shape = responseTo(profile, plain, (p, i) => {
      const mode = own[p];
      return mode === undefined ? 0 : mode.at(plain[p].x[i]);
    });
    return { name, shape, distribution };
  });
}
