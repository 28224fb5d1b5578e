import * as v from 'valibot';
import type { Estimate } from '../estimate.ts';
import { estimateOf } from '../fold/ledgerOf.ts';
import { FRICTION_LINES } from '../planing/friction.ts';
import { WATERS } from '../planing/water.ts';
import { lengthOf, massOf, readEstimate, readFigure, speedOf, type ReadOne } from './quantity.ts';
import { readDensity, readViscosity } from './readWater.ts';
import { readSpeeds } from './readSpeeds.ts';
import { readTypedFigure } from './typedFigure.ts';

const quantity = <T>(expected: string, read: (text: string) => T | undefined) =>
  v.pipe(
    v.string(expected),
    v.rawTransform<string, T>(({ dataset, addIssue, NEVER }) => {
      const found = read(dataset.value);
      if (found !== undefined) return found;
      addIssue({ message: expected });
      return NEVER;
    }),
  );
const figure = (expected: string, read: ReadOne, from = -Infinity) =>
  quantity(expected, (text) => {
    const found = readFigure(text, read);
    return found !== undefined && found >= from ? found : undefined;
  });
const estimate = (expected: string, read: ReadOne) =>
  quantity(expected, (text) => readEstimate(text, read));
const degrees = (low: number, high: number) => {
  const expected = `expected degrees from ${low} to ${high}, as a number`;
  return v.pipe(v.number(expected), v.minValue(low, expected), v.maxValue(high, expected));
};
const above0 = (expected: string) =>
  v.pipe(v.number(expected), v.finite(expected), v.gtValue(0, expected));

const least = (found: Estimate) => ('low' in found ? found.low : found.value);

const LENGTH = 'expected a length with its unit, like "84 in" or "2130 mm"';
const size = figure(`${LENGTH}, above 0`, lengthOf, Number.MIN_VALUE);
const spot = estimate(`${LENGTH}, or a range, like "80 to 90 in"`, lengthOf);
const place = v.union(
  [
    v.pipe(
      spot,
      v.transform((x) => ({ x })),
    ),
    v.strictObject({ x: spot, height: v.exactOptional(spot) }),
  ],
  `${LENGTH}, or {"x": …, "height": …}`,
);
const mass = quantity('expected a mass with its unit, like "565 lb" or "240 to 260 kg"', (text) => {
  const found = readEstimate(text, massOf);
  return found !== undefined && least(found) >= 0 ? found : undefined;
});
const name = v.pipe(v.string('expected a name'), v.minLength(1, 'expected a name'));
const weighed = { name, mass, thing: v.exactOptional(name) };
const since = v.optional(
  v.picklist(['as now', 'as proposed'], 'expected as now or as proposed'),
  'as now',
);
const item = v.variant(
  'act',
  [
    v.strictObject({
      act: v.literal('aboard'),
      ...weighed,
      at: place,
      weighed: v.exactOptional(v.literal('as now', 'expected as now')),
    }),
    v.strictObject({ act: v.literal('removed'), ...weighed, from: place, since }),
    v.strictObject({ act: v.literal('added'), ...weighed, to: place, since }),
    v.strictObject({ act: v.literal('moved'), ...weighed, from: place, to: place, since }),
  ],
  'expected aboard, removed, added or moved',
);
const tail = v.strictObject({
  angle: degrees(-15, 15),
  u: v.pipe(v.number('expected degrees, 0 or more'), v.minValue(0, 'expected degrees, 0 or more')),
  over: size,
});
const breadth = quantity(`${LENGTH}, above 0, or a range, like "75 to 80 in"`, (text) => {
  const found = readEstimate(text, lengthOf);
  return found !== undefined && least(found) > 0 ? found : undefined;
});
const RISE = 'expected degrees from 0 to 90, as a number, or a range, like "18 to 20"';
const rise = quantity(RISE, (text) => {
  const read = readTypedFigure('angle', text, '°');
  if (read.is !== 'figure') return undefined;
  const found = estimateOf(read.figure.degrees);
  return 'low' in found && found.low >= 0 && found.high <= 90 ? found : undefined;
});
const SPEEDS = 'expected speeds with their unit, like "16 to 40 kn" or "20, 25, 30 kn"';
const DENSITY = 'expected kg/m³, or a density with its unit, like "1.94 slug/ft3"';
const density = v.union([above0(DENSITY), quantity(DENSITY, readDensity)], DENSITY);
const VISCOSITY = 'expected m²/s, or a viscosity with its unit, like "1.28e-5 ft2/s"';
const viscosity = v.union([above0(VISCOSITY), quantity(VISCOSITY, readViscosity)], VISCOSITY);
/** Degrees between these, as they are or as a range. */
const turn = (low: number, high: number) => {
  const expected = `expected degrees from ${low} to ${high}, as a number, or a range, like "2 to 5"`;
  const within = (found: Estimate) =>
    'low' in found
      ? found.low >= low && found.high <= high
      : found.value >= low && found.value <= high;
  return v.union(
    [
      v.pipe(
        degrees(low, high),
        v.transform((value): Estimate => ({ value })),
      ),
      quantity(expected, (text) => {
        const read = readTypedFigure('angle', text, '°');
        const found = read.is === 'figure' ? estimateOf(read.figure.degrees) : undefined;
        return found && within(found) ? found : undefined;
      }),
    ],
    expected,
  );
};
/** What a boat's file may say; each message completes "found …, expected …". */
export const boatSchema = v.strictObject(
  {
    boat: v.exactOptional(name),
    beam: breadth,
    deadrise: v.union([degrees(0, 90), rise], RISE),
    straightKeel: v.exactOptional(size),
    water: v.optional(
      v.union(
        [
          v.pipe(
            v.picklist(['sea', 'fresh']),
            v.transform((kind) => WATERS[kind]),
          ),
          v.strictObject({ density, viscosity }),
        ],
        `expected sea, fresh, or {"density": …, "viscosity": …}: ${DENSITY}; ${VISCOSITY}`,
      ),
      'sea',
    ),
    thrust: v.exactOptional(
      v.union(
        [
          v.strictObject({ arm: spot, angle: turn(-30, 30) }),
          v.strictObject({ x: spot, height: spot, angle: turn(-30, 30) }),
        ],
        'expected {"arm": …, "angle": …} or {"x": …, "height": …, "angle": …}',
      ),
    ),
    items: v.pipe(v.array(item, 'expected a list of items'), v.minLength(1, 'expected an item')),
    tail: v.exactOptional(
      v.union(
        [
          v.pipe(
            tail,
            v.transform((one) => [one]),
          ),
          v.pipe(v.array(tail), v.minLength(1)),
        ],
        'expected {"angle": degrees, "u": degrees, "over": length}, or a list of such, one a line',
      ),
    ),
    tabs: v.exactOptional(v.strictObject({ chord: size, width: size, angle: turn(0, 15) })),
    friction: v.exactOptional(
      v.strictObject({
        line: v.picklist(
          Object.keys(FRICTION_LINES) as (keyof typeof FRICTION_LINES)[],
          'expected Schoenherr or ITTC 1957',
        ),
        allowance: v.pipe(v.number('expected 0 or more'), v.minValue(0, 'expected 0 or more')),
      }),
    ),
    gravity: v.exactOptional(above0('expected m/s²')),
    speeds: quantity(SPEEDS, readSpeeds),
    at: v.exactOptional(
      figure('expected a speed with its unit, like "28 kn"', speedOf, Number.MIN_VALUE),
    ),
  },
  'expected no such field',
);
