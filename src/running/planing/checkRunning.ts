import type { Running } from './running.ts';

/** Throws RangeError on what is no size of a hull, with what came and what was expected. Whether the method covers the
 *  size is not asked here. */
export function checkRunning({
  hull,
  load,
  speed,
  water,
  thrust,
  flaps,
  friction,
  gravity,
}: Running): void {
  above0('a beam in mm', hull.beam);
  finite('a deadrise in degrees', hull.deadrise);
  if (hull.straightKeel !== undefined) above0('a length of keel in mm', hull.straightKeel);
  above0('a displacement in kg', load.displacement);
  finite('a centre of gravity in mm forward of the transom', load.lcg);
  if (load.vcg !== undefined) finite('a height of the centre of gravity in mm', load.vcg);
  above0('a speed in m/s', speed);
  above0('a density in kg/m³', water.density);
  above0('a viscosity in m²/s', water.viscosity);
  if (gravity !== undefined) above0('gravity in m/s²', gravity);
  if (friction && !(friction.allowance >= 0 && friction.allowance < Infinity)) {
    throw new RangeError(`an allowance of 0 or more expected, got ${friction.allowance}`);
  }
  for (const size of thrust ? Object.values(thrust) : []) finite('a line of thrust', size);
  for (const flap of flaps ?? []) {
    above0('a chord in mm', flap.chord);
    finite('a flap angle in degrees', flap.angle);
    finite('a place of the trailing edge in mm', flap.aft);
    if (!(flap.span > 0 && flap.span <= 1)) {
      throw new RangeError(`a span above 0 and up to 1 of the beam expected, got ${flap.span}`);
    }
  }
}

function above0(what: string, size: number): void {
  if (!(size > 0 && size < Infinity)) throw new RangeError(`${what} above 0 expected, got ${size}`);
}

function finite(what: string, size: number): void {
  if (!Number.isFinite(size)) throw new RangeError(`${what} expected, got ${size}`);
}
