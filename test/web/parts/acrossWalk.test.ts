import { expect, test } from 'vitest';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { AcrossWalk } from '../../../web/parts/acrossWalk.svelte.ts';
import { Device } from '../../../web/store/device.svelte.ts';
import { hullDraft, Machine, SURVEY, until } from '../store/around.ts';

const line = (mm: number) =>
  draftOf('line', { name: `P${mm}mm`, side: 'port', offset: { mm, text: `${mm} mm` } });
const across = (mm: number, lines: readonly { readonly id: string }[]) =>
  draftOf('placement across', {
    side: 'port',
    direction: 'athwart',
    crosses: lines.map(({ id }) => ({ line: id, station: { mm, text: `${mm} mm` } })),
    name: '1',
    repeat: 1,
    held: 'resting',
  });

test('what somebody else lays across meanwhile does not come under the table where this one reads', async () => {
  const machine = new Machine();
  const here = machine.tab().store();
  await here.ready;
  await here.add([hullDraft('Reed Bunting (invented)'), line(100), line(200)]);
  const survey = draftOf('survey', { workUnit: 'mm', measured: 'hand', stations: [] });
  await here.add([survey, across(300, here.hull.lines)], { survey: SURVEY });
  const there = machine.tab('Tablet 2').store();
  await there.ready;
  const walk = new AcrossWalk(here, SURVEY, new Device(undefined, (n) => new Uint8Array(n)));
  const first = walk.lay?.id;
  expect(first).toBeDefined();
  walk.goTo(walk.rows[0]);
  // One after another, so that the other tablet's clock passes this one's.
  const others = [1, 2, 3, 4, 5, 6, 7, 8].map((k) => across(300 + 100 * k, here.hull.lines));
  for (const other of others) await there.add([other], { survey: SURVEY });
  await until(() => walk.choices.length === 1 + others.length);
  expect(walk.lay?.id).toBe(first);
});
