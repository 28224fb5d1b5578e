/** Which stretch of a line is shown, mm forward of the transom; the whole where absent. */
export type Zoom = readonly [from: number, to: number] | undefined;

const STEP = 2;
const CLOSEST = 8;

/** Twice as close about a place, never beyond the ends nor closer than an eighth of the whole. */
export function zoomIn(whole: readonly [number, number], zoom: Zoom, about?: number): Zoom {
  const [from, to] = zoom ?? whole;
  const length = Math.max((to - from) / STEP, (whole[1] - whole[0]) / CLOSEST);
  return placed(whole, about ?? (from + to) / 2, length);
}

/** Half as close; the whole when that is reached. */
export function zoomOut(whole: readonly [number, number], zoom: Zoom): Zoom {
  if (zoom === undefined) return undefined;
  return placed(whole, (zoom[0] + zoom[1]) / 2, (zoom[1] - zoom[0]) * STEP);
}

/** Moved by a share of what is shown, forward where positive. */
export function pan(whole: readonly [number, number], zoom: Zoom, share: number): Zoom {
  if (zoom === undefined) return undefined;
  const length = zoom[1] - zoom[0];
  return placed(whole, (zoom[0] + zoom[1]) / 2 + share * length, length);
}

/** Moved no more than it takes to show a place. */
export function bringIn(whole: readonly [number, number], zoom: Zoom, place: number): Zoom {
  if (zoom === undefined || (place >= zoom[0] && place <= zoom[1])) return zoom;
  return placed(whole, place, zoom[1] - zoom[0]);
}

export function isClosest(whole: readonly [number, number], zoom: Zoom): boolean {
  return zoom !== undefined && zoom[1] - zoom[0] <= ((whole[1] - whole[0]) / CLOSEST) * 1.001;
}

function placed(whole: readonly [number, number], middle: number, length: number): Zoom {
  const all = whole[1] - whole[0];
  if (length >= all * (1 - 1e-9)) return undefined;
  const from = Math.min(Math.max(middle - length / 2, whole[0]), whole[1] - length);
  return [from, from + length];
}
