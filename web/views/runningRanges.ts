/** The ranges of the method, as they are checked before any number is shown. */
export const RANGES: readonly { readonly of: string; readonly range: string }[] = [
  {
    of: 'Running trim, Savitsky (1964), prismatic hull, calm water',
    range:
      'speed coefficient 1 to 13, trim 2° to 15°, deadrise up to 30°, mean wetted length 0.1 to 4 beams, chines wetted at the transom, the bow dry where the straight keel is stated',
  },
  {
    of: 'Wetted keel, chine and draft',
    range: 'speed coefficient from 2, or from 1 with a deadrise of 10° or less',
  },
  {
    of: 'Limit, Savitsky’s figure 18, read from the chart within about 0.3°',
    range: 'deadrise up to 20°, √(CL/2) from 0.13 to 0.30',
  },
  {
    of: 'Limit, Celano’s form (1998), coefficients from memory',
    range: 'deadrise 10° to 25°, √(CL/2) from 0.13 to 0.30',
  },
  {
    of: 'Hook, rocker and tabs as flaps, Savitsky and Brown (1976), from memory; a bent bottom is no flap: an analogy',
    range: 'speed coefficient 2 to 7, flap angle up to 15°, trim up to 10°, up to half of the lift',
  },
];
