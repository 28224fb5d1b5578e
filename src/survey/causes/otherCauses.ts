import type { Change, Complaint } from '../kinds/complaint.ts';

/** Another cause of how a boat runs, with the test that can be undone. */
export interface OtherCause {
  /** The name by which entries speak of it: it never changes. */
  readonly cause: string;
  readonly clue: string;
  readonly test: string;
  /** What its test takes: 1 at the wheel, 2 a look at the dock or ashore, 3 a run with weight moved, 4 a part to borrow. */
  readonly takes: 1 | 2 | 3 | 4;
  readonly often: readonly Complaint[];
  readonly sometimes: readonly Complaint[];
  /** Changes after which it is looked at sooner. */
  readonly after: readonly Change[];
  /** What is said where the boat has no such thing. */
  readonly none?: string;
}

/** What else makes a boat porpoise, plough or stay off the plane: the one list in the house, quickest first.
 *  Common practice, no source. */
export const OTHER_CAUSES: readonly OtherCause[] = [
  {
    cause: 'drive trim',
    clue: 'It stops, or gets much better, when the drive is trimmed in.',
    test: 'Trim in step by step and try; look where the limit pin is.',
    takes: 1,
    often: ['porpoises', 'ploughs'],
    sometimes: ['slow to plane', 'ventilates', 'pulls'],
    after: ['engines', 'bracket'],
  },
  {
    cause: 'water in bilge or foam',
    clue: 'Squats or lists at rest, scuppers low, heavier than it was.',
    test: 'Pump dry; look for water in foam and tanks; try again.',
    takes: 2,
    often: ['slow to plane', 'lists'],
    sometimes: ['porpoises', 'pulls'],
    after: ['tanks'],
  },
  {
    cause: 'weight aft',
    clue: 'Squats at rest, scuppers low; porpoises at higher speed.',
    test: 'Take weight off the stern, or carry sandbags forward, and try again.',
    takes: 3,
    often: ['porpoises', 'slow to plane'],
    sometimes: ['lists'],
    after: ['engines', 'bracket', 'batteries', 'tanks'],
  },
  {
    cause: 'propeller',
    clue: 'Revs run away or never come up; blow-out in turns.',
    test: 'Try a propeller that is known to be good.',
    takes: 4,
    often: ['ventilates', 'slow to plane'],
    sometimes: ['pulls'],
    after: ['propeller', 'engines'],
  },
  {
    cause: 'engine height',
    clue: 'Too low: spray over the anti-ventilation plate, drag, stern sucked down. Too high: ventilates in turns, revs jump.',
    test: 'Look whether the anti-ventilation plate is about level with the bottom at the transom; on a bracket higher.',
    takes: 2,
    often: ['ventilates'],
    sometimes: ['ploughs', 'slow to plane', 'pulls'],
    after: ['engines', 'bracket'],
  },
  {
    cause: 'bracket height',
    clue: 'The bracket’s tank or platform drags when the boat gets on plane.',
    test: 'Look for wash on the bracket while the boat gets on plane.',
    takes: 2,
    often: ['slow to plane'],
    sometimes: [],
    after: ['bracket'],
    none: 'no bracket fitted',
  },
  {
    cause: 'tab pockets',
    clue: 'Stern held down getting on plane, worse when heavy; air trapped in the pocket. Measure it: size, depth below the waterline at rest, vented or not.',
    test: 'Tabs up; look whether recessed pockets are vented.',
    takes: 1,
    often: ['slow to plane'],
    sometimes: ['ploughs', 'lists', 'pulls'],
    after: ['tabs'],
    none: 'no tabs or pockets fitted',
  },
];
