import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { entryId } from '../../src/book/id.ts';
import { hullDatabase } from '../../web/store/database.ts';
import { foldText } from '../foldText.ts';
import { seededBelow } from '../seeded.ts';
import { madeYard } from './made.ts';
import { ProtocolServer } from './protocolServer.ts';
import { Tablet } from './tablet.ts';

export const TRIAL_HULL = 'tr1a0000000a';
const SURVEY = 'tr1a0000000b';

/** Makes invented entries; ids are all different, and tablets' clocks differ. */
export class Hand {
  #serial = 0;
  constructor(
    readonly tablet: number,
    readonly survey = SURVEY,
    readonly hull = TRIAL_HULL,
  ) {}

  entry(kind: string, body: unknown, more: Partial<Entry> = {}): Entry {
    const random = new Uint8Array(10);
    new DataView(random.buffer).setUint32(0, this.tablet);
    new DataView(random.buffer).setUint32(6, (this.#serial += 1));
    const time = 1_777_887_000_000 + this.#serial * 997 + this.tablet * 12_345;
    const survey = kind === 'hull' || kind === 'line' || kind === 'strike' ? '0' : this.survey;
    return {
      _id: entryId({ hull: this.hull, survey, time, random }),
      v: 1,
      kind,
      at: new Date(time).toISOString(),
      by: 'Yard hand',
      device: `Tablet ${this.tablet}`,
      app: '0.1.0',
      ...more,
      body,
    };
  }

  reading(placement: string, station: number, gap: number, more: Partial<Entry> = {}): Entry {
    const body = {
      placement,
      station: { mm: station, text: `${station} mm` },
      gap: { mm: gap, text: `${gap}` },
      unit: 'mm',
      look: 1,
    };
    return this.entry('reading', body, more);
  }

  /** A hull, a line and a survey with one placement: what readings need. */
  beginning(): { readonly entries: readonly Entry[]; readonly placement: string } {
    const hull = this.entry('hull', { name: 'Brent Goose (invented)' });
    const line = this.entry('line', {
      side: 'port',
      offset: { mm: 450, text: '450 mm' },
      name: 'P450',
    });
    const survey = this.entry('survey', { workUnit: 'mm', measured: 'hand', date: '2026-05-04' });
    const placement = this.entry('placement', {
      line: line._id,
      name: '1',
      repeat: 1,
      held: 'resting',
    });
    return { entries: [hull, line, survey, placement], placement: placement._id };
  }
}

export interface TrialResult {
  /** Each tablet's fold, and the fold of all that was ever stated. */
  readonly folds: readonly string[];
  readonly expected: string;
  readonly stated: number;
  /** From the last reconnection until all were level, ms. */
  readonly levelAfter: number;
}

/** Three tablets work on one survey, so many operations each, with the network and the server going and coming; then all
 *  come back. */
export async function trial(operations: number, seed: number): Promise<TrialResult> {
  const below = seededBelow(seed);
  const server = new ProtocolServer();
  await server.start();
  await madeYard(server);
  const tablets = [new Tablet(), new Tablet(), new Tablet()];
  const all: Entry[] = [];
  try {
    const { entries, placement } = new Hand(0).beginning();
    all.push(...entries);
    for (const tablet of tablets) {
      await tablet.enter(entries);
      tablet.share(server.address);
    }
    const hands = tablets.map((_, i) => new Hand(i + 1));
    for (let n = 0; n < operations; n += 1) {
      for (const [i, tablet] of tablets.entries()) {
        if (below(40) === 0) tablet.online = !tablet.online;
        const entry = operation(hands[i], placement, all, below);
        all.push(entry);
        await tablet.enter([entry]);
      }
      if (n === Math.floor(operations / 3)) await server.kill();
      if (n === Math.floor(operations / 2)) await server.start();
    }
    for (const tablet of tablets) tablet.online = true;
    const from = performance.now();
    await level(tablets, all.length);
    const levelAfter = performance.now() - from;
    const folds: string[] = [];
    for (const tablet of tablets) folds.push(foldText(await tablet.book(TRIAL_HULL), SURVEY));
    return { folds, expected: foldText(bookOf(all), SURVEY), stated: all.length, levelAfter };
  } finally {
    for (const tablet of tablets) tablet.sharing?.stop();
    await server.end();
  }
}

/** Three of four operations read a station, two hands often the same; the others strike what any tablet may have said,
 *  arrived or not. */
function operation(
  hand: Hand,
  placement: string,
  all: readonly Entry[],
  below: (limit: number) => number,
): Entry {
  if (below(4) > 0) return hand.reading(placement, 75 * below(21), below(40) / 10);
  const target = all[4 + below(Math.max(1, all.length - 4))];
  if (target === undefined) return hand.reading(placement, 0, 0);
  const strikes = [{ entry: target._id }];
  if (below(2) === 0 || target.kind === 'strike')
    return hand.entry('strike', { act: 'strike' }, { strikes });
  return hand.reading(placement, 75 * below(21), below(40) / 10, { strikes });
}

export async function level(tablets: readonly Tablet[], count: number): Promise<void> {
  const within = performance.now() + 90_000;
  for (;;) {
    // Counted rather than read, which would take the time that is measured.
    const infos = await Promise.all(
      tablets.map((tablet) => tablet.open(hullDatabase(TRIAL_HULL)).info()),
    );
    if (infos.every(({ doc_count }) => doc_count === count)) return;
    if (performance.now() > within) {
      const stand = tablets.map(({ sharing }) => JSON.stringify(sharing?.status).slice(0, 300));
      throw new Error(
        `not level: ${infos.map(({ doc_count }) => doc_count).join()} of ${count}; ${stand.join('; ')}`,
      );
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

export interface PaceResult {
  /** 2,000 entries from one tablet to another, ms. */
  readonly twoThousand: number;
  /** From the put of one entry to its arrival on the other tablet, ms, sorted. */
  readonly single: readonly number[];
}

/** How fast entries go from tablet to tablet through a server on this machine. */
export async function pace(count = 2_000, singles = 15): Promise<PaceResult> {
  const server = new ProtocolServer();
  await server.start();
  await madeYard(server);
  const [a, b] = [new Tablet(), new Tablet()];
  try {
    a.share(server.address);
    b.share(server.address);
    const hand = new Hand(1);
    const { entries, placement } = hand.beginning();
    await a.enter(entries);
    await level([a, b], entries.length);
    const many = Array.from({ length: count }, (_, n) => hand.reading(placement, 10 * n, 1));
    const from = performance.now();
    await a.enter(many);
    await level([a, b], entries.length + count);
    const twoThousand = performance.now() - from;
    const single: number[] = [];
    for (let n = 0; n < singles; n += 1) {
      const put = performance.now();
      const entry = hand.reading(placement, 5, n);
      await a.enter([entry]);
      const local = b.open(hullDatabase(TRIAL_HULL));
      for (;;) {
        const there = await local.get(entry._id).catch(() => undefined);
        if (there !== undefined) break;
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      single.push(performance.now() - put);
    }
    return { twoThousand, single: single.sort((x, y) => x - y) };
  } finally {
    a.sharing?.stop();
    b.sharing?.stop();
    await server.end();
  }
}
