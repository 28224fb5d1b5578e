import type { Entry } from '../../../src/book/entry.ts';
import { SPEED_UNITS } from '../../../src/running/speedUnits.ts';

export const SCENARIO_SURVEY = 's6s7s8s9sas1';
const HULL = 'h0h1h2h3h4h5';

const inch = (size: number) => ({ mm: size * 25.4, text: `${size} in` });
const knots = (size: number) => ({ mps: size * SPEED_UNITS.kn, text: `${size} kn` });

/** An invented boat on the phone: trim ruled out, pockets measured, one change tried on the water, one run struck. */
export function outcomeScenario(): readonly Entry[] {
  const place = (at: number, survey: string) =>
    `${HULL}:${survey}:01k9z4e${String(at).padStart(3, '0')}0000000000000000`;
  const signed = {
    v: 1,
    at: '2026-06-02T15:00:00Z',
    by: 'Jo (invented)',
    device: 'tablet 1',
    app: '0.6.0',
  } as const;
  const said: readonly (readonly [kind: string, body: object])[] = [
    [
      'complaint',
      {
        does: ['porpoises'],
        changed: ['engines', 'batteries'],
        from: knots(28),
        upTo: knots(35),
        driveTrim: 'half out',
        changedHow: 'heavier engines on a bracket, batteries aft',
        said: 'fine until last spring',
      },
    ],
    [
      'cause',
      {
        cause: 'drive trim',
        found: 'ruled out',
        by: 'Kim (invented)',
        date: '2026-06-01',
        how: 'All the way in: the same.',
        pin: 'innermost hole',
      },
    ],
    [
      'cause',
      {
        cause: 'tab pockets',
        found: 'contributes',
        how: 'Slow to plane with full tanks, better with the stern light.',
        pocket: {
          count: 2,
          length: inch(12),
          width: inch(18),
          depth: inch(2.5),
          below: inch(4),
          vented: 'not vented',
        },
      },
    ],
    [
      'cause',
      {
        cause: 'engine height',
        found: 'ruled out',
        engine: { setback: inch(24), plate: inch(2.5) },
      },
    ],
    [
      'sea trial',
      {
        trial: 'as it came',
        speed: knots(24),
        saw: 'steady',
        revs: 3400,
        tabs: 'up',
        load: 'two aboard, half fuel',
        sea: 'rippled',
      },
    ],
    [
      'sea trial',
      {
        trial: 'as it came',
        speed: knots(28),
        saw: 'begins',
        revs: 3800,
        tabs: 'up',
        load: 'two aboard, half fuel',
        sea: 'rippled',
      },
    ],
    ['sea trial', { trial: 'as it came', speed: knots(82), saw: 'begins' }],
    [
      'trial pair',
      {
        before: 'as it came',
        after: '200 lb in the bow locker',
        change: '200 lb in the bow locker',
      },
    ],
    [
      'sea trial',
      {
        trial: '200 lb in the bow locker',
        speed: knots(34),
        saw: 'begins',
        revs: 4300,
        tabs: 'up',
        load: 'two aboard, half fuel',
        sea: 'rippled',
      },
    ],
  ];
  const entries = said.map(([kind, body], at): Entry => ({
    _id: place(at, SCENARIO_SURVEY),
    kind,
    ...signed,
    body,
  }));
  const wrong = entries.find(({ body }) => JSON.stringify(body).includes('82 kn'));
  if (wrong === undefined) throw new Error('no run to strike');
  return [
    ...entries,
    {
      _id: place(900, '0'),
      kind: 'strike',
      ...signed,
      strikes: [{ entry: wrong._id }],
      why: '82 for 28',
      body: { act: 'strike' },
    },
  ];
}
