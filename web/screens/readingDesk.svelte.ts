import { SvelteMap } from 'svelte/reactivity';
import type { Entry } from '../../src/book/entry.ts';
import { correctionOf, statementsOf } from '../../src/survey/fold/correctionOf.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { proposedVoids } from '../../src/survey/features.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { Placement, Typed } from '../../src/survey/survey.ts';
import type { Device } from '../store/device.svelte.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { actWords } from '../views/actWords.ts';
import { gaugesInHand, type GaugeInHand } from '../views/gaugeView.ts';
import {
  layAfter,
  lineOf,
  statedLays,
  supportNow,
  type LayAct,
  type LayBody,
} from '../views/layView.ts';
import { readGap } from '../views/readingText.ts';
import {
  lineProgress,
  rowBeside,
  rowToStart,
  stationRows,
  walkingOrder,
  type StationRow,
} from '../views/readingsView.ts';

/** What a cell that was read already is open for. */
export interface Reopened {
  readonly as: 'fix' | 'look';
  readonly key: number;
  /** What a fix strikes. */
  readonly sources: readonly string[];
  /** Which look it puts right, or the next. */
  readonly look: number;
}

const AT_STATION: ReadonlySet<string> = new Set(['reading', 'void', 'later']);

export type Panel = 'gauge' | 'void' | 'lay again' | 'edge moved' | 'this lay' | 'stations' | 'end';

/** The readings table at work: which line and lay lie under it, where the cursor stands, what has been typed and not
 *  saved, and the acts that state something. What was stated is in the hull's store and nowhere else. */
export class ReadingDesk {
  readonly #store: HullStore;
  readonly #survey: string;
  readonly #device: Device;

  #line = $state.raw<string | undefined>();
  #lay = $state.raw<string | undefined>();
  /** A laying that will be stated with its first reading. */
  #planned = $state.raw<LayBody | undefined>();
  #gauge = $state.raw<string | undefined>();
  cursor = $state.raw<number | undefined>();
  reopened = $state.raw<Reopened | undefined>();
  panel = $state.raw<Panel | undefined>();
  /** What was typed and is not saved, by lay and station. */
  readonly #texts = new SvelteMap<string, string>();
  readonly #refusals = new SvelteMap<string, string>();

  constructor(store: HullStore, survey: string, device: Device) {
    this.#store = store;
    this.#survey = survey;
    this.#device = device;
  }

  readonly state: SurveyState | undefined = $derived.by(() =>
    this.#store.surveyState(this.#survey),
  );
  readonly unit: 'mm' | 'in' = $derived.by(() => this.state?.survey.workUnit ?? this.#device.unit);
  readonly #lays = $derived.by(() => statedLays(this.#store.standing.standing, this.#survey));
  readonly firstSide: 'port' | 'starboard' = $derived.by(() =>
    this.#device.answers['first side'] === 'starboard' ? 'starboard' : 'port',
  );
  readonly forward: boolean = $derived.by(() => this.#device.answers['walk'] !== 'aft');
  readonly lines: readonly HullLine[] = $derived.by(() =>
    walkingOrder(this.#store.hull.lines, this.firstSide),
  );
  readonly line: HullLine | undefined = $derived.by(() => {
    const chosen = this.lines.find(({ id }) => id === this.#line);
    const last = this.#lays.at(-1);
    return chosen ?? (last && lineOf(this.lines, last.body)) ?? this.lines[0];
  });
  readonly lays: readonly Placement[] = $derived.by(() => this.#laysOf(this.line));
  /** The placement under the table; absent where its first reading has yet to come. */
  readonly lay: Placement | undefined = $derived.by(() => {
    const planned = this.#plannedHere;
    if (planned !== undefined) {
      return this.lays.find(
        ({ name, repeat }) => name === planned.name && repeat === planned.repeat,
      );
    }
    return this.lays.find(({ id }) => id === this.#lay) ?? this.lays.at(-1);
  });
  /** How the edge lies, as stated or about to be. */
  readonly body: LayBody | undefined = $derived.by(() => {
    const { lay, line } = this;
    const stated = this.#lays.find(({ id }) => id === lay?.id)?.body;
    if (stated !== undefined) return stated;
    const last = this.#lays.at(-1)?.body;
    if (this.#plannedHere !== undefined) return this.#plannedHere;
    if (last === undefined || line === undefined) return undefined;
    return layAfter(last, 'new line', line.id, [], this.#support);
  });
  readonly gauges: readonly GaugeInHand[] = $derived.by(() =>
    gaugesInHand(
      this.#store.hull.gauges,
      this.body?.gauge,
      this.lay ?? { ...(this.body?.division && { division: this.body.division.mm }) },
      this.unit,
    ),
  );
  readonly gauge: GaugeInHand = $derived.by(
    () => this.gauges.find(({ id }) => id !== undefined && id === this.#gauge) ?? this.gauges[0],
  );
  readonly rows: readonly StationRow[] = $derived.by(() => this.#rowsOf(this.line, this.lay));
  readonly row: StationRow | undefined = $derived.by(
    () => this.rows.find(({ key }) => key === this.cursor) ?? rowToStart(this.rows),
  );
  /** What this device stated last, and so what undo takes back. */
  readonly last = $derived.by(() => actWords(this.#store.steps.undo?.entries ?? [], this.unit));
  /** The last figure, void or station put off that this device stated and that stands. */
  readonly lastValue = $derived.by(() => {
    let last: Entry | undefined;
    for (const entry of this.#store.standing.standing) {
      if (!AT_STATION.has(entry.kind) || !entry._id.includes(`:${this.#survey}:`)) continue;
      if (!this.#device.owns(entry.device)) continue;
      if (last === undefined || entry._id > last._id) last = entry;
    }
    return last && actWords([last], this.unit);
  });
  readonly redoable: boolean = $derived.by(() => this.#store.steps.redo !== undefined);

  get #plannedHere(): LayBody | undefined {
    const planned = this.#planned;
    const ids: readonly string[] = this.line?.ids ?? [];
    return planned !== undefined && ids.includes(planned.line) ? planned : undefined;
  }

  get #support(): string | undefined {
    return supportNow(this.#store.standing.standing, this.#survey);
  }

  text(row: StationRow): string {
    return this.#texts.get(this.#cell(row)) ?? '';
  }

  refusal(row: StationRow): string {
    return this.#refusals.get(this.#cell(row)) ?? '';
  }

  /** Whether the cell takes a figure now: one that was read, or is void, must be reopened first. */
  open(row: StationRow): boolean {
    return row.state === 'empty' || row.state === 'later' || this.reopened?.key === row.key;
  }

  /** The name of the line of a lay. */
  lineNameOf(lay: string | undefined): string | undefined {
    const stated = this.#lays.find(({ id }) => id === lay);
    return stated && lineOf(this.lines, stated.body)?.name;
  }

  progress(line: HullLine): ReturnType<typeof lineProgress> {
    return lineProgress(this.#rowsOf(line, this.#laysOf(line).at(-1)));
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
    if (this.reopened !== undefined && this.reopened.key !== row.key) this.reopened = undefined;
    if (this.panel === 'void' || this.panel === 'end') this.panel = undefined;
  }

  /** Saves the cell where something stands in it, and goes on; past the last station, to the line's end. */
  saveAndGo(row: StationRow, step: 1 | -1): void {
    if (!this.save(row)) return;
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
          station: row.station,
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

  later(row: StationRow, reason: string): void {
    this.#unread('later', row, reason, []);
  }

  #unread(
    kind: 'void' | 'later',
    row: StationRow,
    reason: string,
    struck: readonly string[],
  ): void {
    this.#state((placement) =>
      this.#draft(kind, { placement, station: row.station, reason }, struck),
    );
    this.restore(row);
    this.saveAndGo(row, 1);
  }

  undo(): void {
    void this.#store.undo();
  }

  redo(): void {
    void this.#store.redo();
  }

  takeUp(gauge: GaugeInHand): void {
    this.#gauge = gauge.id;
  }

  addGauge(body: BodyOf<'gauge'>): void {
    this.#add([draftOf('gauge', body)]);
    this.#gauge = this.#store.hull.gauges.at(-1)?.id;
    this.panel = undefined;
  }

  turnRound(): void {
    this.#device.set({ answers: { walk: this.forward ? 'aft' : 'forward' } });
  }

  otherSideFirst(): void {
    const side = this.firstSide === 'port' ? 'starboard' : 'port';
    this.#device.set({ answers: { 'first side': side } });
  }

  chooseLine(id: string): void {
    this.#line = id;
    this.#planned = undefined;
    this.#fresh();
  }

  chooseLay(id: string): void {
    this.#lay = id;
    this.#planned = undefined;
    this.#fresh();
  }

  get nextLine(): HullLine | undefined {
    const at = this.lines.findIndex(({ id }) => id === this.line?.id);
    return at === -1 ? undefined : this.lines[at + 1];
  }

  /** Lays the edge again, or somewhere else along the line: what is read from now on is tied to the rest by its
   *  stations only. It is stated with its first reading. */
  layAnew(act: Exclude<LayAct, 'new line'>, changes: Partial<LayBody>): void {
    const { body, line } = this;
    if (body === undefined || line === undefined) return;
    const next = layAfter(body, act, line.id, this.lays, this.#support);
    this.#planned = withChanges(next, changes);
    this.#fresh();
  }

  /** Puts right how this laying was stated. */
  correctLay(changes: Partial<LayBody>): void {
    const { body, lay } = this;
    if (body === undefined) return;
    const next = withChanges(body, changes);
    if (lay === undefined) this.#planned = next;
    else {
      const standing = this.#store.standing.standing;
      const sources = statementsOf(standing, 'placement', lay.id);
      this.#add([correctionOf(standing, sources, 'placement', next)]);
    }
    this.panel = undefined;
  }

  planStations(stations: readonly Typed[]): void {
    const standing = this.#store.standing.standing;
    const former = standing.filter(
      ({ kind, _id }) => kind === 'survey' && _id.includes(`:${this.#survey}:`),
    );
    const last = former.at(-1);
    const plan = { stations: [...stations] };
    const body = {
      workUnit: this.unit,
      measured: 'hand' as const,
      ...(last?.body as object),
      ...plan,
    };
    const sources = former.map(({ _id }) => _id);
    this.#add([
      sources.length === 0
        ? draftOf('survey', body)
        : correctionOf(standing, sources, 'survey', body),
    ]);
    this.panel = undefined;
  }

  #fresh(): void {
    this.cursor = undefined;
    this.reopened = undefined;
    this.panel = undefined;
  }

  #cell(row: StationRow): string {
    const body = this.body;
    return `${this.line?.id} ${this.lay?.id ?? `${body?.name} ${body?.repeat}`} ${row.key}`;
  }

  #laysOf(line: HullLine | undefined): readonly Placement[] {
    return this.state?.survey.lines.find(({ id }) => id === line?.id)?.placements ?? [];
  }

  #rowsOf(line: HullLine | undefined, placement: Placement | undefined): readonly StationRow[] {
    const stations = this.state?.plan.stations ?? [];
    const at = line && { side: line.side, offset: line.offset.mm };
    return stationRows({
      stations,
      placement,
      proposed: at === undefined ? [] : proposedVoids(this.#store.hull.features, at, stations),
      forward: this.forward,
      workUnit: this.unit,
    });
  }

  /** What of a laying that is not stated yet decides which gaps can be. */
  #reach() {
    const { body } = this;
    const edge = this.#store.hull.straightedges.find(({ id }) => id === body?.edge);
    const long = body?.edgeLength ?? edge?.length;
    return {
      ...(body !== undefined && { held: body.held }),
      ...(body?.block !== undefined && { block: body.block.mm }),
      ...(long !== undefined && { edgeLength: long.mm }),
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
      : correctionOf(this.#store.standing.standing, struck, kind, body);
  }

  /** States something of the lay, and the lay itself where this is its first. */
  #state(make: (placement: string) => Draft): void {
    const { lay, body } = this;
    if (lay !== undefined) {
      this.#add([make(lay.id)]);
      return;
    }
    if (body === undefined) return;
    this.#add([draftOf('placement', body, { ref: 'lay' }), make('lay')]);
    this.#planned = body;
  }

  /** What the database says of it is told by `saving`; what it never took is named when the hull is closed. */
  #add(drafts: readonly Draft[]): void {
    this.#store.add(drafts, { survey: this.#survey }).catch(() => undefined);
  }
}

/** Undefined takes a field away. */
function withChanges(body: LayBody, changes: Partial<LayBody>): LayBody {
  return Object.fromEntries(
    Object.entries({ ...body, ...changes }).filter(([, value]) => value !== undefined),
  ) as LayBody;
}
