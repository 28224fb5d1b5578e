import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';

import { canonical } from '../../src/book/canonical.ts';
import { entriesOf } from '../../src/book/book.ts';
import { hullDatabase } from '../../web/store/database.ts';
import { DEMO_HULL } from '../../web/store/demoHull.ts';
import { HULL, madeEntry, madeYard } from './made.ts';
import { ProtocolServer } from './protocolServer.ts';
import { Tablet, type TabletOptions } from './tablet.ts';

const server = new ProtocolServer();
const tablets: Tablet[] = [];
let yard = '';
let yards = 0;

beforeAll(async () => {
  // PouchDB says there that a missing checkpoint is no fault.
  vi.spyOn(console, 'info').mockImplementation(() => undefined);
  await server.start();
});
afterEach(async () => {
  for (const tablet of tablets.splice(0)) tablet.sharing?.stop();
  await server.user('hand', 'a word');
});
afterAll(() => server.end());

async function newYard(): Promise<void> {
  yard = `yard-${(yards += 1)}`;
  await madeYard(server, yard);
}

function tablet(options: TabletOptions = {}): Tablet {
  const made = new Tablet();
  tablets.push(made);
  made.share(server.address, { database: yard, ...options });
  return made;
}

const until = (ask: () => unknown): Promise<void> =>
  expect.poll(ask, { interval: 20 }).toBeTruthy();

async function texts(of: Tablet, hull = HULL): Promise<string> {
  return entriesOf(await of.book(hull))
    .map((entry) => canonical(entry))
    .join('\n');
}

const idle = (one: Tablet): boolean =>
  one.sharing?.status.at === 'idle' && one.sharing.status.waiting === 0;

describe('sharing through a server of the CouchDB protocol', () => {
  it('brings what is entered on one tablet to the other, in both directions', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    await a.enter([madeEntry(), madeEntry()]);
    await until(() => b.hulls.has(HULL));
    await b.enter([madeEntry()]);
    await until(async () => (await a.book(HULL)).entries.size === 3);
    await until(() => idle(a) && idle(b));
    expect(await texts(b)).toBe(await texts(a));
    expect(a.sharing?.status.lastExchange).toBeDefined();
  });

  it('never gives the demo to a server', async () => {
    await newYard();
    const a = tablet();
    await a.enter([madeEntry({}, DEMO_HULL), madeEntry()]);
    await until(() => idle(a));
    const { answer } = await server.ask('GET', `/${yard}/_all_docs`);
    const ids = (answer as { rows: { id: string }[] }).rows.map(({ id }) => id);
    expect(ids.some((id) => id.startsWith(HULL))).toBe(true);
    expect(ids.some((id) => id.startsWith(DEMO_HULL))).toBe(false);
  });

  it('counts what waits while the server cannot be reached, and sends it once it can', async () => {
    await newYard();
    const a = tablet();
    await until(() => idle(a));
    a.online = false;
    await a.enter([madeEntry(), madeEntry(), madeEntry()]);
    await until(() => a.sharing?.status.at === 'failed' && a.sharing.status.waiting === 3);
    expect(a.sharing?.status).toMatchObject({ waiting: 3, failure: { kind: 'offline' } });
    a.online = true;
    await until(() => idle(a));
    expect(a.sharing?.status.failure).toBeUndefined();
    const { answer } = await server.ask('GET', `/${yard}/_all_docs`);
    expect((answer as { total_rows: number }).total_rows).toBeGreaterThanOrEqual(3);
  });

  it('carries only the chosen hulls, and those of this season where that is asked', async () => {
    await newYard();
    const a = tablet();
    const other = 'ba9876543210';
    const old = 'cccccccccccc';
    const now = Date.now();
    await a.enter([
      madeEntry(),
      madeEntry({}, other, now),
      madeEntry({}, old, Date.UTC(2021, 5, 1)),
    ]);
    await until(() => idle(a));
    const chosen = tablet({ carry: { what: 'chosen', hulls: [HULL], season: false } });
    const season = tablet({ carry: { what: 'chosen', hulls: [], season: true } });
    await until(() => chosen.hulls.has(HULL) && season.hulls.has(other));
    await until(() => idle(chosen) && idle(season));
    expect([...chosen.hulls]).toEqual([HULL]);
    expect(season.hulls.has(old)).toBe(false);
  });

  it('says a wrong password, loses nothing by it, and goes on once it is right again', async () => {
    await newYard();
    const a = tablet();
    await until(() => idle(a));
    await server.user('hand', 'another word');
    await a.enter([madeEntry()]);
    await until(() => a.sharing?.status.at === 'failed' && a.sharing.status.waiting === 1);
    expect(a.sharing?.status).toMatchObject({ waiting: 1, failure: { kind: 'password' } });
    expect(JSON.stringify([a.told, a.sharing?.status])).not.toContain('a word');
    await server.user('hand', 'a word');
    await until(() => idle(a));
  });

  it('says that rights were taken away, loses nothing by it, and goes on when they are given', async () => {
    await newYard();
    const a = tablet();
    await until(() => idle(a));
    const { answer: rights } = await server.ask('GET', `/${yard}/_security`);
    const nobody = { members: { names: ['nobody'], roles: [] }, admins: { names: [], roles: [] } };
    await server.ask('PUT', `/${yard}/_security`, nobody);
    await a.enter([madeEntry()]);
    await until(() => a.sharing?.status.at === 'failed' && a.sharing.status.waiting === 1);
    expect(a.sharing?.status).toMatchObject({ waiting: 1, failure: { kind: 'rights' } });
    await server.ask('PUT', `/${yard}/_security`, rights);
    await until(() => idle(a) && a.sharing?.status.denied.length === 0);
    const b = tablet();
    await until(async () => (await b.book(HULL)).entries.size === 1);
  });

  it.each([
    ['no such database', { database: 'not-there' }, 'no database'],
    ['a wrong password', { password: 'guess' }, 'password'],
    ['a user without rights', { user: 'stranger', password: 'a word' }, 'rights'],
  ] as const)('says %s', async (_, options, kind) => {
    await newYard();
    await server.user('stranger', 'a word');
    const a = tablet(options);
    await until(() => a.sharing?.status.failure?.kind === kind);
  });

  it('says that nothing runs at an address, and that a database is not set up', async () => {
    const a = new Tablet();
    tablets.push(a);
    a.share('http://127.0.0.1:9');
    await until(() => a.sharing?.status.failure?.kind === 'refused');
    await server.ask('PUT', '/plain');
    const b = tablet({ database: 'plain', user: 'office', password: 'an admin’s word' });
    await until(() => b.sharing?.status.failure?.kind === 'not set up');
  });

  it('asks anew before it waits, where that was wanted while it was asking', async () => {
    await newYard();
    const a = new Tablet();
    tablets.push(a);
    const feeds: string[] = [];
    let release = (): void => undefined;
    const released = new Promise<void>((resolve) => (release = resolve));
    a.between = (url, given) => {
      const feed = /feed=(normal|longpoll)/.exec(url)?.[1];
      if (feed === undefined) return undefined;
      feeds.push(feed);
      if (feeds.length !== 2) return undefined;
      return fetch(url, given).then(async (answer) => {
        await released;
        return answer;
      });
    };
    a.share(server.address, { database: yard });
    // The first answer brings the design document, the second nothing.
    await until(() => feeds.length === 2);
    a.sharing?.again();
    release();
    await until(() => feeds.length === 4);
    expect(feeds).toEqual(['normal', 'normal', 'normal', 'longpoll']);
  });

  it('asks for no photos where more readings came while it took the first', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    await until(() => idle(a) && idle(b));
    let asked = 0;
    let heard = '';
    let photos = 0;
    let release = (): void => undefined;
    const released = new Promise<void>((resolve) => (release = resolve));
    b.between = (url, given) => {
      if (url.includes('feed=')) {
        return fetch(url, given).then(async (answer) => {
          heard += ` then ${await answer.clone().text()}`;
          return answer;
        });
      }
      if (url.includes('files=yes')) photos += 1;
      if (!url.includes('/_bulk_get')) return undefined;
      asked += 1;
      if (asked > 1) return undefined;
      return fetch(url, given).then(async (answer) => {
        await released;
        return answer;
      });
    };
    await a.enter([madeEntry()]);
    await until(() => asked === 1);
    const second = madeEntry();
    await a.enter([second]);
    // It asks on once it has looked at what came.
    await until(() => new RegExp(`${second._id}.* then `, 's').test(heard));
    release();
    await until(async () => (await b.book(HULL)).entries.size === 2 && idle(b));
    expect(photos).toBe(0);
  });

  it('takes a few entries that the feed tells of without going through the changes again', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    await a.enter([madeEntry()]);
    await until(async () => b.hulls.has(HULL) && (await b.book(HULL)).entries.size === 1);
    await until(() => idle(a) && idle(b));
    const asked: string[] = [];
    b.between = (url) => {
      if (!/feed=|_local|_session/.test(url)) asked.push(url.replace(/^.*\/_/, '').slice(0, 8));
      return undefined;
    };
    await a.enter([madeEntry(), madeEntry()]);
    await until(async () => (await b.book(HULL)).entries.size === 3 && idle(b));
    expect(new Set(asked)).toEqual(new Set(['bulk_get']));
  });

  it('blames no entry while this device’s disk is full, and takes them once there is room', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    await until(() => idle(a) && idle(b));
    const local = b.open(hullDatabase(HULL));
    const write = local.bulkDocs.bind(local);
    let refused = 0;
    local.bulkDocs = () => {
      refused += 1;
      const full = { status: 500, name: 'indexed_db_went_bad', reason: 'QuotaExceededError' };
      return Promise.reject(Object.assign(new Error(full.name), full));
    };
    await a.enter([madeEntry(), madeEntry()]);
    await until(() => b.sharing?.status.failure?.kind === 'device');
    expect(refused).toBeGreaterThan(0);
    expect(b.sharing?.status.odd).toEqual([]);
    local.bulkDocs = write;
    await until(async () => (await b.book(HULL)).entries.size === 2 && idle(b));
    expect(b.sharing?.status.odd).toEqual([]);
  });

  it('gives many entries together where the network was away for a moment only', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    await until(() => idle(a) && idle(b));
    let given = 0;
    a.between = (url) => {
      if (!url.endsWith('/_bulk_docs')) return undefined;
      given += 1;
      return given === 1 ? Promise.reject(new TypeError('fetch failed')) : undefined;
    };
    await a.enter(Array.from({ length: 300 }, () => madeEntry()));
    await until(async () => b.hulls.has(HULL) && (await b.book(HULL)).entries.size === 300);
    await until(() => idle(a) && idle(b));
    expect(given).toBeLessThan(10);
    expect(a.sharing?.status.denied).toEqual([]);
  });

  it('takes many entries together where the network was away for a moment only', async () => {
    await newYard();
    const a = tablet();
    await a.enter(Array.from({ length: 300 }, () => madeEntry()));
    await until(() => idle(a));
    const b = new Tablet();
    tablets.push(b);
    let asked = 0;
    b.between = (url) => {
      if (!url.includes('/_bulk_get')) return undefined;
      asked += 1;
      return asked === 1 ? Promise.reject(new TypeError('fetch failed')) : undefined;
    };
    b.share(server.address, { database: yard });
    await until(async () => b.hulls.has(HULL) && (await b.book(HULL)).entries.size === 300);
    await until(() => idle(b));
    expect(asked).toBeLessThan(10);
    expect(b.sharing?.status.odd).toEqual([]);
  });

  it('leaves out an entry that does not get through, gives the others, and says so', async () => {
    await newYard();
    const [a, b] = [tablet(), tablet()];
    const large = madeEntry({ body: { text: 'far too long' } });
    a.between = (url, given) =>
      url.endsWith('/_bulk_docs') && JSON.stringify(given?.body).includes('far too long')
        ? Promise.resolve(new Response('{"error":"too_large"}', { status: 413 }))
        : undefined;
    await a.enter([...Array.from({ length: 20 }, () => madeEntry()), large]);
    await until(() => idle(a) && a.sharing?.status.denied.length === 1);
    expect(a.sharing?.status.denied[0]?.id).toBe(large._id);
    // It is offered again with whatever comes, and holds nothing up then either.
    await a.enter([madeEntry()]);
    await until(async () => b.hulls.has(HULL) && (await b.book(HULL)).entries.size === 21);
    await until(() => idle(a));
    expect(a.sharing?.status.failure).toBeUndefined();
    a.between = () => undefined;
    await a.enter([madeEntry()]);
    await until(async () => (await b.book(HULL)).entries.size === 23);
    await until(() => idle(a) && a.sharing?.status.denied.length === 0);
  });

  it('counts nothing as given that was not when the network goes in the middle', async () => {
    await newYard();
    const a = tablet();
    await until(() => idle(a));
    let given = 0;
    a.between = (url) => {
      if (!url.endsWith('/_bulk_docs')) return undefined;
      given += 1;
      if (given === 2) a.online = false;
      return Promise.reject(new TypeError('fetch failed'));
    };
    await a.enter(Array.from({ length: 40 }, () => madeEntry()));
    await until(() => a.sharing?.status.at === 'failed' && given === 2);
    expect(a.sharing?.status).toMatchObject({ waiting: 40, denied: [] });
    a.between = () => undefined;
    a.online = true;
    await until(() => idle(a));
    const { answer } = await server.ask('GET', `/${yard}/_all_docs`);
    expect((answer as { total_rows: number }).total_rows).toBe(41);
  });

  it('keeps and shows what the server refuses, and offers it again at the next start', async () => {
    await newYard();
    const { answer } = await server.ask('GET', `/${yard}/_design/aftrun`);
    const design = answer as { readonly _rev: string };
    const strict = {
      ...design,
      validate_doc_update:
        'function (d) { if (d.kind === "photo") throw { forbidden: "no photos" }; }',
    };
    await server.ask('PUT', `/${yard}/_design/aftrun`, strict);
    const a = tablet();
    const refused = madeEntry({ kind: 'photo' });
    await a.enter([madeEntry(), refused, madeEntry()]);
    await until(() => idle(a));
    expect(a.sharing?.status.denied).toEqual([{ id: refused._id, why: 'no photos' }]);
    expect((await a.book(HULL)).entries.size).toBe(3);
    const { answer: now } = await server.ask('GET', `/${yard}/_design/aftrun`);
    await server.ask('PUT', `/${yard}/_design/aftrun`, {
      ...design,
      _rev: (now as { readonly _rev: string })._rev,
    });
    a.sharing?.stop();
    a.share(server.address, { database: yard });
    await until(() => idle(a) && a.sharing?.status.denied.length === 0);
    const b = tablet();
    await until(async () => (await b.book(HULL)).entries.size === 3);
  });

  it('refuses on the server what changes or deletes an entry', async () => {
    await newYard();
    const entry = madeEntry();
    const a = tablet();
    await a.enter([entry]);
    await until(() => idle(a));
    const as = { user: 'hand', password: 'a word' };
    const path = `/${yard}/${encodeURIComponent(entry._id)}`;
    const { answer } = await server.ask('GET', path);
    const { _rev } = answer as { readonly _rev: string };
    const changed = { ...entry, _rev, body: { text: 'another' } };
    expect((await server.ask('PUT', path, changed, as)).status).toBe(403);
    expect((await server.ask('DELETE', `${path}?rev=${_rev}`, undefined, as)).status).toBe(403);
  });

  it('sets a tampered and an oversized document aside, and neither stops the rest', async () => {
    await newYard();
    const { answer } = await server.ask('GET', `/${yard}/_design/aftrun`);
    await server.ask('PUT', `/${yard}/_design/aftrun`, {
      ...(answer as object),
      validate_doc_update: 'function () {}',
    });
    const a = tablet();
    const tampered = { ...madeEntry(), v: 99 };
    const oversized = madeEntry({ body: { text: 'x'.repeat(3_000_000) } });
    for (const document of [{ _id: 'no-entry', text: 'stray' }, tampered, oversized]) {
      await server.ask('PUT', `/${yard}/${encodeURIComponent(document._id)}`, document);
    }
    await a.enter([madeEntry(), madeEntry()]);
    const b = tablet();
    await until(async () => (await b.book(HULL)).entries.size === 2);
    await until(() => idle(b));
    const { odd, foreign } = b.sharing?.status ?? {};
    expect(odd?.map(({ id }) => id).sort()).toEqual([tampered._id, oversized._id].sort());
    expect(foreign).toBe(1);
    // They are kept, so that they can be shown.
    const { rows } = await b
      .open(hullDatabase(HULL))
      .allDocs({ include_docs: true, conflicts: true });
    expect(rows).toHaveLength(4);
  });
});
