import { rounded } from './drawingSize.ts';

/** Outline of a reading's mark: circle, square, diamond, triangle, one a placement, and then again.
 *  `r`: about half its width. */
export function readingMark(placement: number, x: number, y: number, r: number): string {
  const [left, right, up, down] = [x - r, x + r, y - r, y + r].map(rounded);
  const [round, wide] = [rounded(r), rounded(2 * r)];
  switch (placement % 4) {
    case 0:
      return `M${left},${y}a${round},${round} 0 1 0 ${wide},0a${round},${round} 0 1 0 ${-wide},0Z`;
    case 1:
      return `M${left},${up}H${right}V${down}H${left}Z`;
    case 2:
      return `M${x},${rounded(y - 1.3 * r)}L${rounded(x + 1.3 * r)},${y}L${x},${rounded(y + 1.3 * r)}L${rounded(x - 1.3 * r)},${y}Z`;
    default:
      return `M${x},${rounded(y - 1.2 * r)}L${rounded(x + 1.2 * r)},${down}H${rounded(x - 1.2 * r)}Z`;
  }
}
