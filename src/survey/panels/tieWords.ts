import { panelName } from '../acrossSide.ts';
import { listed } from '../sentence.ts';
import type { Typed } from '../survey.ts';
import { withUnit } from '../withUnit.ts';
import type { WorkUnit } from '../figures.ts';
import type { CrossedLine, TiePlan, WantedAcross } from './tiePlan.ts';

/** What a panel needs across its lines, in words: the state first, then what is laid and what is missing. */
export interface TieWords {
  /** "PORT: not tied yet". */
  readonly head: string;
  /** The least that ties it, or why nothing can. */
  readonly least: string;
  /** "Still to lay: …"; empty where nothing is. */
  readonly missing: string;
  /** What else must be done before it is one surface. */
  readonly also: readonly string[];
}

const STATE = {
  'too few lines': 'cannot be tied',
  open: 'not tied yet',
  heights: 'tied, but for a twist',
  tied: 'tied',
} as const;

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five'];

export function tieWords(plan: TiePlan, unit: WorkUnit): TieWords {
  const { side, lines, least, missing, unread, is } = plan;
  const names = lines.map(({ name }) => name);
  const head = `${panelName(side)}, ${lines.length === 0 ? 'no lines' : listed(names)}: ${STATE[is]}`;
  if (is === 'too few lines') {
    const few = `A straightedge across ${lines.length === 2 ? 'two lines' : 'fewer'} fits them whatever they are`;
    return {
      head,
      least: `${few}: three lines ${side === 'both' ? 'in all' : 'on a side'} are the least that it can tie.`,
      missing: '',
      also: [],
    };
  }
  const steps = missing.map((each) => wantedWords(each, lines, unit));
  return {
    head,
    least: `The least that ties ${counted(lines.length)} lines: ${counted(least.athwart)} placements athwart, far apart, and ${counted(least.diagonal)} on a diagonal, each over three of them or more. More than the least check one another.`,
    missing: steps.length === 0 ? '' : `Still to lay: ${listed(steps)}.`,
    also:
      unread.length === 0
        ? []
        : [
            `Read ${listed(unread.map(({ name }) => name))} along ${unread.length === 1 ? 'itself' : 'themselves'} too, at four stations or more: until then ${unread.length === 1 ? 'it is' : 'they are'} no part of the surface.`,
          ],
  };
}

/** "athwart at 12 in", "on the diagonal, 0 in on P6in to 60 in on P30in". */
export function wantedWords(
  { direction, inner, outer }: WantedAcross,
  lines: readonly Pick<CrossedLine, 'name'>[],
  unit: WorkUnit,
): string {
  const at = (station: Typed) => withUnit(station, unit);
  if (direction === 'athwart') return `athwart at ${at(inner)}`;
  return `on the diagonal, ${at(inner)} on ${lines[0].name} to ${at(outer)} on ${lines[lines.length - 1].name}`;
}

function counted(n: number): string {
  return COUNTS[n] ?? String(n);
}
