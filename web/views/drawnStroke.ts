import { SIGNATURE_TALL } from '../../src/survey/kinds/signature.ts';

/** A box on the screen, px. */
export interface Field {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

/** Points nearer to the last than this are left out: a pen sends more than a hand draws. */
const NEAREST = 1 / 300;
const MOST = 4000;

/** A stroke, x and y in turn in parts of the field's width, with a point more at a place on the screen; the same stroke
 *  where the pen has hardly moved. What leaves the field runs along its edge. */
export function withPoint(
  stroke: readonly number[],
  at: { readonly clientX: number; readonly clientY: number },
  { left, top, width }: Field,
): readonly number[] {
  const x = part((at.clientX - left) / width, 1);
  const y = part((at.clientY - top) / width, SIGNATURE_TALL);
  const [lastX, lastY] = stroke.slice(-2);
  const moved =
    lastX === undefined || lastY === undefined || Math.hypot(x - lastX, y - lastY) >= NEAREST;
  return moved && stroke.length < MOST ? [...stroke, x, y] : stroke;
}

/** To a thousandth, from 0 to `most`. */
function part(value: number, most: number): number {
  return Math.round(Math.min(Math.max(value, 0), most) * 1000) / 1000;
}
