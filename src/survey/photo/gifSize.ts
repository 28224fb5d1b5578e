import { viewOf } from './bytes.ts';
import type { PictureSize } from './pictureSize.ts';

/** The size of a GIF: its screen, or its first picture where that reaches beyond, since decoders then make room for
 *  it. Undefined where no picture comes. GIF89a, sections 18 (screen), 20 (picture) and 23 to 26 (extensions). */
export function sizeInGif(bytes: Uint8Array): PictureSize | undefined {
  if (bytes.length < 13) return undefined;
  const view = viewOf(bytes);
  const screen = { width: view.getUint16(6, true), height: view.getUint16(8, true) };
  const flags = view.getUint8(10);
  let at = 13 + ((flags & 0x80) === 0 ? 0 : 3 * 2 ** ((flags & 7) + 1));
  while (bytes[at] === 0x21) {
    at += 2;
    for (;;) {
      const block = bytes[at];
      if (block === undefined) return undefined;
      at += 1 + block;
      if (block === 0) break;
    }
  }
  if (bytes[at] !== 0x2c || at + 10 > bytes.length) return undefined;
  return {
    width: Math.max(screen.width, view.getUint16(at + 1, true) + view.getUint16(at + 5, true)),
    height: Math.max(screen.height, view.getUint16(at + 3, true) + view.getUint16(at + 7, true)),
  };
}
