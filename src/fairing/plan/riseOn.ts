import { allowed, type Terms } from './targetProgramme.ts';
import { shapeAt, type Stretch } from './targetShape.ts';

const HALVINGS = 24;

/** The rise of a target on one surface after another, with its miss held: what `solveTarget` would find if the miss
 *  could not move. With one unknown left that needs no programme: fill only lies as low as the surface lets it, grind
 *  only as high, and least work where a little more fill costs what a little less grinding saves (or at the limit).
 *  Heights of the surface at the stretch's places, mm; a straight line added to them does not matter. */
export function riseOn(
  stretch: Stretch,
  miss: number,
  terms: Terms,
): (surface: ArrayLike<number>) => number {
  const { x, z, feathered } = stretch;
  const last = x.length - 1;
  const { fills, grinds, most } = allowed(terms);
  const shapes = x.map((_, i) => shapeAt(stretch, i));
  const lengths = x.map((_, i) => x[Math.min(i + 1, last)] - x[Math.max(i - 1, 0)]);
  return (surface) => {
    // Heights that the rise would have to make up, were it to touch the surface at each place.
    const wanted = shapes.map(
      ({ base, perMiss }, i) => surface[i] - surface[last] - (base - z[last]) - miss * perMiss,
    );
    let low = -Infinity;
    let high = Infinity;
    for (let i = 0; i < last; i++) {
      if (x[i] > feathered) break;
      const { perRise } = shapes[i];
      low = Math.max(low, (wanted[i] - most) / perRise);
      if (!fills) high = Math.min(high, wanted[i] / perRise);
    }
    if (!fills) return high;
    if (!grinds) return low;
    const dearer = (rise: number) => {
      let slope = 0;
      for (let i = 0; i < last; i++) {
        const { perRise } = shapes[i];
        const cost = perRise * rise >= wanted[i] ? 1 : -terms.grindWeight;
        slope += cost * perRise * lengths[i];
      }
      return slope > 0;
    };
    let top = low;
    for (let i = 0; i < last; i++) {
      if (x[i] <= feathered) top = Math.max(top, wanted[i] / shapes[i].perRise);
    }
    if (dearer(low)) return low;
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (low + top) / 2;
      if (dearer(middle)) top = middle;
      else low = middle;
    }
    return top;
  };
}
