import { crc32 as zlibCrc32 } from 'node:zlib';

import * as fc from 'fast-check';
import { expect, it } from 'vitest';

import { crc32 } from '../../src/book/crc32.ts';

it('gives the published check value of the nine digits', () => {
  // "Check" of CRC-32/ISO-HDLC in the Catalogue of parametrised CRC algorithms (reveng.sourceforge.io).
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
});

it('agrees with zlib on any bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      expect(crc32(bytes)).toBe(zlibCrc32(bytes));
    }),
    { seed: 21 },
  );
});
