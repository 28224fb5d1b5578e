/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import type { Entry, Strike } from '../../src/book/entry.ts';
import { ENVELOPE_VERSION } from '../../src/book/envelope.ts';
import { newKey, NO_SURVEY, parseId } from '../../src/book/id.ts';
import { stampAll, strikesToReplace, type Draft } from '../../src/survey/kinds/draft.ts';
import { stepsOf, STRIKE, type Steps, type StrikeAct } from './acts.ts';
import { hullDatabase, type EntryFile } from './database.ts';
import { entryIn, isDesign, writeEntries } from './entryStore.ts';
import { failureOf, type StoreFailure } from './failure.ts';
import { follow, type Arrival, type Feed } from './feed.ts';
import type { Handle, Handles } from './handles.ts';
import { HeldEntries } from './heldEntries.ts';
import { HullFolds, type NotCounted } from './hullFolds.svelte.ts';
import { Pen } from './pen.ts';
import { Saving } from './saving.svelte.ts';
import type { Surroundings } from './surroundings.ts';
import { within } from './within.ts';

export interface HullStoreOptions {
  readonly hull: string;
  readonly around: Surroundings;
  readonly handles: Handles;
  /** Called before entries are written; its refusal stops nothing. */
  readonly beforeWrite?: () => Promise<void>;
  /** Called when entries were written. */
  readonly written?: () => void;
}

export type HullStoreState = 'opening' | 'ready' | 'failed' | 'removed' | 'closed';

const OPEN_WITHIN = 15_000;
/** How long an entry waits for what is to be done before, ms; it is written in any case. */
const MARK_WITHIN = 2_000;

/** One hull's entries on this device: what is stated, shown when it is stated and kept in memory until the database has
 *  it (`saving` tells how that stands), and what comes from elsewhere. What they say is `HullFolds`. */
export class HullStore extends HullFolds {
  readonly key: string;
  state = $state.raw<HullStoreState>('opening');
  /** Why the state is `failed`. */
  failure = $state.raw<StoreFailure | undefined>();
  readonly saving: Saving;

  /** What undo and redo would take back now. */
  readonly steps: Steps = $derived.by(() => stepsOf(this.standing, this.#around.owns));

  readonly #around: Surroundings;
  readonly #handle: Handle;
  readonly #beforeWrite: () => Promise<void>;
  readonly #written: () => void;
  readonly #pen: Pen;
  readonly #held = new HeldEntries();
  /** Files of entries that the database has not taken yet. */
  readonly #files = new Map<string, EntryFile>();
  readonly #unread = new Map<string, NotCounted>();
  #feed: Feed | undefined;
  readonly #stopSeeing: () => void;
  readonly #stopLeaving: () => void;
  /** Settles when what was stored has been read, or could not be. */
  readonly ready: Promise<void>;

  constructor({ hull, around, handles, beforeWrite, written }: HullStoreOptions) {
    super();
    this.key = hull;
    this.#around = around;
    this.#pen = new Pen(hull, around);
    this.#beforeWrite = beforeWrite ?? (() => Promise.resolve());
    this.#written = written ?? (() => undefined);
    this.#handle = handles.take(hullDatabase(hull));
    this.saving = new Saving({
      write: (entries) => this.#write(entries),
      reopen: (failure) => this.#reopen(failure),
      now: around.now,
      after: around.after,
    });
    // Phones take the database from a page in the background; whoever comes back waits for no pause to end.
    this.#stopSeeing = around.onVisible(() => {
      if (this.saving.failure !== undefined) void this.retry();
    });
    this.#stopLeaving = around.onLeaving(() => this.#keepUnsaved());
    this.#takeUp(around.unsaved.of(hull));
    this.ready = this.#follow().catch((error: unknown) => this.saving.interrupted(error));
  }

  /** A key for a new survey. */
  newSurveyKey(): string {
    return newKey(this.#around.random(8));
  }

  /** States drafts as one act. They are shown at once; resolves to the entries when the database has said that it has
   *  them. Rejects with RangeError on a draft of a survey without the survey's key, and as `stampAll` does. */
  async add(
    drafts: readonly Draft[],
    options: {
      readonly survey?: string;
      /** Files that are kept with entries, by the ref of their draft. */
      readonly files?: ReadonlyMap<string, EntryFile>;
    } = {},
  ): Promise<readonly Entry[]> {
    return this.#state((ids, signature) => {
      const surveys = drafts.map(({ scope, kind }) => {
        if (scope === 'hull') return NO_SURVEY;
        if (options.survey === undefined) {
          throw new RangeError(`${kind}: got no survey, expected the key of one`);
        }
        return options.survey;
      });
      const entries = stampAll(drafts, { ...signature, ids: ids(surveys) });
      drafts.forEach(({ ref }, i) => {
        const file = options.files?.get(ref);
        if (file !== undefined) this.#files.set(entries[i]._id, file);
      });
      return entries;
    });
  }

  /** Files of entries that wait to be saved. */
  waitingFiles(): ReadonlyMap<string, EntryFile> {
    return new Map(this.#files);
  }

  /** A file that is kept with an entry. Rejects where it is not here. */
  async file(entry: string, name: string): Promise<Blob> {
    const waiting = this.#files.get(entry);
    if (waiting?.name === name) return waiting.data;
    return (await this.#handle.database()).getAttachment(entry, name);
  }

  /** States a draft in the place of an entry, or of a row of an import (`<id>#<row>`), that was a slip of the pen.
   *  Rejects with RangeError on an entry that is not known. */
  async fix(former: string, draft: Draft, why?: string): Promise<Entry> {
    const target = this.#target(former);
    const strikes =
      target.strike.row === undefined ? strikesToReplace(target.entry) : [target.strike];
    const replacing: Draft = { ...draft, strikes, ...(why !== undefined && { why }) };
    const [entry] = await this.add([replacing], { survey: target.survey });
    return entry;
  }

  /** Strikes an entry, or a row of an import. Rejects with RangeError on an entry that is not known. */
  async strike(id: string, why?: string, row?: number): Promise<Entry> {
    const { strike } = this.#target(row === undefined ? id : `${id}#${row}`);
    return this.#strike([strike], 'strike', why);
  }

  /** Strikes the entries that state a thing, and what they struck when they put it right, or else that would stand
   *  again; as one act. Rejects with RangeError on an entry that is not known, and on none. */
  async strikeThing(ids: readonly string[], why?: string): Promise<Entry> {
    if (ids.length === 0) throw new RangeError('ids: got none, expected at least one');
    const strikes = ids.flatMap((id) => strikesToReplace(this.#target(id).entry));
    return this.#strike(strikes, 'strike', why);
  }

  /** Takes back the last thing stated on this device that stands; absent where there is none. */
  async undo(): Promise<Entry | undefined> {
    return this.#takeBack(this.steps.undo?.entries, 'undo');
  }

  /** Takes back the last undo, unless something was stated since; absent where there is none. */
  async redo(): Promise<Entry | undefined> {
    return this.#takeBack(this.steps.redo?.entries, 'redo');
  }

  /** Tries again to open the database and to save what waits; whether that went well. */
  retry(): Promise<boolean> {
    return this.saving.retry();
  }

  /** Reads what other tabs have written. */
  async readAgain(): Promise<void> {
    await this.#feed?.again();
  }

  /** Lets the database go. What is not saved by then is given up. */
  close(as: 'closed' | 'removed' = 'closed'): void {
    if (this.state === 'closed' || this.state === 'removed') return;
    this.state = as;
    this.#stopSeeing();
    this.#stopLeaving();
    this.#feed?.stop();
    this.saving.stop(as === 'removed' ? 'this hull was removed' : 'this hull is closed');
    this.#handle.release();
  }

  async #takeBack(
    entries: readonly Entry[] | undefined,
    act: 'undo' | 'redo',
  ): Promise<Entry | undefined> {
    if (entries === undefined) return undefined;
    return this.#strike(
      entries.map(({ _id }) => ({ entry: _id })),
      act,
    );
  }

  /** Strikes belong to the hull, so that an undone survey leaves nothing under its key. */
  async #strike(strikes: readonly Strike[], act: StrikeAct, why?: string): Promise<Entry> {
    const [entry] = await this.#state((ids, signature) => [
      {
        _id: ids([NO_SURVEY])[0],
        v: ENVELOPE_VERSION,
        kind: STRIKE,
        ...signature,
        strikes,
        ...(why !== undefined && { why }),
        body: { act },
      },
    ]);
    return entry;
  }

  async #state(make: Parameters<Pen['sign']>[0]): Promise<readonly Entry[]> {
    const entries = this.#pen.sign(make);
    this.#take(entries);
    if (entries.length > 0) await this.saving.save(entries);
    return entries;
  }

  #target(id: string): { entry: Entry; strike: Strike; survey: string } {
    const [own, row] = id.split('#');
    const entry = this.#held.of(own).at(0);
    const parsed = parseId(own);
    if (entry === undefined || !parsed.ok) {
      throw new RangeError(`entry: got ${JSON.stringify(id)}, expected one of this hull`);
    }
    const strike = row === undefined ? { entry: own } : { entry: own, row: rowOf(row) };
    return { entry, strike, survey: parsed.survey };
  }

  /** A file cannot be kept at once, and its entry is not kept without it. */
  #keepUnsaved(): void {
    this.#around.unsaved.keep(this.saving.unsaved().filter(({ _id }) => !this.#files.has(_id)));
  }

  /** Saves what a page before this one had no time to save. */
  #takeUp(entries: readonly Entry[]): void {
    if (entries.length === 0) return;
    this.#take(entries);
    this.saving.save(entries).catch(() => undefined);
  }

  #take(entries: readonly Entry[]): void {
    this.#pen.note(entries);
    if (this.#held.add(entries)) this.entries = this.#held.all();
  }

  #arrived(arrivals: readonly Arrival[]): void {
    const entries: Entry[] = [];
    for (const { id, leaves } of arrivals) {
      if (isDesign(id)) continue;
      for (const leaf of leaves) {
        const read = entryIn(leaf);
        if (read.ok) entries.push(read.entry);
        else this.#unread.set(id, { id, reason: `${read.reason}, found ${read.found}` });
      }
    }
    this.#take(entries);
    if (this.#unread.size !== this.unreadable.length) this.unreadable = [...this.#unread.values()];
  }

  async #write(entries: readonly Entry[]): Promise<void> {
    await within(MARK_WITHIN, this.#beforeWrite(), this.#around.after).catch(() => undefined);
    await writeEntries(await this.#handle.database(), entries, this.#around.random, this.#files);
    for (const { _id } of entries) this.#files.delete(_id);
    this.#around.unsaved.drop(entries);
    this.#written();
  }

  async #reopen(failure: StoreFailure): Promise<void> {
    this.#feed?.stop();
    if (failure.kind === 'full') await this.#around.freeReserve();
    this.#handle.renew();
    await this.#follow();
  }

  async #follow(): Promise<void> {
    const feed = follow(this.#handle.database(), {
      arrived: (arrivals) => this.#arrived(arrivals),
      failed: (error) => this.saving.interrupted(error),
      after: this.#around.after,
      onVisible: this.#around.onVisible,
    });
    this.#feed = feed;
    try {
      await within(OPEN_WITHIN, feed.ready, this.#around.after);
    } catch (error) {
      feed.stop();
      if (this.state === 'opening' || this.state === 'failed') {
        this.state = 'failed';
        this.failure = failureOf(error);
      }
      throw error;
    }
    if (this.state === 'opening' || this.state === 'failed') {
      this.state = 'ready';
      this.failure = undefined;
    }
  }
}

function rowOf(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new RangeError(`row: got ${text}, expected a whole number`);
  return Number(text);
}
