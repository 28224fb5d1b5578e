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
});
