import type { PlanOptions } from './options.ts';

/** Throws RangeError on a figure that cannot be meant: a length, weight or rate that is not above 0, a feather or its
 *  turn below 0, a waste outside 0 to 1. */
export function checkOptions(options: PlanOptions): void {
  const { camber, feather, material = {}, widths = {} } = options;
  above0({
    grindWeight: options.grindWeight,
    grindLimit: options.grindLimit,
    fillLimit: options.fillLimit,
    forward: options.forward,
    step: options.step,
    'camber height': camber?.height,
    density: material.density,
    passLimit: material.passLimit,
    pot: material.pot,
    rate: material.rate?.hours,
  });
  above0(Object.fromEntries(Object.entries(widths).map(([id, mm]) => [`width of ${id}`, mm])));
  if (feather && !(feather.length >= 0 && feather.length < Infinity && feather.turn >= 0)) {
    throw new RangeError(
      `a feather of 0 or more expected, got ${feather.length} turning ${feather.turn}`,
    );
  }
  const { waste } = material;
  if (waste !== undefined && !(waste >= 0 && waste < 1)) {
    throw new RangeError(`waste: a part from 0 to below 1 expected, got ${waste}`);
  }
}

function above0(figures: Readonly<Record<string, number | undefined>>): void {
  for (const [name, value] of Object.entries(figures)) {
    if (value !== undefined && !(value > 0 && value < Infinity)) {
      throw new RangeError(`${name}: a figure above 0 expected, got ${value}`);
    }
  }
}
