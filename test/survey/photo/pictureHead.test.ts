import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import made from '../../../fixtures/reference/pictures/pictures.json' with { type: 'json' };
import { PICTURES_READ, readPictureHead } from '../../../src/survey/photo/pictureHead.ts';

const bytesOf = (base64: string) => new Uint8Array(Buffer.from(base64, 'base64'));
const ascii = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
/** A JPEG that states a size and brings nothing after. */
const jpeg = (...segments: readonly (readonly number[])[]) =>
  Uint8Array.from([0xff, 0xd8, ...segments.flat()]);
const frame = (width: number, height: number, marker = 0xc0) => [
  ...[0xff, marker, 0, 11, 8, height >> 8, height & 255, width >> 8, width & 255],
  ...[1, 1, 0x11, 0],
];
const found = (bytes: Uint8Array) => {
  const head = readPictureHead(bytes);
  return head.ok ? `${head.type} ${head.width} × ${head.height}` : head.found;
};

describe('the head of a picture', () => {
  // Written by Pillow: fixtures/reference/pictures/generate_pictures.py.
  it.each(made.pictures.map((picture) => [picture.name, picture] as const))(
    'says kind and size of a %s as the library wrote it',
    (_, { base64, type, width, height }) => {
      expect(readPictureHead(bytesOf(base64))).toEqual({ ok: true, type, width, height });
    },
  );

  it('says them before anything is decoded, also of a picture that would not fit into memory', () => {
    // ITU-T T.81 B.2.2: two bytes a side. ISO/IEC 15948 11.2.2: four.
    expect(found(jpeg(frame(65_500, 65_500)))).toBe('image/jpeg 65500 × 65500');
    const png = bytesOf(made.pictures.find(({ type }) => type === 'image/png')?.base64 ?? '');
    new DataView(png.buffer).setUint32(16, 100_000);
    expect(found(png)).toBe('image/png 100000 × 70');
  });

  it('passes over fill bytes and tables on the way to the frame of a JPEG', () => {
    const table = [0xff, 0xc4, 0, 4, 0xff, 0xc0];
    expect(found(jpeg([0xff, 0xff, 0xff], table, [0xff, 0xd0], frame(7, 9, 0xc2)))).toBe(
      'image/jpeg 7 × 9',
    );
  });

  it('takes the first picture of a GIF where it reaches beyond the screen', () => {
    const gif = [...ascii('GIF89a'), 10, 0, 10, 0, 0, 0, 0];
    const extension = [0x21, 0xf9, 4, 0, 0, 0, 0, 0];
    const image = [0x2c, 2, 0, 0, 0, 0xff, 0xff, 5, 0, 0];
    expect(found(Uint8Array.from([...gif, ...extension, ...image]))).toBe('image/gif 65537 × 10');
  });

  const damaged = (name: string) => `${name} that is damaged or cut short`;
  it.each<[string, Uint8Array, string]>([
    ['a JPEG cut before its frame', jpeg([0xff, 0xe1, 0, 20, 1, 2]), damaged('a JPEG')],
    ['a JPEG whose scan comes first', jpeg([0xff, 0xda, 0, 2], frame(5, 5)), damaged('a JPEG')],
    ['a JPEG with a segment of no length', jpeg([0xff, 0xe1, 0, 0]), damaged('a JPEG')],
    ['a JPEG of no height', jpeg(frame(5, 0)), 'a JPEG of 5 × 0 pixels'],
    [
      'a PNG without its header',
      ascii('\x89PNG\r\n\x1a\n\0\0\0\x0dIDAT........'),
      damaged('a PNG'),
    ],
    ['a WebP of an unknown form', ascii(`RIFF....WEBPVP9 ${'.'.repeat(20)}`), damaged('a WebP')],
    ['a GIF without a picture', ascii('GIF89a\x05\0\x05\0\0\0\0;'), damaged('a GIF')],
    ['text named .jpg', ascii('Dear yard,\nthe hull is fair.'), 'text'],
    ['an empty file', new Uint8Array(), 'an empty file'],
    [
      'HEIC, which browsers may not decode',
      ascii('\0\0\0\x18ftypheic\0\0\0\0'),
      'a picture in HEIC',
    ],
    ['AVIF', ascii('\0\0\0\x18ftypavif\0\0\0\0'), 'a picture in AVIF'],
    ['a film', ascii('\0\0\0\x18ftypisom\0\0\0\0'), 'a film'],
    [
      'SVG, which is a programme',
      ascii('<?xml version="1.0"?>\n<svg xmlns=""/>'),
      'a drawing in SVG',
    ],
    ['PDF', ascii('%PDF-1.7'), 'a PDF'],
    ['BMP', ascii('BM\x01\x02\0\0'), 'a picture in BMP'],
    ['TIFF', ascii('II*\0\x08\0\0\0'), 'a picture in TIFF or a camera’s raw picture'],
    ['anything else', Uint8Array.from([0, 1, 2, 3]), 'no picture of a kind that is known here'],
  ])('refuses %s, and says what was found and expected', (_, bytes, what) => {
    const head = readPictureHead(bytes);
    expect(head).toMatchObject({ ok: false, found: what });
    expect(head.ok ? '' : head.expected).toMatch(
      /^(a picture in JPEG, PNG, WebP or GIF|a picture whose size|a width and a height)/,
    );
    expect(PICTURES_READ).toBe('a picture in JPEG, PNG, WebP or GIF');
  });

  it('never throws, and never runs on, whatever the bytes', () => {
    const starts = made.pictures.map(({ base64 }) => bytesOf(base64).subarray(0, 600));
    fc.assert(
      fc.property(
        fc.constantFrom(...starts),
        fc.array(fc.tuple(fc.nat(599), fc.nat(255)), { maxLength: 20 }),
        fc.nat(600),
        (start, changes, length) => {
          const bytes = start.slice(0, length);
          for (const [at, value] of changes) if (at > 2 && at < bytes.length) bytes[at] = value;
          const head = readPictureHead(bytes);
          if (head.ok) {
            expect(head.width).toBeGreaterThan(0);
            expect(head.height).toBeGreaterThan(0);
          } else expect(head.found).not.toBe('');
        },
      ),
      { seed: 20260603, numRuns: 2000 },
    );
  });
});
