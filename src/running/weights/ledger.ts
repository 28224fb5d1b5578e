import type { Estimate } from '../estimate.ts';

/** The three states of a boat that are held side by side. */
export const LOAD_STATES = ['as designed', 'as now', 'as proposed'] as const;
export type LoadState = (typeof LOAD_STATES)[number];

/** Where a thing stands: its centre of gravity. */
export interface Place {
  /** Forward of the transom's bottom edge, mm; negative aft of it. */
  readonly x: Estimate;
  /** Above the keel at the transom, mm. Absent: not known. */
  readonly height?: Estimate;
}

/** From which state on a change counts; one of now counts in what is proposed too. */
export type Since = 'as now' | 'as proposed';

interface Weighed {
  readonly name: string;
  /** kg */
  readonly mass: Estimate;
  /** Items that are one and the same thing (aboard here, removed there) name it alike and state the same mass: its doubt
   *  then counts once. */
  readonly thing?: string;
}

/** A line of the ledger. The boat itself, weighed or estimated, is an item like any other; a repower is written as
 *  what was removed, added and moved. */
export type LedgerItem =
  | (Weighed & {
      readonly act: 'aboard';
      readonly at: Place;
      /** Weighed after the changes of now, which are in its figure: before them it was lighter or heavier by those. */
      readonly weighed?: 'as now';
    })
  | (Weighed & { readonly act: 'removed'; readonly from: Place; readonly since: Since })
  | (Weighed & { readonly act: 'added'; readonly to: Place; readonly since: Since })
  | (Weighed & {
      readonly act: 'moved';
      readonly from: Place;
      readonly to: Place;
      readonly since: Since;
    });

/** Whether a change counts in a state. */
export function countsIn(since: Since, state: LoadState): boolean {
  return LOAD_STATES.indexOf(state) >= LOAD_STATES.indexOf(since);
}

/** The states that the ledger tells apart: as designed, and each that something changes. */
export function statesOf(items: readonly LedgerItem[]): readonly LoadState[] {
  return LOAD_STATES.filter(
    (state) =>
      state === 'as designed' ||
      items.some((item) => item.act !== 'aboard' && item.since === state),
  );
}
