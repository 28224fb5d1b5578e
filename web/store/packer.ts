import { Sha256 } from '../../src/book/sha256.ts';

/** Gzips and hashes what is pushed to it; or only hashes it. */
export class Packer {
  readonly #hash = new Sha256();
  readonly #writer: WritableStreamDefaultWriter<Uint8Array<ArrayBuffer>> | undefined;
  readonly #packed: Promise<Blob> | undefined;

  constructor(as: 'pack' | 'check only' = 'pack') {
    if (as === 'check only') return;
    const { readable, writable } = new CompressionStream('gzip');
    this.#writer = writable.getWriter();
    this.#packed = new Response(readable).blob();
  }

  async push(bytes: Uint8Array): Promise<void> {
    this.#hash.update(bytes);
    await this.#writer?.write(bytes.slice());
  }

  hex(): string {
    return this.#hash.hex();
  }

  async packed(): Promise<{ data: Blob; sha256: string }> {
    await this.#writer?.close();
    if (this.#packed === undefined) throw new Error('nothing was packed');
    const blob = await this.#packed;
    return { data: blob.slice(0, blob.size, 'application/gzip'), sha256: this.hex() };
  }
}
