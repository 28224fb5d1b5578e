/** What else makes a boat porpoise, plough or stay off the plane, with the test that can be undone, quickest first.
 *  Common practice, no source. */
export const OTHER_CAUSES: readonly { readonly cause: string; readonly test: string }[] = [
  {
    cause: 'drive trim',
    test: 'Trim in step by step and try; look where the limit pin is.',
  },
  {
    cause: 'water in bilge or foam',
    test: 'Pump dry; look for water in foam and tanks; try again.',
  },
  {
    cause: 'weight aft',
    test: 'Take weight off the stern, or carry sandbags forward, and try again.',
  },
  {
    cause: 'propeller',
    test: 'Try a propeller that is known to be good.',
  },
  {
    cause: 'engine height',
    test: 'Look whether the anti-ventilation plate is about level with the bottom at the transom; on a bracket higher.',
  },
  {
    cause: 'tab pockets',
    test: 'Tabs up; look whether recessed pockets are vented.',
  },
];
