import { describe, expect, test } from 'vitest';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { LineWalk } from '../../../web/parts/lineWalk.svelte.ts';
import { Device } from '../../../web/store/device.svelte.ts';
import { BURST_WITHIN } from '../../../web/views/burst.ts';
import { hullDraft, Machine, SURVEY, until } from '../store/around.ts';

/** A table of a line that nothing was read on, and the act of a gauge that types a value and Enter. */
async function table() {
  const store = new Machine().tab().store();
  await store.ready;
  const offset = { mm: 450, text: '450 mm' };
  await store.add([
    hullDraft('Reed Bunting (invented)'),
    draftOf('line', { name: 'P450mm', side: 'port', offset }),
  ]);
  const stations = [0, 300, 600].map((mm) => ({ mm, text: `${mm} mm` }));
  const aftEnd = { mm: 0, text: '0 mm' };
  await store.add([draftOf('survey', { workUnit: 'mm', measured: 'hand', stations })], {
    survey: SURVEY,
  });
  const [line] = store.hull.lines;
  const lay = { line: line.id, name: '1', repeat: 1, held: 'resting', aftEnd } as const;
  await store.add([draftOf('placement', lay)], { survey: SURVEY });
  const device = new Device(undefined, (count) => new Uint8Array(count));
  const walk = new LineWalk(store, SURVEY, device);
  walk.goTo(walk.rows[0]);
  const enter = (text: string, at: number) => {
    const { row } = walk;
    if (row === undefined) throw new Error('no row');
    walk.type(row, text);
    walk.saveAndGo(row, 1, at);
  };
  const figures = () => walk.rows.map(({ looks }) => looks.map(({ text }) => text).join(' '));
  return { walk, device, enter, figures };
}

const SOON = BURST_WITHIN - 1;

describe('a value that comes too soon after the last', () => {
  test('is a look at the same station, and asked about', async () => {
    const { walk, enter, figures } = await table();
    enter('2', 1000);
    enter('2.1', 1000 + SOON);
    expect(figures()).toEqual(['2 2.1', '', '']);
    expect(walk.burst.row?.label).toBe('0');
    expect(walk.burst.next?.label).toBe('300');
    walk.burst.keepAll();
    expect(walk.burst.row).toBeUndefined();
    expect(figures()).toEqual(['2 2.1', '', '']);
  });

  test('and one more are three looks, of which none can be the next station’s', async () => {
    const { walk, enter, figures } = await table();
    enter('2', 1000);
    enter('2.1', 1000 + SOON);
    enter('2.2', 1000 + 2 * SOON);
    expect(figures()[0]).toBe('2 2.1 2.2');
    expect(walk.burst.next).toBeUndefined();
  });

  test('goes where somebody says that the first alone counts', async () => {
    const { walk, enter, figures } = await table();
    enter('2', 1000);
    enter('2.1', 1000 + SOON);
    const { row } = walk.burst;
    if (row === undefined) throw new Error('nothing asked');
    walk.burst.takeOne(row, row.looks[0]);
    await until(() => figures()[0] === '2');
    expect(walk.burst.row).toBeUndefined();
  });

  test('comes to stand at the next station where somebody says that it is of that one', async () => {
    const { walk, enter, figures } = await table();
    enter('2', 1000);
    enter('2.1', 1000 + SOON);
    const { row, next } = walk.burst;
    if (row === undefined || next === undefined) throw new Error('nothing asked');
    walk.burst.takeNext(row, next);
    await until(() => figures()[1] === '2.1');
    expect(figures()).toEqual(['2', '2.1', '']);
    expect(walk.row?.label).toBe('600');
  });

  test('is of the next station where nobody wants the guard', async () => {
    const { walk, device, enter, figures } = await table();
    device.set({ answers: { 'burst guard': 'off' } });
    enter('2', 1000);
    enter('2.1', 1000 + SOON);
    expect(figures()).toEqual(['2', '2.1', '']);
    expect(walk.burst.row).toBeUndefined();
  });
});

test('a value that takes its time is of the next station, and a doubled Enter is none', async () => {
  const { walk, enter, figures } = await table();
  enter('2', 1000);
  enter('', 1000 + SOON);
  expect(walk.row?.label).toBe('300');
  enter('2.1', 1000 + BURST_WITHIN);
  expect(figures()).toEqual(['2', '2.1', '']);
});
