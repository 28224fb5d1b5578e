import { FAMILIES } from './families.ts';
import { HELD_OUT } from './heldOut.ts';
import { cellsOf } from './plan.ts';

interface Asked {
  readonly index: number;
  readonly runs: number;
  readonly seed: number;
  readonly heldOut: boolean;
}

/** Answers each family's place in its list with its cells. */
process.on('message', ({ index, runs, seed, heldOut }: Asked) => {
  process.send?.(cellsOf((heldOut ? HELD_OUT : FAMILIES)[index], runs, seed));
});
