import { describe, expect, it } from 'vitest';

import type { Database } from '../../../web/store/database.ts';
import { Place } from '../../../web/store/sharing/place.ts';
import { ProgressKeeper } from '../../../web/store/sharing/progress.ts';
import type { LocalDocument } from '../../../web/store/sharing/remote.ts';

/** A server's database as far as marks go. */
class Marks {
  documents = new Map<string, LocalDocument>();
  /** Whether an answer to a mark is lost on the way back. */
  deaf = false;

  local = (name: string): Promise<LocalDocument | undefined> =>
    Promise.resolve(this.documents.get(name));

  keepLocal = (name: string, fields: LocalDocument): Promise<void> => {
    this.documents.set(name, { ...fields, _rev: '0-1' });
    return this.deaf ? Promise.reject(new TypeError('no answer')) : Promise.resolve();
  };
}

function device(): ProgressKeeper {
  const kept = new Map<string, object>();
  const database = {
    get: (id: string) =>
      kept.has(id) ? Promise.resolve(kept.get(id)) : Promise.reject(new Error('missing')),
    put: (document: { readonly _id: string }) => {
      kept.set(document._id, document);
      return Promise.resolve({ rev: '1' });
    },
  };
  return new ProgressKeeper(() => Promise.resolve(database as unknown as Database), 'partner');
}

let dice = 0;
const random = (count: number): Uint8Array => new Uint8Array(count).fill((dice += 1));
const placeOf = (keeper: ProgressKeeper, remote: Marks, choice = 'all'): Place =>
  new Place({ keeper, remote, choice, random });

describe('the place up to which the changes of a server were looked at', () => {
  it('is gone on from while the server has the mark that was left with it', async () => {
    const [keeper, server] = [device(), new Marks()];
    const place = placeOf(keeper, server);
    expect(await place.same()).toBe(false);
    await place.begin();
    expect(await place.keep(9)).toBe(true);
    expect(await place.same()).toBe(true);
    expect(await place.seq()).toBe(9);
  });

  it('counts for nothing on a database that was made anew, or brought back from an older copy', async () => {
    const [keeper, server] = [device(), new Marks()];
    const place = placeOf(keeper, server);
    await place.begin();
    await place.keep(7);
    const copy = new Map(server.documents);
    await place.keep(8);
    await place.keep(9);
    server.documents = copy;
    expect(await place.same()).toBe(false);
    server.documents = new Map();
    expect(await place.same()).toBe(false);
  });

  it('is not kept on a database that is another by now, which would pass for the same from then on', async () => {
    const [keeper, server] = [device(), new Marks()];
    const place = placeOf(keeper, server);
    expect(await place.keep(7)).toBe(false);
    await place.begin();
    await place.keep(7);
    server.documents = new Map();
    expect(await place.keep(9)).toBe(false);
    expect(await place.same()).toBe(false);
    await place.begin();
    expect(await place.same()).toBe(true);
    expect(await place.seq()).toBe(0);
  });

  it('stands where the server took a mark and its answer was lost', async () => {
    const [keeper, server] = [device(), new Marks()];
    const place = placeOf(keeper, server);
    await place.begin();
    await place.keep(7);
    server.deaf = true;
    await expect(place.keep(9)).rejects.toThrow('no answer');
    expect(await place.same()).toBe(true);
    expect(await place.seq()).toBe(7);
    server.deaf = false;
    await place.keep(9);
    expect(await place.same()).toBe(true);
    expect(await place.seq()).toBe(9);
  });

  it('is the beginning where other hulls are looked at than were, and the server is the same', async () => {
    const [keeper, server] = [device(), new Marks()];
    await placeOf(keeper, server, 'all').begin();
    await placeOf(keeper, server, 'all').keep(7);
    const other = placeOf(keeper, server, 'chosen');
    expect(await other.seq()).toBe(0);
    expect(await other.same()).toBe(true);
  });
});
