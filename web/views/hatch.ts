import { rounded } from './drawingSize.ts';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Hatching as drawn lines, since browsers turn pattern fills to pixels when they print: one path of strokes at 45°,
 *  cut at the box. `rising` runs from the foot at the left up to the right, `falling` the other way. `gap`: between
 *  strokes, along the box. Throws RangeError where the gap is not positive. */
export function hatchPath(box: Box, gap: number, lean: 'rising' | 'falling'): string {
  if (!(gap > 0)) throw new RangeError(`gap ${gap}: a positive distance expected`);
  const { x, y, width, height } = box;
  const strokes: string[] = [];
  for (let at = gap / 2 - height; at < width; at += gap) {
    const start = Math.max(at, 0);
    const end = Math.min(at + height, width);
    if (end <= start) continue;
    const heightAt = (along: number): number =>
      lean === 'rising' ? y + height - (along - at) : y + (along - at);
    strokes.push(
      `M${rounded(x + start)},${rounded(heightAt(start))}L${rounded(x + end)},${rounded(heightAt(end))}`,
    );
  }
  return strokes.join('');
}
