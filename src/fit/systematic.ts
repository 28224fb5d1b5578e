import { normalQuantile } from './normalQuantile.ts';

/** Something unknown that bends a whole profile at once, such as a bow of the edge: more readings do not
 *  take it out. Known up to a straight line, like the profile itself. */
export interface SystematicMode {
  readonly name: string;
  /** What one standard deviation of it does to the profile: coefficients in the profile's own basis
   *  (`responseTo` finds them from what it does to the readings). */
  readonly shape: Float64Array;
  readonly distribution: 'normal' | 'rectangular';
}

/** Draws with every mode in them: + in the first of a pair and − in the second, so that mirroring stays
 *  exact. `from`: the pair that the first draws are. The numbers are Richtmyer's sequence (1951,
 *  Los Alamos report LA-1342: multiples of a prime's root, less their whole part), a prime a mode, and
 *  fixed, so that the same readings give the same draws.
 *  Without modes the draws come back as they are.
 *  Throws RangeError where a mode's shape is not of the draws' size. */
export function withSystematic(
  draws: readonly Float64Array[],
  modes: readonly SystematicMode[],
  from: number,
): readonly Float64Array[] {
  if (modes.length === 0) return draws;
  let shift: Float64Array = new Float64Array(0);
  return draws.map((c, i) => {
    const first = i % 2 === 0;
    if (first) shift = shiftOf(modes, from + i / 2, c.length);
    return c.map((value, j) => (first ? value + shift[j] : value - shift[j]));
  });
}

function shiftOf(modes: readonly SystematicMode[], pair: number, size: number): Float64Array {
  const shift = new Float64Array(size);
  modes.forEach(({ name, shape, distribution }, m) => {
    if (shape.length !== size) {
      throw new RangeError(
        `${name}: a shape of ${size} coefficients expected, got ${shape.length}`,
      );
    }
    const multiple = (pair + 1) * Math.sqrt(prime(m));
    const level = multiple - Math.floor(multiple);
    // A rectangular distribution reaches √3 of its standard deviation either way (GUM 4.3.7).
    const amount =
      distribution === 'rectangular' ? Math.sqrt(3) * (2 * level - 1) : normalQuantile(level);
    for (let j = 0; j < size; j++) shift[j] += amount * shape[j];
  });
  return shift;
}

const primes = [2];

function prime(place: number): number {
  for (let next = primes[primes.length - 1] + 1; primes.length <= place; next++) {
    if (primes.every((p) => next % p !== 0)) primes.push(next);
  }
  return primes[place];
}
