/** What stands in words on every exhibit, for readers who have never seen the tool. */

export const METHOD: readonly string[] = [
  'A straightedge was laid fore and aft on the bottom, along lines parallel to the keel. At stations along it the gap between straightedge and hull was read with a gauge. Stations count forward from the transom’s bottom edge; PORT and STARBOARD are as seen facing forward.',
  'Through the readings of each line one smooth curve was fitted by calculation, which lets each reading be out by as much as its gauge and its repeats say. How high and how level the straightedge lay cancels out: what is told is the shape of the bottom along a line, not the trim of the boat.',
  'The curve is compared with a straight line no longer than the tolerance’s length, wherever that may lie. Beside each size stands what it may be out by (±, about 95 %). Between stations the bottom is inferred; beyond the outermost readings, and between lines, nothing is said.',
  'Proven means: from the readings and all that is known of their errors, the probability is 97.5 % or more. That is stricter than the 95 % that the decision rule of ISO 14253-1 asks. What is proven neither way is called undecided; it is never called fair.',
];

export const MEANINGS: readonly (readonly [word: string, meaning: string])[] = [
  [
    'Hook',
    'Proven: somewhere the bottom lies hollow by more than the tolerance. It acts like a fixed tab: lifts the stern, bow down.',
  ],
  [
    'Rocker',
    'Proven: somewhere the bottom lies proud (humped) by more than the tolerance. Bow up; invites porpoising.',
  ],
  ['Fair', 'Proven: nowhere out by more than the tolerance.'],
  ['Undecided', 'Neither is proven. It may be either; what would decide it stands with the line.'],
  ['Too few readings', 'Nothing can be said of that line.'],
];

export const TAIL =
  'Tail angle: how the last stretch before the transom turns against the bottom ahead of it; down is towards the water.';

export const FIGURES =
  'TRANSOM left, bow right, water side down, heights enlarged, one scale for all lines. Thick: the bottom as fitted; thin on both sides of it: where it lies with 95 %. Marks with bars: readings. Straight: the straightedge as it would show the departure; dashed beside it: what the tolerance allows. ✕ at the foot: a station that cannot be read; ○ put off. Strip: H hook, R rocker, F fair, ? undecided. Strokes across: ahead of the limit, not judged.';

export const LIMITS: readonly string[] = [
  'A measurement exhibit, not a condition survey. It tells the shape of the bottom along the lines named, on the day and in the set-up named, and nothing else.',
  'It does not say what made the shape. A hook may be moulded in; part of what a trailer or bunks made may go after days afloat; how the hull stood changes what is read.',
  'It does not say whether structure, laminate, core, fastenings or fittings are sound. For structure, ask a qualified marine surveyor.',
  'It is no order to fill or to grind, and no finding on how the boat runs: weight, drive trim, engine height, propeller and tabs are ruled out apart.',
  'Local codes and licensed practice come first.',
];
