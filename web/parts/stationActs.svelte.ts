import type { Entry } from '../../src/book/entry.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { Device } from '../store/device.svelte.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { actWords, type ActWords } from '../views/actWords.ts';
import { lastOwn } from '../views/lastOwn.ts';
import { supportNow } from '../views/layView.ts';
import { readAnew } from '../views/readAnew.ts';
import type { Look, StationRow } from '../views/readingsView.ts';

type AtStation = 'reading' | 'void' | 'later';

const AT_STATION: readonly AtStation[] = ['reading', 'void', 'later'];

/** What is stated at the stations of a survey, put right, struck and taken back. It is all in the hull's store and
 *  nowhere else: what the database says of it is told by `saving`, what it never took is named when the hull is closed. */
export class StationActs {
  readonly #store: HullStore;
  readonly survey: string;
  readonly #device: Device;

  constructor(store: HullStore, survey: string, device: Device) {
    this.#store = store;
    this.survey = survey;
    this.#device = device;
  }

  readonly unit: 'mm' | 'in' = $derived.by(
    () => this.#store.surveyState(this.survey)?.survey.workUnit ?? this.#device.unit,
  );
  /** What this device stated last, and so what undo takes back. */
  readonly last: ActWords | undefined = $derived.by(() =>
    actWords(this.#store.steps.undo?.entries ?? [], this.unit),
  );
  /** The last figure, void or station put off that this device stated and that stands. */
  readonly lastValue: ActWords | undefined = $derived.by(() => {
    const last = this.#lastOf(AT_STATION);
    return last && actWords([last], this.unit);
  });
  readonly redoable: boolean = $derived.by(() => this.#store.steps.redo !== undefined);

  undo(): void {
    void this.#store.undo();
  }

  redo(): void {
    void this.#store.redo();
  }

  get standing(): readonly Entry[] {
    return this.#store.standing.standing;
  }

  /** Id of what the hull stands on now. */
  get support(): string | undefined {
    return supportNow(this.standing, this.survey);
  }

  add(drafts: readonly Draft[]): void {
    this.#store.add(drafts, { survey: this.survey }).catch(() => undefined);
  }

  strike(sources: readonly string[], why: string): void {
    this.#store.strikeThing(sources, why).catch(() => undefined);
  }

  /** States something of a laying that is not stated yet, and the laying before it; the laying's id. `make`: of the
   *  laying's ref. */
  addFirst(laying: Draft, make: (placement: string) => Draft): string | undefined {
    this.add([laying, make(laying.ref)]);
    return this.#lastOf([laying.kind])?._id;
  }

  /** States a reading once more with changes, and strikes it as it was. */
  again(look: Look, lay: string, changes: Partial<BodyOf<'reading'>>, why: string): void {
    this.add([readAnew(this.standing, look, lay, changes, why)]);
  }

  /** What states something of a station; where it puts something right, what was said before is struck. */
  draft<K extends AtStation>(kind: K, body: BodyOf<K>, struck: readonly string[]): Draft {
    return struck.length === 0
      ? draftOf(kind, body)
      : correctionOf(this.standing, struck, kind, body);
  }

  #lastOf(kinds: readonly string[]): Entry | undefined {
    return lastOwn(this.standing, this.survey, kinds, (device) => this.#device.owns(device));
  }
}

/** Where a row is: its station, and its line where the edge lies across lines. */
export function whereIs({ station, line }: StationRow) {
  return { station, ...(line !== undefined && { line }) };
}
