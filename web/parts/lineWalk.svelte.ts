import { correctionOf, statementsOf } from '../../src/survey/fold/correctionOf.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { proposedVoids } from '../../src/survey/features.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';
import type { Placement, Typed } from '../../src/survey/survey.ts';
import {
  layAfter,
  lineOf,
  statedLays,
  withChanges,
  type LayAct,
  type LayBody,
} from '../views/layView.ts';
import {
  lineProgress,
  stationKey,
  stationRows,
  walkingOrder,
  type StationRow,
} from '../views/readingsView.ts';
import { DECIDES } from '../views/voidReasons.ts';
import { goesForward, readWalk, walkAfter, type Walk } from '../views/walk.ts';
import { plannedOrRead } from '../views/stationsView.ts';
import { ReadingDesk } from './readingDesk.svelte.ts';

/** The readings table along the lines: which line and which laying of the edge are being read, chosen by a person, else
 *  where work was last, and what is about to be laid. Lays, lines and stations themselves are in the hull's store. */
export class LineWalk extends ReadingDesk {
  protected readonly way = 'along';
  #line = $state.raw<string | undefined>();
  #lay = $state.raw<string | undefined>();
  /** The lay that is being read here, whatever is laid elsewhere meanwhile. */
  #stayed = $state.raw<string | undefined>();
  /** A laying that will be stated with its first reading. */
  #planned = $state.raw<LayBody | undefined>();

  readonly #lays = $derived.by(() => statedLays(this.store.standing.standing, this.survey));
  /** The order that the person walks, set on the device. */
  readonly walk: Walk = $derived.by(() => readWalk(this.device.answers['walk']));
  /** The stations that are planned; those of a survey that came from a file are the ones that it has. */
  readonly stations: readonly Typed[] = $derived.by(() => plannedOrRead(this.state));
  readonly lines: readonly HullLine[] = $derived.by(() =>
    walkingOrder(this.store.hull.lines, this.firstSide),
  );
  readonly line: HullLine | undefined = $derived.by(() => {
    const chosen = this.lines.find(({ id }) => id === this.#line);
    const last = this.#lays.at(-1);
    return chosen ?? (last && lineOf(this.lines, last.body)) ?? this.lines[0];
  });
  readonly lays: readonly Placement[] = $derived.by(() => this.laysOf(this.line));
  readonly lay: Placement | undefined = $derived.by(() => {
    const planned = this.#plannedHere;
    if (planned !== undefined) {
      return this.lays.find(
        ({ name, repeat }) => name === planned.name && repeat === planned.repeat,
      );
    }
    return (
      this.lays.find(({ id }) => id === this.#lay) ??
      this.#laysNow.find(({ id }) => id === this.#stayed) ??
      this.#laysNow.at(-1)
    );
  });
  readonly body: LayBody | undefined = $derived.by(() => {
    const { lay, line } = this;
    const stated = this.#bodyOf(lay);
    if (stated !== undefined) return stated;
    if (this.#plannedHere !== undefined) return this.#plannedHere;
    if (line === undefined) return undefined;
    const before = this.#bodyOf(this.lays.at(-1));
    if (before !== undefined)
      return layAfter(before, 'again', line.id, this.lays, this.acts.support);
    const last = this.#lays.at(-1)?.body;
    return last && layAfter(last, 'new line', line.id, [], this.acts.support);
  });

  readonly rows: readonly StationRow[] = $derived.by(() => this.rowsOf(this.line, this.lay));
  protected readonly unlaid: string = $derived.by(() => `${this.line?.id} not laid yet`);
  readonly place: string = $derived.by(() =>
    this.lay === undefined ? this.unlaid : `${this.line?.id} ${this.lay.id}`,
  );

  /** Whether the line under the table is walked from the transom forward. */
  get forward(): boolean {
    return this.#goesForward(this.line);
  }

  #goesForward(line: HullLine | undefined): boolean {
    const nth = this.lines.findIndex(({ id }) => id === line?.id);
    return goesForward(this.walk, Math.max(0, nth));
  }

  get #plannedHere(): LayBody | undefined {
    const planned = this.#planned;
    const ids: readonly string[] = this.line?.ids ?? [];
    return planned !== undefined && ids.includes(planned.line) ? planned : undefined;
  }

  /** Lays on what the hull stands on now: nothing more is read on those of before a move of the support. */
  get #laysNow(): readonly Placement[] {
    const now = this.acts.support;
    return this.lays.filter((lay) => {
      const on = this.#bodyOf(lay)?.support;
      return now === undefined || on === undefined || on === now;
    });
  }

  #bodyOf(lay: Placement | undefined): LayBody | undefined {
    return this.#lays.find(({ id }) => id === lay?.id)?.body;
  }

  /** The name of the line of a lay. */
  lineNameOf(lay: string | undefined): string | undefined {
    const stated = this.#lays.find(({ id }) => id === lay);
    return stated && lineOf(this.lines, stated.body)?.name;
  }

  progress(line: HullLine): ReturnType<typeof lineProgress> {
    const lay = this.laysOf(line).at(-1);
    if (lay?.log !== undefined) return { words: 'a log', done: true };
    return lineProgress(this.rowsOf(line, lay));
  }

  turnRound(): void {
    this.device.set({ answers: { walk: walkAfter(this.walk) } });
  }

  otherSideFirst(): void {
    const side = this.firstSide === 'port' ? 'starboard' : 'port';
    this.device.set({ answers: { 'first side': side } });
  }

  protected override stay(): void {
    this.#line = this.line?.id;
    this.#stayed = this.lay?.id;
  }

  chooseLine(id: string): void {
    this.#line = id;
    this.#planned = undefined;
    this.moved();
  }

  chooseLay(id: string): void {
    this.#lay = id;
    this.#planned = undefined;
    this.moved();
  }

  get nextLine(): HullLine | undefined {
    const at = this.lines.findIndex(({ id }) => id === this.line?.id);
    return at === -1 ? undefined : this.lines[at + 1];
  }

  get laidAcross(): number {
    const across = this.state?.survey.across;
    return across === undefined ? 0 : across.length;
  }

  /** Whether laying across the lines comes next: the last line of its side is read, and the side has enough of them. */
  get acrossAhead(): boolean {
    const { line, nextLine } = this;
    if (line === undefined || line.side === nextLine?.side) return false;
    return this.lines.filter(({ side }) => side === line.side).length >= 3;
  }

  /** Lays the edge again, or somewhere else along the line: what is read from now on is tied to the rest by its
   *  stations only. It is stated with its first reading. */
  layAnew(act: Exclude<LayAct, 'new line'>, changes: Partial<LayBody>): void {
    const { body, line } = this;
    if (body === undefined || line === undefined) return;
    const next = layAfter(body, act, line.id, this.lays, this.acts.support);
    this.#planned = withChanges(next, changes);
    this.moved();
  }

  /** Puts right how this laying was stated. */
  correctLay(changes: Partial<LayBody>): void {
    const { body, lay } = this;
    this.panel = undefined;
    if (body === undefined) return;
    const next = withChanges(body, changes);
    if (lay === undefined) this.#planned = next;
    else {
      const standing = this.store.standing.standing;
      const sources = statementsOf(standing, 'placement', lay.id);
      this.acts.add([correctionOf(standing, sources, 'placement', next)]);
    }
  }

  planStations(stations: readonly Typed[]): void {
    this.panel = undefined;
    const standing = this.store.standing.standing;
    const former = standing.filter(
      ({ kind, _id }) => kind === 'survey' && _id.includes(`:${this.survey}:`),
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
    this.acts.add([
      sources.length === 0
        ? draftOf('survey', body)
        : correctionOf(standing, sources, 'survey', body),
    ]);
  }

  /** Takes stations up on this laying beside those that are planned, and goes to the first. They are put off until they
   *  are read, so that they are listed before anyone leaves; one that is put off already stays as it is. */
  readAlso(stations: readonly Typed[]): void {
    const { lay } = this;
    if (lay === undefined || stations.length === 0) return;
    const there = this.rows.map(({ key }) => key);
    const missing = stations.filter(({ mm }) => !there.includes(stationKey(mm)));
    if (missing.length > 0) {
      const reason = DECIDES;
      this.acts.add(
        missing.map((station) => draftOf('later', { placement: lay.id, station, reason })),
      );
    }
    this.panel = undefined;
    this.cursor = stationKey(stations[0].mm);
    this.call();
  }

  protected toState(ref: string): Draft | undefined {
    const { body } = this;
    return body && draftOf('placement', body, { ref });
  }

  protected stated(id: string): void {
    this.#lay = id;
    this.#planned = undefined;
  }

  protected laysOf(line: HullLine | undefined): readonly Placement[] {
    return this.state?.survey.lines.find(({ id }) => id === line?.id)?.placements ?? [];
  }

  protected rowsOf(
    line: HullLine | undefined,
    placement: Placement | undefined,
  ): readonly StationRow[] {
    const { stations } = this;
    const at = line && { side: line.side, offset: line.offset.mm };
    return stationRows({
      stations,
      placement,
      proposed: at === undefined ? [] : proposedVoids(this.store.hull.features, at, stations),
      forward: this.#goesForward(line),
      workUnit: this.unit,
    });
  }
}
