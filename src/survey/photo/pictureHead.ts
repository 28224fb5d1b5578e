import { asciiOf, viewOf } from './bytes.ts';
import { foreignFile } from './foreignFile.ts';
import { sizeInGif } from './gifSize.ts';
import { sizeInJpeg } from './jpegSize.ts';
import type { PictureSize } from './pictureSize.ts';
import { sizeInWebp } from './webpSize.ts';

export type PictureType = 'image/jpeg' | 'image/png' | 'image/webp' | 'image/gif';

export interface PictureHead extends PictureSize {
  readonly ok: true;
  readonly type: PictureType;
}

export interface PictureFault {
  readonly ok: false;
  readonly found: string;
  readonly expected: string;
}

const NAMES: Readonly<Record<PictureType, string>> = {
  'image/jpeg': 'a JPEG',
  'image/png': 'a PNG',
  'image/webp': 'a WebP',
  'image/gif': 'a GIF',
};

export const PICTURES_READ = 'a picture in JPEG, PNG, WebP or GIF';

/** What a picture is and how large, from its own first bytes: before anything decodes it, so that a small file that
 *  unfolds to a huge picture is known for one. The file's name and stated type count for nothing.
 *  Width and height are those stored, before any turn that the file asks for.
 *  Sources: ITU-T T.81 (JPEG), annex B; ISO/IEC 15948 (PNG), 11.2.2; RFC 9649 (WebP); GIF89a, sections 18 and 20. */
export function readPictureHead(bytes: Uint8Array): PictureHead | PictureFault {
  const type = pictureType(bytes);
  if (type === undefined) return { ok: false, found: foreignFile(bytes), expected: PICTURES_READ };
  const size = SIZES[type](bytes);
  if (size === undefined) {
    return {
      ok: false,
      found: `${NAMES[type]} that is damaged or cut short`,
      expected: 'a picture whose size can be read at its beginning',
    };
  }
  if (size.width === 0 || size.height === 0) {
    return {
      ok: false,
      found: `${NAMES[type]} of ${size.width} × ${size.height} pixels`,
      expected: 'a width and a height of at least 1',
    };
  }
  return { ok: true, type, ...size };
}

const SIZES: Readonly<Record<PictureType, (bytes: Uint8Array) => PictureSize | undefined>> = {
  'image/jpeg': sizeInJpeg,
  'image/png': sizeInPng,
  'image/webp': sizeInWebp,
  'image/gif': sizeInGif,
};

function pictureType(bytes: Uint8Array): PictureType | undefined {
  const text = asciiOf(bytes, 0, 16);
  if (text.startsWith('\xff\xd8\xff')) return 'image/jpeg';
  if (text.startsWith('\x89PNG\r\n\x1a\n')) return 'image/png';
  if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') return 'image/webp';
  if (text.startsWith('GIF87a') || text.startsWith('GIF89a')) return 'image/gif';
  return undefined;
}

/** The header must be the first chunk. */
function sizeInPng(bytes: Uint8Array): PictureSize | undefined {
  if (bytes.length < 24 || asciiOf(bytes, 12, 4) !== 'IHDR') return undefined;
  const view = viewOf(bytes);
  return { width: view.getUint32(16), height: view.getUint32(20) };
}
