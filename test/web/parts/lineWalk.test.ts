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
