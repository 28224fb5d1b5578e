import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';

import made from '../../../fixtures/reference/pictures/pictures.json' with { type: 'json' };
import { keptPictureFault } from '../../../src/survey/photo/keptPictureFault.ts';

const [{ base64 }] = made.pictures;
const bytes = new Uint8Array(Buffer.from(base64, 'base64'));
const kept = {
  name: 'photo.jpg',
  type: 'image/jpeg',
  bytes: bytes.length,
  // By Node's own SHA-256, not by the one under test.
  sha256: createHash('sha256').update(bytes).digest('hex'),
  width: 37,
  height: 21,
} as const;

describe('a kept picture', () => {
  it('is what its entry says, to the last byte', () => {
    expect(keptPictureFault(bytes, kept)).toBeUndefined();
  });

  it('is not shown where it is another', () => {
    expect(keptPictureFault(bytes.subarray(1), kept)?.found).toBe(`${bytes.length - 1} bytes`);
    const other = bytes.slice();
    other[other.length - 3] ^= 1;
    expect(keptPictureFault(other, kept)).toMatchObject({ expected: kept.sha256 });
    expect(keptPictureFault(bytes, { ...kept, width: 38 })).toEqual({
      found: 'image/jpeg of 37 × 21 pixels',
      expected: 'image/jpeg of 38 × 21 pixels, as its entry says',
    });
    expect(keptPictureFault(bytes, { ...kept, type: 'image/png' })?.expected).toContain('png');
  });

  it('is not decoded where a few bytes would unfold to a thousand million pixels, though its entry says so too', () => {
    // A PNG's signature and header alone (ISO/IEC 15948, 11.2.2).
    const bomb = new Uint8Array(33);
    bomb.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]);
    bomb.set(new TextEncoder().encode('IHDR'), 12);
    new DataView(bomb.buffer).setUint32(16, 20_000);
    new DataView(bomb.buffer).setUint32(20, 20_000);
    const said = {
      ...kept,
      type: 'image/png',
      bytes: bomb.length,
      sha256: createHash('sha256').update(bomb).digest('hex'),
      width: 20_000,
      height: 20_000,
    } as const;
    expect(keptPictureFault(bomb, said)).toEqual({
      found: '20000 × 20000 pixels',
      expected: 'at most 64 megapixels and 20000 pixels a side',
    });
  });
});
