import type { Entry } from '../../src/book/entry.ts';
import { entryId } from '../../src/book/id.ts';
import { designDocument } from '../../src/book/serverSetup/designDocument.ts';
import { securityOf } from '../../src/book/serverSetup/security.ts';
import type { ProtocolServer } from './protocolServer.ts';

export const HULL = '0123456789ab';

let serial = 0;

/** An invented entry; every one has an id of its own. */
export function madeEntry(change: Partial<Entry> = {}, hull = HULL, at = 1_777_887_000_000): Entry {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, (serial += 1));
  return {
    _id: entryId({ hull, survey: '0', time: at + serial, random }),
    v: 1,
    kind: 'note',
    at: '2026-05-04T09:30:00Z',
    by: 'Yard hand',
    device: 'Tablet 1',
    app: '0.1.0',
    body: { text: `note ${serial}` },
    ...change,
  };
}

/** A database set up as the command does, with one member. */
export async function madeYard(server: ProtocolServer, database = 'yard'): Promise<void> {
  await server.ask('PUT', `/${database}`);
  await server.ask('PUT', `/${database}/_design/aftrun`, designDocument());
  const rights = securityOf(database, { members: ['hand'], admins: [] });
  await server.ask('PUT', `/${database}/_security`, rights);
  await server.user('hand', 'a word');
}
