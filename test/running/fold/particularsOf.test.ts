import { expect, test } from 'vitest';
import { hullFor, particularsOf } from '../../../src/running/fold/particularsOf.ts';
import { WATERS } from '../../../src/running/planing/water.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../../src/survey/kinds/kinds.ts';
import { entriesOf, mm } from '../../survey/fold/samples.ts';

const stated = (body: BodyOf<'running particulars'>) =>
  entriesOf([draftOf('running particulars', body)]);
const rise = (degrees: number) => ({ degrees, text: String(degrees) });
const facts = { beamAtChine: mm(2000), deadrise: rise(18) };

test('beam and deadrise come from the hull’s page until they are stated', () => {
  const own = particularsOf([], facts);
  expect([own.fromHull, hullFor(own)]).toEqual([
    ['beam', 'deadrise'],
    { beam: 2000, deadrise: 18 },
  ]);
  const known = particularsOf(stated({ beam: mm(1900) }), facts);
  expect([known.fromHull, hullFor(known)]).toEqual([['deadrise'], { beam: 1900, deadrise: 18 }]);
});

test('there is no hull to reckon with while one of the two is not known', () => {
  expect(hullFor(particularsOf(stated({ beam: mm(1900) })))).toBeUndefined();
});

test('a range stays a range, and the hull has its middle', () => {
  const deadrise = { degrees: { low: 16, high: 20 }, text: '16 to 20°' };
  const known = particularsOf(stated({ deadrise, beam: mm(1900), water: 'fresh' }));
  expect(known.deadrise).toEqual({ low: 16, high: 20 });
  expect(known.doubt).toEqual({ deadrise: { low: 16, high: 20 } });
  expect(known.water).toBe(WATERS.fresh);
  expect(hullFor(known)).toEqual({ beam: 1900, deadrise: 18 });
});

test('a propeller or tabs stated in part, and tabs wider than the beam, are told and not taken', () => {
  const beam = mm(1900);
  const part = particularsOf(stated({ beam, hubX: mm(-500), tabAngle: rise(5) }));
  expect([part.thrust, part.tabs, part.partly]).toEqual([
    undefined,
    undefined,
    ['propeller', 'tabs'],
  ]);
  const tabs = { tabChord: mm(225), tabAngle: rise(5) };
  expect(particularsOf(stated({ beam, ...tabs, tabWidth: mm(1901) })).partly).toEqual(['tabs']);
  expect(particularsOf(stated({ beam, ...tabs, tabWidth: mm(950) })).tabs).toEqual([
    { chord: 225, angle: 5, span: 0.5, aft: 225 },
  ]);
});

test('a propeller and tabs may be ranges: the middle is reckoned with, the range is kept', () => {
  const between = (low: number, high: number) => ({
    degrees: { low, high },
    text: `${low} to ${high}`,
  });
  const known = particularsOf(
    stated({
      beam: mm(1900),
      hubX: mm(-500),
      hubHeight: mm(-200),
      driveTrim: between(-2, 6),
      ...{ tabChord: mm(225), tabWidth: mm(950), tabAngle: between(3, 7) },
    }),
  );
  expect(known.thrust).toEqual({ x: -500, height: -200, angle: 2 });
  expect(known.tabs?.[0].angle).toBe(5);
  expect(known.doubt).toEqual({
    thrustAngle: { low: -2, high: 6 },
    tabAngle: { low: 3, high: 7 },
  });
});

test('two entries that say different things are a disagreement', () => {
  const drafts = [1900, 1950].map((size) => draftOf('running particulars', { beam: mm(size) }));
  const { disagreements, beam } = particularsOf(entriesOf(drafts));
  expect(disagreements).toHaveLength(1);
  expect(beam).toEqual({ value: 1950 });
});
