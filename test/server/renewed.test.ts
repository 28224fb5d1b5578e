import { cpSync, rmSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';

import { hullDatabase } from '../../web/store/database.ts';
import { HULL, madeEntry, madeYard } from './made.ts';
import { ProtocolServer } from './protocolServer.ts';
import { Tablet } from './tablet.ts';

const server = new ProtocolServer();
const tablets: Tablet[] = [];

beforeAll(async () => {
  // PouchDB says there that a missing checkpoint is no fault.
  vi.spyOn(console, 'info').mockImplementation(() => undefined);
  await server.start();
});
afterEach(() => {
  for (const tablet of tablets.splice(0)) tablet.sharing?.stop();
});
afterAll(() => server.end());

function tablet(): Tablet {
  const made = new Tablet();
  tablets.push(made);
  made.share(server.address);
  return made;
}

const until = (ask: () => unknown): Promise<void> =>
  expect.poll(ask, { interval: 20, timeout: 50_000 }).toBeTruthy();
const idle = (one: Tablet): boolean =>
  one.sharing?.status.at === 'idle' && one.sharing.status.waiting === 0;
const count = async (one: Tablet): Promise<number> => (await one.book(HULL)).entries.size;

async function serverHas(entries: number): Promise<boolean> {
  const { answer } = await server.ask('GET', '/yard/_all_docs');
  const { rows = [] } = answer as { readonly rows?: readonly { readonly id: string }[] };
  return rows.filter(({ id }) => !id.startsWith('_')).length === entries;
}

describe('a database on the server that is not the one it was', () => {
  it('gets everything again after it was dropped and made anew, and keeps nothing from anybody', async () => {
    await madeYard(server);
    const a = tablet();
    const own = Array.from({ length: 5 }, () => madeEntry());
    await a.enter(own);
    await until(() => idle(a));
    await until(() => serverHas(5));
    await server.ask('DELETE', '/yard');
    a.sharing?.again();
    // This server makes a database anew, with nothing in it, for a request that comes while it drops it.
    await until(() => /no database|not set up/.test(a.sharing?.status.failure?.kind ?? ''));
    await madeYard(server);
    // Its numbers begin anew: those of the first entries are numbers that the device has heard of.
    const b = tablet();
    await b.enter([madeEntry(), madeEntry()]);
    await until(async () => (await count(a)) === 7 && (await count(b)) === 7);
    await until(() => serverHas(7));
    await until(() => idle(a) && idle(b));
  });

  it('is noticed where it has grown past the old one meanwhile', async () => {
    await madeYard(server);
    const a = tablet();
    await a.enter([madeEntry()]);
    await until(() => idle(a));
    a.online = false;
    await server.ask('DELETE', '/yard');
    await madeYard(server);
    const b = tablet();
    const more = Array.from({ length: 12 }, () => madeEntry());
    await b.enter(more);
    await until(() => idle(b));
    a.online = true;
    a.sharing?.again();
    await until(async () => (await count(a)) === (await count(b)) && (await count(a)) >= 13);
    await until(() => idle(a));
  });

  it('brought back from an older copy, gets what it had later, and what came since reaches everybody', async () => {
    await server.ask('DELETE', '/yard');
    await madeYard(server);
    const hull = 'rest0red0000';
    const [a, b] = [tablet(), tablet()];
    await a.enter([madeEntry({}, hull), madeEntry({}, hull)]);
    await until(() => b.hulls.has(hull) && idle(b) && idle(a));
    const copy = `${server.folder}-copy`;
    await server.kill();
    cpSync(server.folder, copy, { recursive: true });
    await server.start();
    // Two more by each, which the copy has not.
    await a.enter([madeEntry({}, hull), madeEntry({}, hull)]);
    await b.enter([madeEntry({}, hull), madeEntry({}, hull)]);
    const has = (one: Tablet, entries: number): Promise<boolean> =>
      one.book(hull).then((book) => book.entries.size === entries);
    await until(async () => (await has(a, 6)) && (await has(b, 6)) && idle(a) && idle(b));
    a.online = false;
    b.online = false;
    await server.kill();
    rmSync(server.folder, { recursive: true });
    cpSync(copy, server.folder, { recursive: true });
    rmSync(copy, { recursive: true });
    await server.start();
    // Somebody else takes the numbers that the lost entries had.
    const c = tablet();
    await until(() => idle(c));
    await c.enter(Array.from({ length: 9 }, () => madeEntry({}, hull)));
    await until(() => idle(c));
    a.online = true;
    b.online = true;
    await until(async () => (await has(a, 15)) && (await has(b, 15)) && (await has(c, 15)));
    await until(() => idle(a) && idle(b) && idle(c));
  });
});

describe('a hull that was removed from a device', () => {
  it('stays away whatever is entered elsewhere, and comes whole once it is carried again', async () => {
    await server.ask('DELETE', '/yard');
    await madeYard(server);
    const [a, b] = [tablet(), tablet()];
    await a.enter([madeEntry(), madeEntry()]);
    await until(() => b.hulls.has(HULL) && idle(b));
    b.sharing?.stop();
    await b.sharing?.over();
    b.hulls.delete(HULL);
    await b.destroy(hullDatabase(HULL));
    b.share(server.address, { without: [{ hull: HULL, name: 'Removed' }] });
    await until(() => idle(b));
    const other = 'ba9876543210';
    await a.enter([madeEntry(), madeEntry({}, other)]);
    await until(() => b.hulls.has(other) && idle(b));
    expect(b.hulls.has(HULL)).toBe(false);
    expect(b.sharing?.status.waiting).toBe(0);
    b.sharing?.stop();
    b.share(server.address);
    await until(async () => (await count(b)) === 3);
    // The database made anew counts from one again; what is entered now is given all the same.
    await b.enter([madeEntry()]);
    await until(async () => (await count(a)) === 4);
    await until(() => idle(a) && idle(b));
  });
});
