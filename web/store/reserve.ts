const CACHE = 'aftrun-reserve';
/** Under the site's own address, though nothing is ever fetched from there. */
const ADDRESS = '/aftrun-reserve';
export const RESERVE_BYTES = 4 * 1024 * 1024;
const PIECE = 65_536;

/** Room kept back in Cache Storage for a full disk: given up, it lets the database open and write once more. Does
 *  nothing where there is no Cache Storage, as on an unencrypted network address. */
export class Reserve {
  readonly #caches: CacheStorage | undefined;
  readonly #random: (count: number) => Uint8Array;

  constructor(caches: CacheStorage | undefined, random: (count: number) => Uint8Array) {
    this.#caches = caches;
    this.#random = random;
  }

  /** Keeps the room back where it is not yet; whether it is kept now. */
  async fill(): Promise<boolean> {
    if (this.#caches === undefined) return false;
    try {
      const cache = await this.#caches.open(CACHE);
      // Its keys, because a response that nobody reads to its end would hold the room after it is given up.
      if ((await cache.keys()).length > 0) return true;
      // Random bytes, because others may be pressed together.
      const pieces = Array.from({ length: RESERVE_BYTES / PIECE }, () =>
        Uint8Array.from(this.#random(PIECE)),
      );
      await cache.put(ADDRESS, new Response(new Blob(pieces)));
      return true;
    } catch {
      return false;
    }
  }

  /** Gives the room up; whether there was any. */
  async free(): Promise<boolean> {
    try {
      if (this.#caches === undefined || !(await this.#caches.has(CACHE))) return false;
      // The piece first: a cache that something on the page still refers to lives on after it is deleted.
      const cache = await this.#caches.open(CACHE);
      const freed = await cache.delete(ADDRESS);
      await this.#caches.delete(CACHE);
      return freed;
    } catch {
      return false;
    }
  }
}
