import { asciiOf, viewOf } from './bytes.ts';
import type { PictureSize } from './pictureSize.ts';

/** The size that a WebP's first chunk states. RFC 9649, section 2.7 (extended) and 3.4 (lossless); RFC 6386, section
 *  9.1 (lossy: the two upper bits are a scale for showing, which no decoder applies). */
export function sizeInWebp(bytes: Uint8Array): PictureSize | undefined {
  if (bytes.length < 30) return undefined;
  const view = viewOf(bytes);
  switch (asciiOf(bytes, 12, 4)) {
    case 'VP8X':
      return { width: 1 + threeBytes(view, 24), height: 1 + threeBytes(view, 27) };
    case 'VP8L': {
      if (bytes[20] !== 0x2f) return undefined;
      const bits = view.getUint32(21, true);
      return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) };
    }
    case 'VP8 ':
      if (asciiOf(bytes, 23, 3) !== '\x9d\x01\x2a') return undefined;
      return {
        width: view.getUint16(26, true) & 0x3fff,
        height: view.getUint16(28, true) & 0x3fff,
      };
    default:
      return undefined;
  }
}

function threeBytes(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint8(at + 2) * 0x1_0000;
}
