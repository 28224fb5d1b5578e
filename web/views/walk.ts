/** The order in which a person goes along the lines: each from the transom forward, each from its fore end aft, or forward
 *  on one and aft on the next, so that nobody crawls back. */
export type Walk = 'forward' | 'aft' | 'snake';

const WALKS: readonly Walk[] = ['forward', 'aft', 'snake'];

/** How it is said at the head of the readings table, and on what takes to it. */
export const WALK_WORDS: Readonly<Record<Walk, string>> = {
  forward: 'walking forward',
  aft: 'walking aft',
  snake: 'walking forward and aft in turn',
};

/** A walk as it was kept; forward where nobody said, or something else stands there. */
export function readWalk(text: string | undefined): Walk {
  return WALKS.find((walk) => walk === text) ?? 'forward';
}

/** The walk that comes after one, round and round. */
export function walkAfter(walk: Walk): Walk {
  return WALKS[(WALKS.indexOf(walk) + 1) % WALKS.length];
}

/** Whether a line is walked from the transom forward. `nth`: where it comes among the lines, from 0. */
export function goesForward(walk: Walk, nth: number): boolean {
  return walk === 'snake' ? nth % 2 === 0 : walk === 'forward';
}
