/** CRC-32 of bytes, as an unsigned 32-bit number: polynomial 0x04C11DB7, bits taken lowest first.
 *  Source: ISO 3309 / ITU-T V.42, and RFC 1952 section 8 (reflected polynomial 0xEDB88320). The check value of
 *  "123456789" is 0xCBF43926 (test/book/crc32.test.ts). */
export function crc32(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = TABLE[(rest ^ byte) & 0xff] ^ (rest >>> 8);
  return (rest ^ 0xffffffff) >>> 0;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
  return rest;
});
