import { asLooks, readTwice, type ReadTwice, type Twin } from '../views/readTwice.ts';
import type { StationRow } from '../views/readingsView.ts';
import { settledAs, unitDoubt, type UnitDoubt } from '../views/unitDoubt.ts';
import type { StationActs } from './stationActs.svelte.ts';

/** The table whose readings are doubted. */
export interface DoubtedTable {
  readonly lay: { readonly id: string } | undefined;
  readonly rows: readonly StationRow[];
  /** Puts the keyboard back where the work is. */
  call(): void;
}

/** What is asked about readings that stand: whether two are of one look, and of which unit one is. Until it is answered
 *  they count as they are. */
export class ReadingDoubts {
  readonly #table: DoubtedTable;
  readonly #acts: StationActs;

  constructor(table: DoubtedTable, acts: StationActs) {
    this.#table = table;
    this.#acts = acts;
  }

  /** Stations that two people read for the same look, on any line of the survey. */
  readonly twice: readonly ReadTwice[] = $derived.by(() =>
    readTwice(this.#acts.standing, this.#acts.survey),
  );

  /** Strikes the others of a station that was read twice. */
  takeTwin({ twins }: ReadTwice, { id }: Twin): void {
    const others = twins.map((twin) => twin.id).filter((each) => each !== id);
    this.#acts.strike(others, 'another reading of this look counts');
    this.#table.call();
  }

  takeTwins(station: ReadTwice): void {
    this.#acts.add(asLooks(this.#acts.standing, station));
    this.#table.call();
  }

  /** Whether a reading looks as if it were of the other unit. */
  unit(row: StationRow): UnitDoubt | undefined {
    return unitDoubt(this.#table.rows, row, this.#acts.unit);
  }

  /** Writes a reading anew in the other unit, or as one whose unit was looked at; the former is struck. */
  settleUnit(row: StationRow, doubt: UnitDoubt, as: 'other' | 'typed'): void {
    const [look] = row.looks;
    const { lay } = this.#table;
    if (look === undefined || lay === undefined) return;
    const { changes, why } = settledAs(doubt, as);
    this.#acts.again(look, lay.id, changes, why);
    this.#table.call();
  }
}
