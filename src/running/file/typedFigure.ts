import type { FigureIn } from '../../survey/kinds/figurePieces.ts';
import type { Estimate } from '../estimate.ts';
import { decimalOf, lengthOf, massOf, readEstimate, speedOf, type ReadOne } from './quantity.ts';

/** What a person may be asked for, and how a figure of it is read. */
export const FIGURES = {
  mass: { field: 'kg', read: massOf, like: (unit) => `565 ${unit}, or a range: 540 to 590` },
  length: { field: 'mm', read: lengthOf, like: (unit) => `84 ${unit}, or a range: 80 to 90` },
  speed: { field: 'mps', read: speedOf, like: (unit) => `28 ${unit}` },
  angle: { field: 'degrees', read: degreesOf, like: () => '20, or a range: 18 to 21' },
} as const satisfies Readonly<
  Record<
    string,
    {
      readonly field: string;
      readonly read: ReadOne;
      readonly like: (unit: string) => string;
    }
  >
>;
export type FigureKind = keyof typeof FIGURES;
export type TypedFigure<K extends FigureKind> = FigureIn<(typeof FIGURES)[K]['field']>;

export type FigureRead<K extends FigureKind> =
  | { readonly is: 'absent' }
  | { readonly is: 'figure'; readonly figure: TypedFigure<K> }
  | { readonly is: 'problem'; readonly found: string; readonly expected: string };

/** Reads what a person typed: "565", "540 to 590", "565 ± 10 lb". Where no unit stands, `unit` is meant and is written into
 *  the text, so that the record can be read by itself. Angles are in degrees. */
export function readTypedFigure<K extends FigureKind>(
  kind: K,
  typed: string,
  unit: string,
): FigureRead<K> {
  const text = typed.trim().replaceAll('−', '-');
  if (text === '') return { is: 'absent' };
  const { field, read, like } = FIGURES[kind];
  const [range, ...likeliest] = text.split(/(?=\s*,\s*likeliest)/i);
  const bare = range.replace(/\s*(°|degrees?)$/i, '');
  const unitMeant = kind === 'angle' ? ' deg' : ` ${unit}`;
  const whole = `${bare}${/\d\.?$/.test(bare) ? unitMeant : ''}${likeliest.join('')}`;
  const estimate = readEstimate(whole, read);
  if (estimate === undefined) return { is: 'problem', found: typed, expected: like(unit) };
  const said = kind === 'angle' ? `${bare}°${likeliest.join('')}` : whole;
  return {
    is: 'figure',
    figure: { [field]: asStated(estimate), text: said } as unknown as TypedFigure<K>,
  };
}

function asStated(estimate: Estimate) {
  return 'value' in estimate ? estimate.value : estimate;
}

function degreesOf(number: string, unit: string): number | undefined {
  return unit === 'deg' ? decimalOf(number) : undefined;
}
