import { MASS_UNITS } from '../../src/running/massUnits.ts';
import { SPEED_UNITS } from '../../src/running/speedUnits.ts';
import { draftOf, type Draft } from '../../src/survey/kinds/draft.ts';

const inches = (size: number) => ({ mm: size * 25.4, text: `${size} in` });
const pounds = (size: number) => ({ kg: size * MASS_UNITS.lb, text: `${size} lb` });
const knots = (size: number) => ({ mps: size * SPEED_UNITS.kn, text: `${size} kn` });
const at = (x: number, height: number) => ({ x: inches(x), height: inches(height) });

/** The demo's weights: heavier engines further aft, and batteries moved to the transom. Invented. */
export function demoWeights(): readonly Draft[] {
  return [
    draftOf('weight item', {
      name: 'boat as built, with half fuel and two people',
      act: 'aboard',
      mass: {
        kg: { low: 5100 * MASS_UNITS.lb, high: 5300 * MASS_UNITS.lb },
        text: '5100 to 5300 lb',
      },
      at: {
        x: { mm: { low: 83 * 25.4, high: 85 * 25.4 }, text: '83 to 85 in' },
        height: { mm: { low: 24 * 25.4, high: 30 * 25.4 }, text: '24 to 30 in' },
      },
    }),
    draftOf('weight item', {
      name: 'two old engines',
      act: 'removed',
      since: 'as now',
      mass: pounds(820),
      from: at(-8, 30),
    }),
    draftOf('weight item', {
      name: 'two new engines with bracket',
      act: 'added',
      since: 'as now',
      mass: pounds(1130),
      to: at(-26, 30),
    }),
    draftOf('weight item', {
      name: 'batteries',
      act: 'moved',
      since: 'as now',
      mass: pounds(130),
      from: at(110, 20),
      to: at(10, 20),
    }),
    draftOf('weight item', {
      name: 'sandbags in the bow locker',
      act: 'added',
      since: 'as proposed',
      mass: pounds(200),
      to: at(200, 24),
    }),
    draftOf('running particulars', {
      beam: inches(90),
      deadrise: { degrees: { low: 18, high: 20 }, text: '18 to 20°' },
      water: 'sea',
      slowest: knots(18),
      fastest: knots(40),
      at: knots(26),
    }),
  ];
}
