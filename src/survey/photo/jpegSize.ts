import { viewOf } from './bytes.ts';
import type { PictureSize } from './pictureSize.ts';

/** The size that a JPEG's frame header states; undefined where none comes before its picture begins. Segments before
 *  it (camera details, colour profile, a small picture) are passed over whole. ITU-T T.81, annex B.1 and B.2.2. */
export function sizeInJpeg(bytes: Uint8Array): PictureSize | undefined {
  const view = viewOf(bytes);
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1];
    // Any number of fill bytes may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (standsAlone(marker)) {
      at += 2;
      continue;
    }
    if (marker === SCAN || marker === END) return undefined;
    const length = view.getUint16(at + 2);
    if (length < 2) return undefined;
    if (isFrame(marker)) {
      if (length < 8 || at + 9 > bytes.length) return undefined;
      return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    }
    at += 2 + length;
  }
  return undefined;
}

const END = 0xd9;
const SCAN = 0xda;

function standsAlone(marker: number | undefined): boolean {
  return marker === 0x01 || (marker !== undefined && marker >= 0xd0 && marker <= 0xd7);
}

/** SOF0 to SOF15; the three numbers among them that mean something else are tables and reserved. */
function isFrame(marker: number | undefined): boolean {
  return (
    marker !== undefined &&
    marker >= 0xc0 &&
    marker <= 0xcf &&
    marker !== 0xc4 &&
    marker !== 0xc8 &&
    marker !== 0xcc
  );
}
