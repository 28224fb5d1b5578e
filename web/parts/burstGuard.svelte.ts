import { pressIs, type Taken } from '../views/burst.ts';
import { rowBeside, type Look, type StationRow } from '../views/readingsView.ts';
import { whereIs, type StationActs } from './stationActs.svelte.ts';

/** The table that is guarded. */
export interface GuardedTable {
  readonly lay: { readonly id: string } | undefined;
  readonly rows: readonly StationRow[];
  /** What a row's cell is called, as none of another laying is. */
  cell(row: StationRow): string;
  goTo(row: StationRow): void;
  /** Puts the keyboard back where the work is. */
  call(): void;
}

/** Values that came too soon after one another to be of two stations. All are kept as looks at the first. */
interface Burst {
  readonly lay: string | undefined;
  readonly key: number;
  /** Where the cursor was by then. */
  readonly next: number;
}

/** What an Enter was: a person's; doubled by the gauge; or the end of a value that came too soon after that of `first`. */
export type Press =
  { readonly is: 'own' | 'doubled' } | { readonly is: 'burst'; readonly first: StationRow };

/** Keeps a digital gauge that types by itself from filling the next station with what it sent twice: a value that comes
 *  too soon is a look beside the last, and asked about until it is answered. */
export class BurstGuard {
  readonly #table: GuardedTable;
  readonly #acts: StationActs;
  #burst = $state.raw<Burst | undefined>();
  #taken: Taken | undefined;

  constructor(table: GuardedTable, acts: StationActs) {
    this.#table = table;
    this.#acts = acts;
  }

  /** What the Enter at the end of a row's cell is. `at`: when it was pressed, ms. */
  press(row: StationRow, text: string, at: number): Press {
    const is = pressIs(this.#taken, at, text);
    if (is !== 'burst') return { is };
    const first = this.#table.rows.find((each) => this.#table.cell(each) === this.#taken?.cell);
    if (first === undefined || first.state !== 'read' || first.key === row.key)
      return { is: 'own' };
    return { is, first };
  }

  /** A value was taken of a row. */
  took(row: StationRow, at: number): void {
    this.#taken = { at, cell: this.#table.cell(row) };
  }

  /** Asks about a value that stands as a look at `first` and was typed at `row`. */
  ask(first: StationRow, row: StationRow, at: number): void {
    this.took(first, at);
    this.#burst = { lay: this.#table.lay?.id, key: first.key, next: row.key };
  }

  /** Another laying is under the table: what was taken of the former says nothing of it. */
  forget(): void {
    this.#taken = undefined;
  }

  /** The station that is asked about, while it is under the table and has more than one look. */
  get row(): StationRow | undefined {
    const burst = this.#burst;
    if (burst === undefined || burst.lay !== this.#table.lay?.id) return undefined;
    const row = this.#table.rows.find(({ key }) => key === burst.key);
    return row !== undefined && row.looks.length > 1 ? row : undefined;
  }

  /** The station after it, where the second of two values may have been of that one. */
  get next(): StationRow | undefined {
    const next = this.#table.rows.find(({ key }) => key === this.#burst?.next);
    return this.row?.looks.length === 2 && next?.state === 'empty' ? next : undefined;
  }

  keepAll(): void {
    this.#burst = undefined;
    this.#table.call();
  }

  /** Strikes the other looks. */
  takeOne(row: StationRow, look: Look): void {
    const others = row.looks.map(({ reading }) => reading.source);
    const struck = others.filter((source) => source !== look.reading.source);
    this.#acts.strike(struck, 'sent twice by the gauge');
    this.keepAll();
  }

  /** Puts the second of two values at the station that comes after. */
  takeNext(row: StationRow, next: StationRow): void {
    const { lay } = this.#table;
    const second = row.looks.at(-1);
    if (second === undefined || lay === undefined) return;
    this.#acts.again(second, lay.id, { ...whereIs(next), look: 1 }, 'of the next station');
    this.keepAll();
    const after = rowBeside(this.#table.rows, next.key, 1);
    if (after !== undefined) this.#table.goTo(after);
  }
}
