import type { Fault, Warning } from '../csv/fault.ts';

const SHOWN = 50;

/** The first faults of a file, by row, and how many there are in all: a log may have a million of one kind. */
export class FaultList<T extends Fault | Warning> {
  count = 0;
  #first: T[] = [];
  #last = -Infinity;

  add(item: T): void {
    this.count += 1;
    this.#keep(item);
  }

  addAll(items: Iterable<T>): void {
    for (const item of items) this.add(item);
  }

  /** Whether one on that row would be among the first: where not, it need only be counted. */
  wants(row: number): boolean {
    return this.#first.length < SHOWN || row < this.#last;
  }

  /** Counts some that need not be shown. */
  more(count: number): void {
    this.count += count;
  }

  first(): readonly T[] {
    return this.#first;
  }

  #keep(item: T): void {
    if (!this.wants(item.row)) return;
    const at = this.#first.findIndex(({ row }) => row > item.row);
    if (at < 0) this.#first.push(item);
    else this.#first.splice(at, 0, item);
    this.#first = this.#first.slice(0, SHOWN);
    this.#last = this.#first[this.#first.length - 1].row;
  }
}
