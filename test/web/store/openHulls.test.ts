import { expect, test } from 'vitest';
import { OpenHulls } from '../../../web/store/openHulls.ts';
import { HULL, hullDraft, Machine, until } from './around.ts';

test('a hull is opened once, let go when nothing of it waits, and made anew after that', async () => {
  const tab = new Machine().tab();
  const open = new OpenHulls(() => tab.store());
  const store = open.open(HULL);
  await store.ready;
  expect(open.open(HULL)).toBe(store);
  await store.add([hullDraft('Reed Bunting (invented)')]);
  expect(open.entries(HULL)).toHaveLength(1);
  open.release(HULL);
  expect(store.state).toBe('closed');
  expect([open.has(HULL), open.entries(HULL)]).toEqual([false, []]);
  expect(open.open(HULL)).not.toBe(store);
});

test('what no database has taken is counted, and its hull is not let go', async () => {
  const machine = new Machine();
  const tab = machine.tab();
  const open = new OpenHulls(() => tab.store());
  const store = open.open(HULL);
  await store.ready;
  machine.full = true;
  void store.add([hullDraft('Reed Bunting (invented)')]).catch(() => undefined);
  await until(() => open.pending === 1);
  expect(open.pendingOf('another')).toBe(0);
  open.release(HULL);
  expect(open.has(HULL)).toBe(true);
  open.close();
  expect([store.state, open.pending]).toEqual(['closed', 0]);
});

test('a hull that was removed is told so', async () => {
  const tab = new Machine().tab();
  const open = new OpenHulls(() => tab.store());
  const store = open.open(HULL);
  await store.ready;
  open.removed(HULL);
  expect([store.state, open.has(HULL)]).toEqual(['removed', false]);
  await open.readAgain(HULL);
});
