/** Why a station cannot be read, in the order of how often that is so (common practice, no source). */
export const REASONS = [
  'strake',
  'fitting',
  'through-hull',
  'transducer',
  'tab',
  'tab pocket',
] as const;

/** Why a station is put off, unless somebody writes another reason. */
export const PUT_OFF = 'a stand in the way';
