import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 (FIPS 180-4) of bytes that come in pieces. */
export class Sha256 {
  readonly #hash = sha256.create();

  update(bytes: Uint8Array): void {
    this.#hash.update(bytes);
  }

  /** In hexadecimal. Ends it. */
  hex(): string {
    return bytesToHex(this.#hash.digest());
  }
}
