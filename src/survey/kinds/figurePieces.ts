import * as v from 'valibot';

/** A figure between bounds, perhaps with a value thought likeliest. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly likeliest?: number | undefined;
}

/** A figure as a person knows it, in the unit that its field is named after, and the text as typed. */
export type FigureIn<U extends string> = Readonly<Record<U, number | Bounds>> & {
  readonly text: string;
};

/** Such a figure: `{"kg": 255, "text": "255 kg"}`, or with bounds `{"kg": {"low": 240, "high": 260}, "text": "240 to 260 kg"}`.
 *  `least`: below it no part of the figure may lie. */
function figureIn<U extends string>(
  unit: U,
  what: string,
  least = -Infinity,
): v.GenericSchema<unknown, FigureIn<U>> {
  const expected = `expected ${what}, and the text as typed`;
  const number = v.pipe(
    v.number(expected),
    v.finite(expected),
    v.check((value) => value >= least, expected),
  );
  const bounds = v.pipe(
    v.looseObject({ low: number, high: number, likeliest: v.exactOptional(number) }, expected),
    v.check(
      ({ low, high, likeliest = low }) => low <= likeliest && likeliest <= high,
      'expected bounds in order',
    ),
  );
  const entries = {
    [unit]: v.union([number, bounds], expected),
    text: v.pipe(v.string(expected), v.maxLength(200, 'expected at most 200 characters')),
  };
  return v.looseObject(entries, expected) as unknown as v.GenericSchema<unknown, FigureIn<U>>;
}

export const massFigure = figureIn('kg', 'a mass: kg, 0 or more', 0);
export const placeFigure = figureIn('mm', 'a place: mm');
export const sizeFigure = figureIn('mm', 'a size: mm, above 0', Number.MIN_VALUE);
export const angleFigure = figureIn('degrees', 'degrees, from −90', -90);
export const speedFigure = figureIn('mps', 'a speed: m/s, above 0', Number.MIN_VALUE);
