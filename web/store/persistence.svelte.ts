/** Whether the browser promises to keep this site's records: `asked` until it has answered; `untold` where it cannot
 *  be asked. */
export type PersistenceAnswer = 'asked' | 'granted' | 'refused' | 'untold';

/** Asks the browser not to clear this site's records by itself, which some do after days without a visit. */
export class Persistence {
  answer = $state.raw<PersistenceAnswer>('asked');

  readonly #storage: Pick<StorageManager, 'persist' | 'persisted'> | undefined;

  constructor(storage: Pick<StorageManager, 'persist' | 'persisted'> | undefined) {
    this.#storage = storage;
  }

  /** Asks; safe to ask again, for instance when the first hull is made, since browsers judge by use. */
  async ask(): Promise<PersistenceAnswer> {
    if (this.#storage === undefined) this.answer = 'untold';
    else {
      try {
        const granted = (await this.#storage.persisted()) || (await this.#storage.persist());
        this.answer = granted ? 'granted' : 'refused';
      } catch {
        this.answer = 'untold';
      }
    }
    return this.answer;
  }
}
