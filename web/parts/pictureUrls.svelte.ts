/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import type { Photo } from '../../src/survey/fold/photosOf.ts';
import { PhotoClient } from '../store/photoClient.ts';
import { reasonOf } from '../store/reasonOf.ts';

export type PictureState =
  | { readonly is: 'ready'; readonly url: string }
  | { readonly is: 'failed'; readonly reason: string };

/** Addresses of kept pictures for as long as a page shows them. Each is held against its entry first; one that is not
 *  what its entry says is not shown. */
export class PictureUrls {
  /** By the id of the photo; absent while it is being read. */
  states = $state.raw<ReadonlyMap<string, PictureState>>(new Map());
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  readonly #client = new PhotoClient();
  readonly #asked = new Set<string>();
  #work = Promise.resolve();
  #closed = false;

  constructor(file: (entry: string, name: string) => Promise<Blob>) {
    this.#file = file;
  }

  /** Reads those that were not asked for before, one after the other; settles when all of them are there. */
  want(photos: readonly Pick<Photo, 'id' | 'kept'>[]): Promise<void> {
    for (const photo of photos) {
      if (this.#asked.has(photo.id)) continue;
      this.#asked.add(photo.id);
      this.#work = this.#work.then(() => this.#read(photo));
    }
    return this.#work;
  }

  /** Those that could not be read are tried again: a picture may arrive after its entry. */
  again(photos: readonly Pick<Photo, 'id' | 'kept'>[]): Promise<void> {
    for (const [id, { is }] of this.states) if (is === 'failed') this.#asked.delete(id);
    return this.want(photos);
  }

  /** Gives every address back. */
  close(): void {
    this.#closed = true;
    this.#client.stop();
    for (const state of this.states.values()) {
      if (state.is === 'ready') URL.revokeObjectURL(state.url);
    }
    this.states = new Map();
  }

  async #read({ id, kept }: Pick<Photo, 'id' | 'kept'>): Promise<void> {
    if (this.#closed) return;
    const state = await this.#state(id, kept);
    if (this.#closed) {
      if (state.is === 'ready') URL.revokeObjectURL(state.url);
      return;
    }
    this.states = new Map([...this.states, [id, state]]);
  }

  async #state(id: string, kept: Photo['kept']): Promise<PictureState> {
    let data: Blob;
    try {
      data = await this.#file(id, kept.name);
    } catch {
      return { is: 'failed', reason: 'the picture is not on this device' };
    }
    try {
      const fault = await this.#client.check(data, kept);
      if (fault !== undefined) {
        const reason = `the picture is not what was taken in: found ${fault.found}, expected ${fault.expected}`;
        return { is: 'failed', reason };
      }
    } catch (error) {
      const reason = reasonOf(error);
      return { is: 'failed', reason: `the picture could not be checked: ${reason}` };
    }
    return { is: 'ready', url: URL.createObjectURL(data.slice(0, data.size, kept.type)) };
  }
}
