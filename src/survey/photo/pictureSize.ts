/** In pixels. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** Largest file that is looked at. */
export const PICTURE_BYTES = 64_000_000;
/** Largest picture that is decoded: each pixel takes 4 bytes while it is. */
export const PICTURE_PIXELS = 64_000_000;
export const PICTURE_SIDE = 20_000;

/** Why a picture is too large to be decoded on a tablet; undefined where it is not. */
export function tooLarge({
  width,
  height,
}: PictureSize): { readonly found: string; readonly expected: string } | undefined {
  if (width <= PICTURE_SIDE && height <= PICTURE_SIDE && width * height <= PICTURE_PIXELS) {
    return undefined;
  }
  return {
    found: `${width} × ${height} pixels`,
    expected: `at most ${PICTURE_PIXELS / 1e6} megapixels and ${PICTURE_SIDE} pixels a side`,
  };
}

/** The size of a picture brought down to a longest side, in its own proportion, never below 1 pixel. A smaller one
 *  stays as it is. */
export function scaledSize({ width, height }: PictureSize, longest: number): PictureSize {
  const factor = Math.min(1, longest / Math.max(width, height));
  return {
    width: Math.max(1, Math.round(width * factor)),
    height: Math.max(1, Math.round(height * factor)),
  };
}
