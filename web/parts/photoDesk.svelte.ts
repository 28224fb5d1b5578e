/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { draftOf } from '../../src/survey/kinds/draft.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { Cancelled } from '../store/cancelled.ts';
import { PhotoClient } from '../store/photoClient.ts';
import { reasonOf } from '../store/reasonOf.ts';

export interface PhotoWork {
  /** Files that are done with, kept or not. */
  readonly done: number;
  readonly all: number;
  /** Of the file at hand. */
  readonly name: string;
}

export interface NotTaken {
  readonly name: string;
  readonly found: string;
  readonly expected: string;
}

interface Waiting {
  readonly file: File;
  readonly ofHull: boolean;
}

const REF = 'photo';

/** Takes pictures into a hull's record, one after the other: scaled down elsewhere, written, and only then the next,
 *  so that the page never waits and memory holds one at a time. It goes on while another page of the app is open. */
export class PhotoDesk {
  work = $state.raw<PhotoWork | undefined>();
  /** Files of the last choice that were not kept, and why. */
  notTaken = $state.raw<readonly NotTaken[]>([]);
  told = $state.raw('');

  readonly #hull: HullStore;
  readonly #survey: string;
  readonly #client = new PhotoClient();
  #queue: Waiting[] = [];
  #stopped = false;

  constructor(hull: HullStore, survey: string) {
    this.#hull = hull;
    this.#survey = survey;
  }

  /** Adds files to what is to be done. `ofHull`: they belong to the hull rather than to the survey. */
  take(files: readonly File[], ofHull: boolean): void {
    this.#queue.push(...files.map((file) => ({ file, ofHull })));
    if (this.work === undefined) void this.#begin();
    else this.work = { ...this.work, all: this.work.all + files.length };
  }

  /** Ends the work. What was kept by now stays. */
  stop(): void {
    this.#stopped = true;
    this.#queue = [];
    this.#client.stop();
  }

  async #begin(): Promise<void> {
    this.#stopped = false;
    this.notTaken = [];
    this.told = '';
    let done = 0;
    let kept = 0;
    addEventListener('beforeunload', ask);
    for (;;) {
      const next = this.#queue.shift();
      if (next === undefined) break;
      const name = next.file.name;
      this.work = { done, all: done + 1 + this.#queue.length, name };
      try {
        if (await this.#keep(next)) kept += 1;
      } catch (error) {
        if (error instanceof Cancelled) break;
        const found = reasonOf(error);
        this.#refuse({ name, found, expected: 'a picture that can be kept' });
      }
      done += 1;
    }
    removeEventListener('beforeunload', ask);
    this.#client.stop();
    this.work = undefined;
    const photos = kept === 0 ? 'No photo was' : kept === 1 ? '1 photo was' : `${kept} photos were`;
    this.told = this.#stopped ? `Stopped. ${photos} kept, the rest was not.` : `${photos} kept.`;
  }

  async #keep({ file, ofHull }: Waiting): Promise<boolean> {
    const scaled = await this.#client.scale(file);
    if (!('data' in scaled)) {
      this.#refuse({ name: file.name, ...scaled });
      return false;
    }
    const { data, kept, original } = scaled;
    const draft = draftOf(
      'photo',
      { kept, original },
      { ref: REF, scope: ofHull ? 'hull' : 'survey' },
    );
    await this.#hull.add([draft], {
      survey: this.#survey,
      files: new Map([[REF, { name: kept.name, type: kept.type, data }]]),
    });
    return true;
  }

  #refuse({ name, found, expected }: NotTaken): void {
    this.notTaken = [...this.notTaken, { name, found, expected }];
  }
}

/** Leaving the app now would lose the pictures that still wait. */
function ask(event: BeforeUnloadEvent): void {
  event.preventDefault();
}

const desks = new WeakMap<HullStore, Map<string, PhotoDesk>>();

/** The one desk of a survey in this tab. */
export function photoDeskOf(hull: HullStore, survey: string): PhotoDesk {
  const ofHull = desks.get(hull) ?? new Map<string, PhotoDesk>();
  desks.set(hull, ofHull);
  const desk = ofHull.get(survey) ?? new PhotoDesk(hull, survey);
  ofHull.set(survey, desk);
  return desk;
}
