import { expect, test } from 'vitest';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { LineWalk } from '../../../web/parts/lineWalk.svelte.ts';
import { Device } from '../../../web/store/device.svelte.ts';
import { hullDraft, Machine, SURVEY, until } from '../store/around.ts';

const line = (mm: number) =>
  draftOf('line', { name: `P${mm}mm`, side: 'port', offset: { mm, text: `${mm} mm` } });

test('what somebody else lays meanwhile does not come under the table where this one reads', async () => {
  const machine = new Machine();
  const here = machine.tab().store();
  await here.ready;
  await here.add([hullDraft('Reed Bunting (invented)'), line(100), line(200)]);
  const stations = [0, 300, 600].map((mm) => ({ mm, text: `${mm} mm` }));
  await here.add([draftOf('survey', { workUnit: 'mm', measured: 'hand', stations })], {
    survey: SURVEY,
  });
  const there = machine.tab('Tablet 2').store();
  await there.ready;
  const device = new Device(undefined, (count) => new Uint8Array(count));
  const walk = new LineWalk(here, SURVEY, device);
  const [first, second] = walk.lines;
  expect(walk.line?.id).toBe(first.id);
  const [row] = walk.rows;
  walk.goTo(row);

  const lay = (on: string, repeat: number) =>
    draftOf('placement', {
      line: on,
      name: '1',
      repeat,
      held: 'resting',
      aftEnd: { mm: 0, text: '0 mm' },
    });
  await there.add([lay(second.id, 1)], { survey: SURVEY });
  await until(() => here.standing.standing.some(({ kind }) => kind === 'placement'));
  expect(walk.line?.id).toBe(first.id);

  await there.add([lay(first.id, 1)], { survey: SURVEY });
  await until(() => walk.lays.length === 1);
  walk.goTo(row);
  const reading = walk.lay?.id;
  await there.add([lay(first.id, 2)], { survey: SURVEY });
  await until(() => walk.lays.length === 2);
  expect(walk.lay?.id).toBe(reading);
  walk.chooseLine(second.id);
  expect(walk.line?.id).toBe(second.id);
});

/** Two tablets on one line of three stations, the first of which is read on both screens. Invented. */
async function twoOnALine(laid: boolean) {
  const machine = new Machine();
  const here = machine.tab().store();
  await here.ready;
  await here.add([hullDraft('Reed Bunting (invented)'), line(100)]);
  const stations = [0, 300, 600].map((mm) => ({ mm, text: `${mm} mm` }));
  await here.add([draftOf('survey', { workUnit: 'mm', measured: 'hand', stations })], {
    survey: SURVEY,
  });
  const lay = draftOf(
    'placement',
    {
      line: here.hull.lines[0].id,
      name: '1',
      repeat: 1,
      held: 'resting',
      aftEnd: { mm: 0, text: '0 mm' },
    },
    { ref: 'lay' },
  );
  if (laid) await here.add([lay], { survey: SURVEY });
  const there = machine.tab('Tablet 2').store();
  await there.ready;
  const device = new Device(undefined, (count) => new Uint8Array(count));
  const walk = new LineWalk(here, SURVEY, device);
  const meanwhile = async (kind: 'reading' | 'void', mm: number): Promise<void> => {
    const placement = walk.lay?.id ?? 'lay';
    const station = { mm, text: `${mm} mm` };
    const act =
      kind === 'void'
        ? draftOf('void', { placement, station, reason: 'strake' })
        : draftOf('reading', {
            placement,
            station,
            gap: { mm: 1, text: '1 mm' },
            unit: 'mm',
            look: 1,
          });
    await there.add(walk.lay === undefined ? [lay, act] : [act], { survey: SURVEY });
    await until(() => walk.rows.some((row) => row.station.mm === mm && row.state !== 'empty'));
  };
  const row = (mm: number) => {
    const found = walk.rows.find(({ station }) => station.mm === mm);
    if (found === undefined) throw new Error(`no station ${mm}`);
    return found;
  };
  const gaps = (mm: number) => row(mm).looks.map(({ reading }) => reading.gap.mm);
  return { here, walk, meanwhile, row, gaps };
}

test('a figure half typed is kept beside one that is read at its station meanwhile, and both are asked about', async () => {
  const { walk, meanwhile, row, gaps } = await twoOnALine(true);
  walk.goTo(row(300));
  walk.type(row(300), '2');
  await meanwhile('reading', 300);
  expect(walk.saidMeanwhile(row(300))).toBe(true);
  expect(walk.text(row(300))).toBe('2');
  walk.type(row(300), '2.5');
  walk.saveAndGo(row(300), 1);
  expect(gaps(300).toSorted()).toEqual([1, 2.5]);
  expect(walk.doubts.twice.map(({ station }) => station)).toEqual(['300 mm']);
  expect(walk.cursor).toBe(row(600).key);
  expect(walk.open(row(300))).toBe(false);
});

test('a cell that was empty when the cursor came to it takes a figure, though one is read there before the first digit', async () => {
  const { walk, meanwhile, row, gaps } = await twoOnALine(true);
  walk.goTo(row(300));
  await meanwhile('reading', 300);
  walk.type(row(300), '4');
  walk.saveAndGo(row(300), 1);
  expect(gaps(300).toSorted()).toEqual([1, 4]);
  walk.goTo(row(300));
  expect(walk.open(row(300))).toBe(false);
});

test('a void strikes no reading that came after the cursor', async () => {
  const { here, walk, meanwhile, row, gaps } = await twoOnALine(true);
  walk.goTo(row(300));
  await meanwhile('reading', 300);
  walk.void(row(300), 'through-hull');
  expect(gaps(300)).toEqual([1]);
  expect(here.disagreements.map(({ about }) => about).join()).toMatch(/void and read/);
  walk.goTo(row(300));
  walk.void(row(300), 'through-hull');
  expect(gaps(300)).toEqual([]);
});

test('a figure half typed stays in its cell where somebody else states the laying under it', async () => {
  const { walk, meanwhile, row, gaps } = await twoOnALine(false);
  expect(walk.lay).toBeUndefined();
  walk.goTo(row(0));
  walk.type(row(0), '1');
  await meanwhile('reading', 0);
  expect(walk.lay).toBeDefined();
  expect(walk.text(row(0))).toBe('1');
  walk.type(row(0), '12');
  walk.saveAndGo(row(0), 1);
  expect(gaps(0).toSorted()).toEqual([1, 12]);
  expect(walk.text(row(0))).toBe('');
});

test('a fix that is left is as it was, and opens nothing when the cursor comes again', async () => {
  const { walk, meanwhile, row } = await twoOnALine(true);
  await meanwhile('reading', 300);
  walk.goTo(row(300));
  walk.fix(row(300));
  expect(walk.text(row(300))).not.toBe('');
  walk.goTo(row(600));
  walk.goTo(row(300));
  expect(walk.open(row(300))).toBe(false);
  expect(walk.text(row(300))).toBe('');
});
