import type { Line } from '../survey/survey.ts';
import { matchLines } from './matchLines.ts';

/** Lines to port with those to starboard that stand alike: at one landmark, or as far from the keel within `within`,
 *  mm. Each is in one pair at most. */
export function portAndStarboard(
  lines: readonly Line[],
  within: number,
): readonly (readonly [port: Line, starboard: Line])[] {
  const starboard = lines.filter(({ side }) => side === 'starboard');
  const mirrored = starboard.map((line): Line => ({ ...line, side: 'port' }));
  const { matched } = matchLines(
    lines.filter(({ side }) => side === 'port'),
    mirrored,
    within,
  );
  return matched.map(({ first, second }) => [first, starboard[mirrored.indexOf(second)]] as const);
}
