/** A digital gauge that types by itself may send a value twice, or its Enter. No hand types a figure and Enter in this
 *  time, ms (house default). */
export const BURST_WITHIN = 50;

/** A value that was taken: when, and of which station and laying. */
export interface Taken {
  /** ms, on the clock of the next press. */
  readonly at: number;
  readonly cell: string;
}

/** What an Enter at the end of a cell is: one of a person's; a second one of the same value; or the end of a value that
 *  came too soon after the last to be of another station. */
export function pressIs(
  last: Taken | undefined,
  at: number,
  text: string,
): 'own' | 'doubled' | 'burst' {
  if (last === undefined || at - last.at >= BURST_WITHIN || at < last.at) return 'own';
  return text.trim() === '' ? 'doubled' : 'burst';
}
