import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { expect, it } from 'vitest';

const hex = (text: string): string => bytesToHex(sha256(new TextEncoder().encode(text)));

// The examples of FIPS 180-2, appendix B, kept by NIST as the example values of FIPS 180-4.
it.each([
  ['one block', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'two blocks',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  [
    'a million letters',
    'a'.repeat(1_000_000),
    'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
  ],
])('the library that the entry file uses gives the published SHA-256 of %s', (_, text, digest) => {
  expect(hex(text)).toBe(digest);
});
