import { NO_NAME } from './hullName.ts';
import { parseId } from '../../src/book/id.ts';
import { isDatabaseName, readServer } from '../../src/book/serverSetup/address.ts';
import { countText } from './countText.ts';
import { dayAndTime, type ZoneOffset } from './dayAndTime.ts';

/** How sharing stands, as the store tells it. */
export interface SharingFacts {
  readonly at: 'elsewhere' | 'starting' | 'exchanging' | 'idle' | 'failed' | 'stopped';
  /** ISO 8601. */
  readonly lastExchange?: string;
  readonly failure?: { readonly words: string };
  readonly waiting: number;
  readonly denied: readonly { readonly id: string; readonly why: string }[];
  readonly odd: readonly { readonly id: string; readonly reason: string }[];
  readonly foreign: number;
}

export interface SharingSays {
  /** How it stands, in a sentence. */
  readonly line: string;
  /** Whether somebody has to do something about it. */
  readonly alarm: boolean;
  readonly waiting: string;
  readonly last: string;
  readonly denied: readonly EntrySaid[];
  readonly odd: readonly EntrySaid[];
  readonly foreign?: string;
}

/** An entry that did not go or come as it should. */
export interface EntrySaid {
  readonly id: string;
  /** Of which hull, and when it was entered, by its id. */
  readonly which: string;
  readonly why: string;
}

/** What the screen says of sharing: no more than what is known. `names`: of the hulls on this device, by key. */
export function sharingSays(
  status: SharingFacts,
  offset: ZoneOffset,
  names: ReadonlyMap<string, string> = new Map(),
): SharingSays {
  const { at, failure, waiting, lastExchange, denied, odd, foreign } = status;
  const last =
    lastExchange === undefined
      ? 'This device and the server have not been level yet.'
      : `Last level with the server on ${when(lastExchange, offset)}.`;
  const entries =
    waiting === 1
      ? '1 entry of this device is'
      : `${countText(waiting)} entries of this device are`;
  return {
    line: lineOf(),
    alarm: at === 'failed' || denied.length > 0,
    waiting: waiting === 0 ? 'Nothing waits here.' : `${entries} not on the server yet; kept here.`,
    last,
    denied: denied.map(({ id, why }) => ({ id, which: which(id), why })),
    odd: odd.map(({ id, reason: why }) => ({ id, which: which(id), why })),
    ...(foreign > 0 && {
      foreign: `${countText(foreign)} ${foreign === 1 ? 'document' : 'documents'} on the server ${foreign === 1 ? 'is' : 'are'} no entry of any hull and left there.`,
    }),
  };

  function which(id: string): string {
    const parsed = parseId(id);
    if (!parsed.ok) return 'Of no hull';
    const hull = names.get(parsed.hull) ?? NO_NAME;
    return `${hull}, entered on ${when(new Date(parsed.time).toISOString(), offset)}`;
  }

  function lineOf(): string {
    if (at === 'stopped') return 'Not shared.';
    if (failure !== undefined) return `${failure.words} Trying again by itself.`;
    if (at === 'idle' && waiting === 0 && denied.length === 0) return 'Level with the server.';
    if (at === 'idle' && denied.length > 0)
      return `The server refuses ${countText(denied.length)} of the entries.`;
    if (at === 'elsewhere') return 'Another tab of this browser shares the record.';
    return at === 'starting' ? 'Asking the server…' : 'Exchanging with the server…';
  }
}

/** The same in a few words, for the yard. */
export function sharingShort(status: SharingFacts): string {
  const waits = status.waiting > 0 ? ` ${countText(status.waiting)} waiting here.` : '';
  if (status.failure !== undefined) return `Not level: ${status.failure.words}${waits}`;
  if (status.denied.length > 0)
    return `The server refuses ${countText(status.denied.length)} of the entries.${waits}`;
  if (status.at === 'idle' && status.waiting === 0) return 'Shared: level with the server.';
  return `Exchanging with the server…${waits}`;
}

/** What removing a hull from this device means where its record is shared. `waiting`: how many of its entries the server
 *  has not; absent where it has them all. */
export function sharingRemoval(
  name: string,
  waiting?: number,
): { readonly words: string; readonly lost?: string } {
  const them =
    waiting === undefined || waiting === 1
      ? '1 entry of it is'
      : `${countText(waiting)} entries of it are`;
  return {
    words: `This removes ${name} from this device, and it stays away whatever the others enter. The server and the other devices keep what they have of it; it is had again on the page This device, under Sharing.`,
    ...(waiting !== undefined && {
      lost: `${them} not on the server yet, and would be lost: wait until nothing waits, or back it up first.`,
    }),
  };
}

export type SharingTyped<Typed> =
  | { readonly ok: true; readonly settings: Typed }
  | {
      readonly ok: false;
      readonly problems: Readonly<Partial<Record<'server' | 'database' | 'user', string>>>;
    };

/** What was typed, as settings or as what is wrong with it, by field. */
export function sharingTyped<
  Typed extends { readonly server: string; readonly database: string; readonly user: string },
>(typed: Typed): SharingTyped<Typed> {
  const server = readServer(typed.server);
  const database = typed.database.trim();
  const user = typed.user.trim();
  const problems = {
    ...(!server.ok && { server: `Expected ${server.expected}.` }),
    ...(server.ok &&
      !allowed(server.server) && {
        server: 'Expected https: over plain http anybody on the way reads the password.',
      }),
    ...(!isDatabaseName(database) && {
      database: 'Expected lower-case letters, digits and -, beginning with a letter.',
    }),
    ...((user === '' || user.includes(':')) && { user: 'Expected a name without a colon.' }),
  };
  if (!server.ok || Object.keys(problems).length > 0) return { ok: false, problems };
  return { ok: true, settings: { ...typed, server: server.server, database, user } };
}

/** Plain http only within this machine, where the page's policy lets it pass too. */
function allowed(server: string): boolean {
  return (
    server.startsWith('https:') || /^http:\/\/(?:localhost|127\.0\.0\.1)(?::|\/|$)/.test(server)
  );
}

function when(at: string, offset: ZoneOffset): string {
  const { day, time } = dayAndTime(at, offset);
  return `${day} at ${time}`;
}
