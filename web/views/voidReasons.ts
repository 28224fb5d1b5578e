/** Why a station cannot be read, in the order of how often that is so (common practice, no source). */
export const REASONS = [
  'strake',
  'fitting',
  'through-hull',
  'transducer',
  'tab',
  'tab pocket',
] as const;

/** Why a station is put off, unless somebody gives another reason. */
export const PUT_OFF = 'a stand in the way';

/** Why else it may be (common practice, no source). */
export const PUT_OFF_REASONS = [PUT_OFF, 'wet', 'not cleaned yet', 'out of reach'] as const;

/** Why a station is put off that nobody planned, and that would decide its line. */
export const DECIDES = 'would decide the line';
