import { beyondEdge, type LayReach } from '../../src/survey/gapRefusal.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { Placement, PlacementAcross } from '../../src/survey/survey.ts';
import type { Device } from '../store/device.svelte.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { gaugesInHand, type GaugeInHand } from '../views/gaugeView.ts';
import { layReach } from '../views/layReach.ts';
import { readGap, type GapRead } from '../views/readingText.ts';
import { rowBeside, rowToStart, type StationRow } from '../views/readingsView.ts';
import { PUT_OFF } from '../views/voidReasons.ts';
import { BurstGuard, type GuardedTable } from './burstGuard.svelte.ts';
import { ReadingDoubts, type DoubtedTable } from './readingDoubts.svelte.ts';
import { StationActs, whereIs } from './stationActs.svelte.ts';
import { TypedCells } from './typedCells.svelte.ts';

/** What a cell that was read already is open for. */
export interface Reopened {
  readonly as: 'fix' | 'look';
  readonly key: number;
  /** What a fix strikes. */
  readonly sources: readonly string[];
  /** Which look it puts right, or the next. */
  readonly look: number;
}

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
 *  under it, what the cell there is open for, and what a key does with it. What is typed and not saved stands in
 *  `cells`, what is stated goes through `acts`, and what is asked of it by `burst` and `doubts`. */
export abstract class ReadingDesk implements GuardedTable, DoubtedTable {
  protected readonly store: HullStore;
  protected readonly survey: string;
  protected readonly device: Device;
  readonly acts: StationActs;
  readonly burst: BurstGuard;
  readonly doubts: ReadingDoubts;
  readonly cells = new TypedCells();

  constructor(store: HullStore, survey: string, device: Device) {
    this.store = store;
    this.survey = survey;
    this.device = device;
    this.acts = new StationActs(store, survey, device);
    this.burst = new BurstGuard(this, this.acts);
    this.doubts = new ReadingDoubts(this, this.acts);
  }

  /** The placement under the table; absent where its first reading has yet to come. */
  abstract readonly lay: Placement | PlacementAcross | undefined;
  /** How the edge lies, as stated or about to be. */
  abstract readonly body: BodyOf<'placement'> | BodyOf<'placement across'> | undefined;
  abstract readonly rows: readonly StationRow[];
  /** What is under the table, as no other laying of the survey is called. */
  abstract readonly place: string;
  /** What was under it until somebody else laid the edge there. */
  protected abstract readonly unlaid: string;
  /** The draft that states the lay under the table; absent where there is none. */
  protected abstract toState(ref: string): Draft | undefined;
  /** Keeps a lay under the table that has just been stated, whatever else comes to bear its name. */
  protected abstract stated(id: string): void;

  readonly state: SurveyState | undefined = $derived.by(() => this.store.surveyState(this.survey));
  readonly firstSide: 'port' | 'starboard' = $derived.by(() =>
    this.device.answers['first side'] === 'starboard' ? 'starboard' : 'port',
  );

  #gauge = $state.raw<string | undefined>();
  cursor = $state.raw<number | undefined>();
  reopened = $state.raw<Reopened | undefined>();
  /** The cell that took a figure when the cursor came to it. It stays open until the cursor leaves, whatever somebody else
   *  says of its station meanwhile. */
  #came = $state.raw<string | undefined>();
  panel = $state.raw<Panel | undefined>();
  /** Counts the acts after which the keyboard belongs in the table again. */
  called = $state.raw(0);

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

  get unit(): 'mm' | 'in' {
    return this.acts.unit;
  }

  /** The name of a line by any of its ids. */
  lineName(id: string | undefined): string | undefined {
    if (id === undefined) return undefined;
    return this.store.hull.lines.find(({ ids }) => ids.includes(id))?.name;
  }

  text(row: StationRow): string {
    const typed = this.cells.text(this.cell(row));
    if (typed !== '' || this.#came !== spot(row)) return typed;
    return this.cells.text(this.#unlaidCell(row));
  }

  /** Whether the edge lies along a line or across lines. */
  protected abstract readonly way: 'along' | 'across';

  /** What is half typed here is kept under this while the page is away. */
  get keptAs(): string {
    return `${this.store.key} ${this.survey} ${this.way}`;
  }

  refusal(row: StationRow): string {
    return this.cells.refusal(this.cell(row));
  }

  /** Whether the cell takes a figure now: one that was read, or is void, must be reopened first. */
  open(row: StationRow): boolean {
    return (
      row.state === 'empty' ||
      row.state === 'later' ||
      this.reopened?.key === row.key ||
      this.#came === spot(row)
    );
  }

  /** Whether somebody else said something of a station while the cursor stood in its empty cell. */
  saidMeanwhile(row: StationRow): boolean {
    const said = row.state === 'read' || row.state === 'void';
    return said && this.#came === spot(row) && this.reopened?.key !== row.key;
  }

  type(row: StationRow, text: string): void {
    this.cells.type(this.#unlaidCell(row), '');
    this.cells.type(this.cell(row), text);
    const reopened = this.reopened?.key === row.key;
    if (text !== '' && !reopened && this.open(row)) this.#came = spot(row);
  }

  /** What Escape does: the cell is as it was. */
  restore(row: StationRow): void {
    this.type(row, '');
    if (this.reopened?.key === row.key) this.reopened = undefined;
    if (this.#came === spot(row)) this.#came = undefined;
    this.panel = undefined;
  }

  goTo(row: StationRow): void {
    this.cursor = row.key;
    this.stay();
    if (this.reopened !== undefined && this.reopened.key !== row.key) this.#closeAgain();
    if (this.#came !== spot(row)) {
      this.#came = this.open(row) || this.text(row) !== '' ? spot(row) : undefined;
    }
    if (this.panel === 'void' || this.panel === 'later' || this.panel === 'end')
      this.panel = undefined;
  }

  /** Leaves a cell that was open again as it was, unless what stands in it was refused. */
  #closeAgain(): void {
    const row = this.rows.find(({ key }) => key === this.reopened?.key);
    if (row !== undefined && this.refusal(row) !== '') return;
    if (row !== undefined) this.type(row, '');
    this.reopened = undefined;
  }

  /** Keeps under the table what is there: what somebody else lays meanwhile must not come under this one's fingers. */
  protected stay(): void {
    // A desk that changes what is under it only when it is told to has nothing to do.
  }

  /** Saves the cell where something stands in it, and goes on; past the last station, to the line's end. `at`: when the
   *  key was pressed, ms; a value that comes too soon after the last is kept as a look beside it, and asked about. */
  saveAndGo(row: StationRow, step: 1 | -1, at?: number): void {
    if (at !== undefined && this.#noPersons(row, at)) return;
    const figure = this.text(row) !== '';
    if (!this.save(row)) return;
    if (figure && at !== undefined) this.burst.took(row, at);
    const next = rowBeside(this.rows, row.key, step);
    if (next !== undefined) this.goTo(next);
    else if (step === 1) this.panel = 'end';
  }

  /** Saves the cell; false where what stands in it cannot be read. An empty one is left as it is. */
  save(row: StationRow): boolean {
    const read = this.#read(row);
    if (read.is === 'refused') {
      this.cells.refuse(this.cell(row), read.words);
      return false;
    }
    const reopened = this.reopened?.key === row.key ? this.reopened : undefined;
    if (read.is === 'gap' && this.open(row)) {
      const struck = reopened?.as === 'fix' ? reopened.sources : [];
      this.#stateGap(row, read, reopened?.look ?? 1, struck);
    }
    this.restore(row);
    return true;
  }

  /** Whether an Enter was no person's: doubled, or the end of a value that a gauge sent twice. That value is kept. */
  #noPersons(row: StationRow, at: number): boolean {
    if (this.device.answers['burst guard'] === 'off') return false;
    const press = this.burst.press(row, this.text(row), at);
    if (press.is !== 'burst') return press.is === 'doubled';
    const read = this.#read(row);
    if (read.is !== 'gap') return false;
    this.#stateGap(press.first, read, nextLook(press.first), []);
    this.restore(row);
    this.burst.ask(press.first, row, at);
    return true;
  }

  #read(row: StationRow): GapRead {
    return readGap(this.text(row), this.gauge, this.#reach, this.unit);
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
    this.reopened = { as: 'look', key: row.key, sources: [], look: nextLook(row) };
    this.cursor = row.key;
    this.type(row, '');
  }

  /** States that a station cannot be read; readings that were seen to stand there are struck. */
  void(row: StationRow, reason: string): void {
    const struck = row.state === 'read' && !this.saidMeanwhile(row) ? row.sources : [];
    this.#unread('void', row, reason, struck);
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
    return beyondEdge(row.station, this.#reach) !== undefined;
  }

  #unread(
    kind: 'void' | 'later',
    row: StationRow,
    reason: string,
    struck: readonly string[],
  ): void {
    this.#state((placement) =>
      this.acts.draft(kind, { placement, ...whereIs(row), reason }, struck),
    );
    this.restore(row);
    this.saveAndGo(row, 1);
  }

  undo(): void {
    this.call();
    this.acts.undo();
  }

  redo(): void {
    this.call();
    this.acts.redo();
  }

  takeUp(gauge: GaugeInHand): void {
    this.call();
    this.#gauge = gauge.id;
  }

  addGauge(body: BodyOf<'gauge'>): void {
    this.acts.add([draftOf('gauge', body)]);
    this.#gauge = this.store.hull.gauges.at(-1)?.id;
    this.panel = undefined;
  }

  call(): void {
    this.called += 1;
  }

  cell(row: StationRow): string {
    return `${this.place} ${spot(row)}`;
  }

  #unlaidCell(row: StationRow): string {
    return `${this.unlaid} ${spot(row)}`;
  }

  /** Called when another lay, or one laid anew, comes under the table. */
  protected moved(): void {
    this.call();
    this.cursor = undefined;
    this.#came = undefined;
    this.reopened = undefined;
    this.panel = undefined;
    this.burst.forget();
  }

  /** What decides which gaps can be. */
  get #reach(): LayReach {
    return this.lay ?? layReach(this.body, this.store.hull.straightedges);
  }

  /** The gauge is kept with a reading where it is another than the lay's. */
  #stateGap(
    row: StationRow,
    { gap, unit }: Extract<GapRead, { readonly is: 'gap' }>,
    look: number,
    struck: readonly string[],
  ): void {
    const { id } = this.gauge;
    const gauge = id === undefined || id === this.body?.gauge ? {} : { gauge: id };
    this.#state((placement) =>
      this.acts.draft('reading', { placement, ...whereIs(row), gap, unit, look, ...gauge }, struck),
    );
  }

  /** States something of the lay, and the lay itself where this is its first. */
  #state(make: (placement: string) => Draft): void {
    if (this.lay !== undefined) {
      this.acts.add([make(this.lay.id)]);
      return;
    }
    const laying = this.toState('lay');
    if (laying === undefined) return;
    const id = this.acts.addFirst(laying, make);
    if (id !== undefined) this.stated(id);
  }
}

/** A row, whichever laying is under the table. */
function spot({ line = '', key }: StationRow): string {
  return `${line} ${key}`;
}

function nextLook({ looks }: StationRow): number {
  return Math.max(0, ...looks.map(({ reading }) => reading.look)) + 1;
}
