import { allowed, type Terms } from './targetProgramme.ts';
import { shapeAt, type Stretch, type TargetFigures } from './targetShape.ts';

const HALVINGS = 24;

/** The target on one surface after another, near enough to what `solveTarget` would find and quick enough for every
 *  surface that the readings leave possible. The miss is tried at a few values (`free`; held where it is shared or
 *  where filling is weighed against grinding), and with one unknown left no programme is needed: fill only lies as
 *  low as the surface lets it, grind only as high, and least work where a little more fill costs what a little less
 *  grinding saves, or at the limit.
 *  Heights of the surface at the stretch's places, mm; a straight line added to them changes no depth. */
export function followTarget(
  stretch: Stretch,
  { miss: held }: TargetFigures,
  terms: Terms,
  free: boolean,
): (surface: ArrayLike<number>) => TargetFigures {
  const { x, z, feathered, turn } = stretch;
  const last = x.length - 1;
  const { fills, grinds, most } = allowed(terms);
  const shapes = x.map((_, i) => shapeAt(stretch, i));
  const lengths = x.map((_, i) => x[Math.min(i + 1, last)] - x[Math.max(i - 1, 0)]);
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const perMiss = shapes.reduce((sum, shape, i) => sum + shape.perMiss * lengths[i], 0) / total;
  const aft = x.filter((at, i) => at <= feathered && i < last).length;
  const reach = turn * (x[last] - feathered);
  const both = fills && grinds;
  const misses = free && !both ? [held, -reach, -reach / 2, 0, reach / 2, reach] : [held];
  const wanted = new Float64Array(x.length);

  const lowest = (miss: number) => {
    let low = -Infinity;
    for (let i = 0; i < aft; i++) {
      const shape = shapes[i];
      low = Math.max(low, (wanted[i] - miss * shape.perMiss - most) / shape.perRise);
    }
    return low;
  };
  const highest = (miss: number) => {
    let high = Infinity;
    for (let i = 0; i < aft; i++) {
      const shape = shapes[i];
      high = Math.min(high, (wanted[i] - miss * shape.perMiss) / shape.perRise);
    }
    return high;
  };
  const least = (miss: number) => {
    let low = lowest(miss);
    let top = low;
    for (let i = 0; i < aft; i++) {
      const shape = shapes[i];
      top = Math.max(top, (wanted[i] - miss * shape.perMiss) / shape.perRise);
    }
    const dearer = (rise: number) => {
      let slope = 0;
      for (let i = 0; i < last; i++) {
        const shape = shapes[i];
        const over = shape.perRise * rise + miss * shape.perMiss >= wanted[i];
        slope += (over ? 1 : -terms.grindWeight) * shape.perRise * lengths[i];
      }
      return slope > 0;
    };
    if (dearer(low)) return low;
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (low + top) / 2;
      if (dearer(middle)) top = middle;
      else low = middle;
    }
    return top;
  };
  const riseAt = both ? least : fills ? lowest : highest;

  return (surface) => {
    // Height above the forward end that the target would have to make up to touch the surface.
    for (let i = 0; i <= last; i++) {
      wanted[i] = surface[i] - surface[last] - (shapes[i].base - z[last]);
    }
    let best: TargetFigures | undefined;
    let cost = Infinity;
    for (const miss of misses) {
      const rise = riseAt(miss);
      // Less is filled under a lower target, less ground over a higher one.
      const height = rise / 2 + miss * perMiss;
      const dear = fills ? height : -height;
      if (best === undefined || dear < cost) {
        best = { miss, rise };
        cost = dear;
      }
    }
    return best ?? { miss: held, rise: 0 };
  };
}
