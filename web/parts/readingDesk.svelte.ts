import { SvelteMap } from 'svelte/reactivity';
import type { Entry } from '../../src/book/entry.ts';
import { beyondEdge } from '../../src/survey/gapRefusal.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import type { Placement, PlacementAcross } from '../../src/survey/survey.ts';
import type { Device } from '../store/device.svelte.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { pressIs, type Taken } from '../views/burst.ts';
import { unitDoubt, UNIT_KEPT, type UnitDoubt } from '../views/unitDoubt.ts';
import { actWords } from '../views/actWords.ts';
import { gaugesInHand, type GaugeInHand } from '../views/gaugeView.ts';
import { supportNow } from '../views/layView.ts';
import { readGap } from '../views/readingText.ts';
import { asLooks, readTwice, type ReadTwice, type Twin } from '../views/readTwice.ts';
import { rowBeside, rowToStart, type Look, type StationRow } from '../views/readingsView.ts';
import { PUT_OFF } from '../views/voidReasons.ts';
import type { HalfTyped } from './halfTyped.ts';

/** What a cell that was read already is open for. */
export interface Reopened {
  readonly as: 'fix' | 'look';
  readonly key: number;
  /** What a fix strikes. */
  readonly sources: readonly string[];
  /** Which look it puts right, or the next. */
  readonly look: number;
}

/** Values that came too soon after one another to be of two stations. All are kept as looks at the first. */
export interface Burst {
  readonly lay: string | undefined;
  readonly key: number;
  /** Where the cursor was by then. */
  readonly next: number;
}

const AT_STATION: ReadonlySet<string> = new Set(['reading', 'void', 'later']);

export type Panel =
  | 'gauge'
  | 'void'
  | 'later'
  | 'lay again'
  | 'edge moved'
  | 'this lay'
  | 'stations'
  | 'lay across'
  | 'end';

/** The readings table at work, whether the edge lies along a line or across lines: where the cursor stands on the lay
 *  under it, what has been typed and not saved, and the acts that state something of a station. What was stated is in
 *  the hull's store and nowhere else. */
export abstract class ReadingDesk {
  protected readonly store: HullStore;
  protected readonly survey: string;
  protected readonly device: Device;

  constructor(store: HullStore, survey: string, device: Device) {
    this.store = store;
    this.survey = survey;
    this.device = device;
  }

  /** The placement under the table; absent where its first reading has yet to come. */
  abstract readonly lay: Placement | PlacementAcross | undefined;
  /** How the edge lies, as stated or about to be. */
  abstract readonly body: BodyOf<'placement'> | BodyOf<'placement across'> | undefined;
  abstract readonly rows: readonly StationRow[];
  /** What is under the table, as no other laying of the survey is called. */
  abstract readonly place: string;
  /** The draft that states the lay under the table; absent where there is none. */
  protected abstract toState(ref: string): Draft | undefined;
  /** Keeps a lay under the table that has just been stated, whatever else comes to bear its name. */
  protected abstract stated(id: string): void;

  readonly state: SurveyState | undefined = $derived.by(() => this.store.surveyState(this.survey));
  readonly unit: 'mm' | 'in' = $derived.by(() => this.state?.survey.workUnit ?? this.device.unit);
  readonly firstSide: 'port' | 'starboard' = $derived.by(() =>
    this.device.answers['first side'] === 'starboard' ? 'starboard' : 'port',
  );

  #gauge = $state.raw<string | undefined>();
  cursor = $state.raw<number | undefined>();
  reopened = $state.raw<Reopened | undefined>();
  panel = $state.raw<Panel | undefined>();
  /** Counts the acts after which the keyboard belongs in the table again. */
  called = $state.raw(0);
  /** What was typed and is not saved, by lay and station. */
  readonly #texts = new SvelteMap<string, string>();
  /** What is asked about a burst, until it is answered. */
  burst = $state.raw<Burst | undefined>();
  #taken: Taken | undefined;
  readonly #refusals = new SvelteMap<string, string>();

  readonly gauges: readonly GaugeInHand[] = $derived.by(() =>
    gaugesInHand(
      this.store.hull.gauges,
      this.body?.gauge,
      this.lay ?? { ...(this.body?.division && { division: this.body.division.mm }) },
      this.unit,
    ),
  );
  readonly gauge: GaugeInHand = $derived.by(
    () => this.gauges.find(({ id }) => id !== undefined && id === this.#gauge) ?? this.gauges[0],
  );
  readonly row: StationRow | undefined = $derived.by(
    () => this.rows.find(({ key }) => key === this.cursor) ?? rowToStart(this.rows),
  );
  /** What this device stated last, and so what undo takes back. */
  readonly last = $derived.by(() => actWords(this.store.steps.undo?.entries ?? [], this.unit));
  /** The last figure, void or station put off that this device stated and that stands. */
  readonly lastValue = $derived.by(() => {
    let last: Entry | undefined;
    for (const entry of this.store.standing.standing) {
      if (!AT_STATION.has(entry.kind) || !entry._id.includes(`:${this.survey}:`)) continue;
      if (!this.device.owns(entry.device)) continue;
      if (last === undefined || entry._id > last._id) last = entry;
    }
    return last && actWords([last], this.unit);
  });
  readonly redoable: boolean = $derived.by(() => this.store.steps.redo !== undefined);

  /** The name of a line by any of its ids. */
  lineName(id: string | undefined): string | undefined {
    if (id === undefined) return undefined;
    return this.store.hull.lines.find(({ ids }) => ids.includes(id))?.name;
  }

  text(row: StationRow): string {
    return this.#texts.get(this.#cell(row)) ?? '';
  }

  /** Whether the edge lies along a line or across lines. */
  protected abstract readonly way: 'along' | 'across';

  /** What is half typed here is kept under this while the page is away. */
  get keptAs(): string {
    return `${this.store.key} ${this.survey} ${this.way}`;
  }

  /** What was typed and is no entry yet, by cell. */
  get halfTyped(): HalfTyped {
    return [...this.#texts];
  }

  /** Puts back what stood half typed when the page was ended; what is typed now goes before it. */
  putBack(typed: HalfTyped): void {
    for (const [cell, text] of typed) if (!this.#texts.has(cell)) this.#texts.set(cell, text);
  }

  refusal(row: StationRow): string {
    return this.#refusals.get(this.#cell(row)) ?? '';
  }

  /** Whether the cell takes a figure now: one that was read, or is void, must be reopened first. */
  open(row: StationRow): boolean {
    return row.state === 'empty' || row.state === 'later' || this.reopened?.key === row.key;
  }

  type(row: StationRow, text: string): void {
    this.#refusals.delete(this.#cell(row));
    if (text === '') this.#texts.delete(this.#cell(row));
    else this.#texts.set(this.#cell(row), text);
  }

  /** What Escape does: the cell is as it was. */
  restore(row: StationRow): void {
    this.type(row, '');
    if (this.reopened?.key === row.key) this.reopened = undefined;
    this.panel = undefined;
  }

  goTo(row: StationRow): void {
    this.cursor = row.key;
    this.stay();
    if (this.reopened !== undefined && this.reopened.key !== row.key) this.reopened = undefined;
    if (this.panel === 'void' || this.panel === 'later' || this.panel === 'end')
      this.panel = undefined;
  }

  /** Keeps under the table what is there: what somebody else lays meanwhile must not come under this one's fingers. */
  protected stay(): void {
    // A desk that changes what is under it only when it is told to has nothing to do.
  }

  /** Saves the cell where something stands in it, and goes on; past the last station, to the line's end. `at`: when the
   *  key was pressed, ms; a value that comes too soon after the last is kept as a look beside it, and asked about. */
  saveAndGo(row: StationRow, step: 1 | -1, at?: number): void {
    if (at !== undefined && this.#tooSoon(row, at)) return;
    const figure = this.text(row) !== '';
    if (!this.save(row)) return;
    if (figure && at !== undefined) this.#taken = { at, cell: this.#cell(row) };
    const next = rowBeside(this.rows, row.key, step);
    if (next !== undefined) this.goTo(next);
    else if (step === 1) this.panel = 'end';
  }

  /** Saves the cell; false where what stands in it cannot be read. An empty one is left as it is. */
  save(row: StationRow): boolean {
    const lay = this.lay ?? this.#reach();
    const read = readGap(this.text(row), this.gauge, lay, this.unit);
    if (read.is === 'refused') {
      this.#refusals.set(this.#cell(row), read.words);
      return false;
    }
    const reopened = this.reopened?.key === row.key ? this.reopened : undefined;
    if (read.is === 'gap' && this.open(row)) {
      this.#state((placement) => {
        const body: BodyOf<'reading'> = {
          placement,
          ...whereIs(row),
          gap: read.gap,
          unit: read.unit,
          look: reopened?.look ?? 1,
          ...this.#gaugeFacts(),
        };
        return this.#draft('reading', body, reopened?.as === 'fix' ? reopened.sources : []);
      });
    }
    this.restore(row);
    return true;
  }

  /** Whether an Enter was no person's: doubled, or the end of a value that a gauge sent twice. That value is kept. */
  #tooSoon(row: StationRow, at: number): boolean {
    if (this.device.answers['burst guard'] === 'off') return false;
    const is = pressIs(this.#taken, at, this.text(row));
    if (is !== 'burst') return is === 'doubled';
    const first = this.rows.find((each) => this.#cell(each) === this.#taken?.cell);
    if (first === undefined || first.state !== 'read' || first.key === row.key) return false;
    const read = readGap(this.text(row), this.gauge, this.lay ?? this.#reach(), this.unit);
    if (read.is !== 'gap') return false;
    const look = Math.max(0, ...first.looks.map(({ reading }) => reading.look)) + 1;
    const facts = { ...whereIs(first), ...this.#gaugeFacts() };
    this.#state((placement) =>
      draftOf('reading', { placement, gap: read.gap, unit: read.unit, look, ...facts }),
    );
    this.restore(row);
    this.#taken = { at, cell: this.#cell(first) };
    this.burst = { lay: this.lay?.id, key: first.key, next: row.key };
    return true;
  }

  /** The station that a burst is asked about, while it is under the table and has more than one look. */
  get burstRow(): StationRow | undefined {
    const { burst } = this;
    if (burst === undefined || burst.lay !== this.lay?.id) return undefined;
    const row = this.rows.find(({ key }) => key === burst.key);
    return row !== undefined && row.looks.length > 1 ? row : undefined;
  }

  /** The station after it, where the second of two values may have been of that one. */
  get burstNext(): StationRow | undefined {
    const next = this.rows.find(({ key }) => key === this.burst?.next);
    return this.burstRow?.looks.length === 2 && next?.state === 'empty' ? next : undefined;
  }

  keepBurst(): void {
    this.burst = undefined;
    this.called += 1;
  }

  /** Strikes the other looks. */
  takeOne(row: StationRow, look: Look): void {
    const others = row.looks.map(({ reading }) => reading.source);
    const struck = others.filter((source) => source !== look.reading.source);
    this.store.strikeThing(struck, 'sent twice by the gauge').catch(() => undefined);
    this.keepBurst();
  }

  /** Puts the second of two values at the station that comes after. */
  takeNext(row: StationRow, next: StationRow): void {
    const second = row.looks.at(-1);
    if (second === undefined) return;
    this.#again(second, { ...whereIs(next), look: 1 }, 'of the next station');
    this.keepBurst();
    const after = rowBeside(this.rows, next.key, 1);
    if (after !== undefined) this.goTo(after);
  }

  /** Stations that two people read for the same look, on any line. */
  readonly twice: readonly ReadTwice[] = $derived.by(() =>
    readTwice(this.store.standing.standing, this.survey),
  );

  /** Strikes the others of a station that was read twice. */
  takeTwin({ twins }: ReadTwice, { id }: Twin): void {
    const others = twins.map((twin) => twin.id).filter((each) => each !== id);
    this.store.strikeThing(others, 'another reading of this look counts').catch(() => undefined);
    this.called += 1;
  }

  takeTwins(station: ReadTwice): void {
    this.add(asLooks(this.store.standing.standing, station));
    this.called += 1;
  }

  /** Whether a reading looks as if it were of the other unit. */
  doubt(row: StationRow): UnitDoubt | undefined {
    return unitDoubt(this.rows, row, this.unit);
  }

  /** Writes a reading anew in the other unit, or as one whose unit was looked at; the former is struck. */
  settleUnit(row: StationRow, doubt: UnitDoubt, as: 'other' | 'typed'): void {
    const [look] = row.looks;
    if (look === undefined) return;
    if (as === 'typed') this.#again(look, { note: UNIT_KEPT }, UNIT_KEPT);
    else {
      const gap = { mm: doubt.mm, text: doubt.other };
      const unit = doubt.other.endsWith('in') ? 'in' : 'mm';
      this.#again(look, { gap, unit, note: UNIT_KEPT }, 'typed in the other unit');
    }
    this.called += 1;
  }

  /** States a reading once more with changes, and strikes it as it was. */
  #again(look: Look, changes: Partial<BodyOf<'reading'>>, why: string): void {
    const { source } = look.reading;
    const { standing } = this.store.standing;
    const former = standing.find(({ _id }) => _id === source.split('#')[0]);
    const read = former?.kind === 'reading' ? readBody('reading', former.body) : undefined;
    const { lay } = this;
    if (lay === undefined) return;
    const { station, gap, look: nth } = look.reading;
    const { line } = look.reading as { readonly line?: string };
    const body: BodyOf<'reading'> = read?.ok
      ? read.body
      : { placement: lay.id, station, gap, look: nth, ...(line !== undefined && { line }) };
    this.add([correctionOf(standing, [source], 'reading', { ...body, ...changes }, why)]);
  }

  /** Opens a cell to strike what stands and write the right figure; the former text is there to be changed. */
  fix(row: StationRow, look = row.looks.at(-1)): void {
    const sources = look === undefined ? row.sources : [look.reading.source];
    this.reopened = { as: 'fix', key: row.key, sources, look: look?.reading.look ?? 1 };
    this.cursor = row.key;
    this.type(row, look?.text ?? '');
  }

  /** Opens a cell for one more look at the same station of the same lay. */
  lookAgain(row: StationRow): void {
    const looks = row.looks.map(({ reading }) => reading.look);
    this.reopened = { as: 'look', key: row.key, sources: [], look: Math.max(0, ...looks) + 1 };
    this.cursor = row.key;
    this.type(row, '');
  }

  /** States that a station cannot be read; readings that stood there are struck. */
  void(row: StationRow, reason: string): void {
    this.#unread('void', row, reason, row.state === 'read' ? row.sources : []);
  }

  /** Puts a station off for the usual reason; asks for another where that was said already. */
  putOff(row: StationRow): void {
    if (row.state === 'later') this.panel = 'later';
    else this.later(row, PUT_OFF);
  }

  later(row: StationRow, reason: string): void {
    this.#unread('later', row, reason, row.state === 'later' ? row.sources : []);
  }

  /** Whether a station lies past the ends of the straightedge as it is laid. */
  beyond(row: StationRow): boolean {
    return beyondEdge(row.station, this.lay ?? this.#reach()) !== undefined;
  }

  #unread(
    kind: 'void' | 'later',
    row: StationRow,
    reason: string,
    struck: readonly string[],
  ): void {
    this.#state((placement) => this.#draft(kind, { placement, ...whereIs(row), reason }, struck));
    this.restore(row);
    this.saveAndGo(row, 1);
  }

  undo(): void {
    this.called += 1;
    void this.store.undo();
  }

  redo(): void {
    this.called += 1;
    void this.store.redo();
  }

  takeUp(gauge: GaugeInHand): void {
    this.called += 1;
    this.#gauge = gauge.id;
  }

  addGauge(body: BodyOf<'gauge'>): void {
    this.add([draftOf('gauge', body)]);
    this.#gauge = this.store.hull.gauges.at(-1)?.id;
    this.panel = undefined;
  }

  /** Called when another lay, or one laid anew, comes under the table. */
  protected moved(): void {
    this.called += 1;
    this.cursor = undefined;
    this.reopened = undefined;
    this.panel = undefined;
    this.#taken = undefined;
  }

  #cell(row: StationRow): string {
    return `${this.place} ${row.line ?? ''} ${row.key}`;
  }

  /** What of a laying that is not stated yet decides which gaps can be. */
  #reach() {
    const { body } = this;
    const edge = this.store.hull.straightedges.find(({ id }) => id === body?.edge);
    const long = body?.edgeLength ?? edge?.length;
    const { aftEnd } = (body ?? {}) as Partial<BodyOf<'placement'>>;
    return {
      ...(body !== undefined && { held: body.held }),
      ...(body?.block !== undefined && { block: body.block.mm }),
      ...(long !== undefined && { edgeLength: long.mm }),
      ...(aftEnd !== undefined && { aftEnd: aftEnd.mm }),
    };
  }

  /** The gauge is kept with a reading where it is another than the lay's. */
  #gaugeFacts(): Partial<BodyOf<'reading'>> {
    const { gauge } = this;
    return gauge.id === undefined || gauge.id === this.body?.gauge ? {} : { gauge: gauge.id };
  }

  #draft<K extends 'reading' | 'void' | 'later'>(
    kind: K,
    body: BodyOf<K>,
    struck: readonly string[],
  ): Draft {
    return struck.length === 0
      ? draftOf(kind, body)
      : correctionOf(this.store.standing.standing, struck, kind, body);
  }

  /** States something of the lay, and the lay itself where this is its first. */
  #state(make: (placement: string) => Draft): void {
    const { lay } = this;
    if (lay !== undefined) {
      this.add([make(lay.id)]);
      return;
    }
    const laying = this.toState('lay');
    if (laying === undefined) return;
    this.add([laying, make('lay')]);
    const own = this.store.standing.standing.filter(
      ({ kind, device, _id }) =>
        kind === laying.kind && this.device.owns(device) && _id.includes(`:${this.survey}:`),
    );
    const last = own.reduce((most, { _id }) => (_id > most ? _id : most), '');
    if (last !== '') this.stated(last);
  }

  /** Id of what the hull stands on now. */
  protected get support(): string | undefined {
    return supportNow(this.store.standing.standing, this.survey);
  }

  /** What the database says of it is told by `saving`; what it never took is named when the hull is closed. */
  protected add(drafts: readonly Draft[]): void {
    this.store.add(drafts, { survey: this.survey }).catch(() => undefined);
  }
}

/** Where a row is: its station, and its line where the edge lies across lines. */
function whereIs({ station, line }: StationRow) {
  return { station, ...(line !== undefined && { line }) };
}
