import type { BoatFile } from '../running/file/readBoat.ts';
import { showForce, showPower } from '../running/forceUnits.ts';
import { showMass } from '../running/massUnits.ts';
import { showPlaceFigure } from '../running/showFigure.ts';
import { showSpeed } from '../running/speedUnits.ts';
import { statesOf } from '../running/weights/ledger.ts';
import { loadOf, type Figure } from '../running/weights/loads.ts';
import type { Equilibrium } from '../running/planing/equilibrium.ts';
import type { CaseAtSpeed, WhatIf } from '../running/whatIf/whatIf.ts';
import { beginsWords, caseTitle, whatIfWords } from '../running/whatIf/whatIfWords.ts';
import { showAngle } from '../survey/figures.ts';
import { showLength } from '../survey/units.ts';
import { capital } from '../survey/sentence.ts';
import { layOut } from './layOut.ts';

/** What `aftrun running` prints for people: loads, trim against speed by case, and the reading in words. */
export function runningText(file: BoatFile, found: WhatIf): string {
  const { name, boat, units } = file;
  const place = (figure: Figure) => showPlaceFigure(figure, units.length);
  const loads = statesOf(boat.items).map((state) => {
    const load = loadOf(boat.items, state);
    if (!load.ok) return [capital(state), load.reason, '', ''];
    const { displacement, lcg, vcg } = load;
    return [
      capital(state),
      showMass(displacement.value, units.mass, displacement.u),
      place(lcg),
      vcg ? place(vcg) : 'not known',
    ];
  });
  const rows = found.cases[0].curve.map(({ speed }, i) => [
    showSpeed(speed, units.speed),
    ...found.cases.map(({ curve }) => showCase(curve[i])),
    showLimit(found.cases[0].curve[i]),
  ]);
  return `${[
    ...(name === undefined ? [] : [name, '']),
    layOut([['Load', 'weighs', 'LCG forward of the transom', 'VCG above the keel'], ...loads]),
    '',
    ...(boat.tail
      ? [
          `Tail of the bottom: ${showAngle(boat.tail.angle, boat.tail.u)}, positive turned down.`,
          '',
        ]
      : []),
    ...(boat.thrust
      ? []
      : ['Thrust: taken through the centre of gravity, parallel to the keel (house default).', '']),
    'Trim against the water; s stable, n near the limit, b beyond it, ? limit not told',
    layOut([
      ['Speed', ...found.cases.map((one) => caseTitle(one.name)), 'Limit as now'],
      ...rows,
      ['Porpoises', ...found.cases.map((one) => beginsWords(one.begins, units.speed)), ''],
    ]),
    ...notToldWords(found),
    ...remarksOn(found),
    ...ridesAt(file, found),
    '',
    ...whatIfWords(found, units),
    '',
    CAUTION,
  ].join('\n')}\n`;
}

const CAUTION =
  'On trial: calm water, all seated, kill-cord on, speed in steps. Local codes and licensed practice come first.';

const LETTERS = { stable: 's', 'near the limit': 'n', 'beyond it': 'b', 'not told': '?' } as const;

function showCase({ runs, stability }: CaseAtSpeed): string {
  return runs.ok ? `${runs.trim.toFixed(1)}° ${LETTERS[stability]}` : '–';
}

function showLimit({ limit }: CaseAtSpeed): string {
  return limit.ok ? `${limit.low.toFixed(1)}° to ${limit.high.toFixed(1)}°` : '–';
}

/** How the boat rides at the speed that is spoken of, by case; nothing where no case can be told there. */
function ridesAt({ units }: BoatFile, { at, cases }: WhatIf): readonly string[] {
  const rides = cases.map(({ curve }) => {
    const found = curve.find(({ speed }) => speed === at);
    return found?.runs.ok === true ? found.runs : undefined;
  });
  if (rides.every((ride) => ride === undefined)) return [];
  const row = (what: string, show: (ride: Equilibrium) => string) => [
    what,
    ...rides.map((ride) => (ride === undefined ? '–' : show(ride))),
  ];
  // To the inch or the centimetre: the method is no better.
  const length = (mm: number) =>
    units.length === 'in'
      ? `${showLength(mm, { unit: 'in', decimals: 0 })} in`
      : `${(Math.round(mm / 10) * 10).toFixed(0)} mm`;
  return [
    '',
    layOut([
      [`At ${showSpeed(at, units.speed)}`, ...cases.map(({ name }) => caseTitle(name))],
      row('Wetted, keel', ({ wetted }) => (wetted.ok ? length(wetted.keel) : '–')),
      row('Wetted, chine', ({ wetted }) => (wetted.ok ? length(wetted.chine) : '–')),
      row('Mean wetted length in beams', ({ lambda }) => lambda.toFixed(1)),
      row('Draft of the keel', ({ wetted }) => (wetted.ok ? length(wetted.draft) : '–')),
      row('Drag of the hull', ({ drag }) => showForce(drag, units.mass)),
      row('Power for that', ({ power }) => showPower(power, units.mass)),
    ]),
  ];
}

/** Each reason once, with the cases it befell. */
function notToldWords({ cases }: WhatIf): readonly string[] {
  const reasons = new Set(
    cases.flatMap(({ curve }) =>
      curve.flatMap(({ runs, limit }) =>
        runs.ok ? (limit.ok ? [] : [limit.reason]) : [runs.reason],
      ),
    ),
  );
  return reasons.size === 0 ? [] : ['', `Not told where: ${[...reasons].join('; ')}.`];
}

/** What was assumed so that anything could be told. */
function remarksOn({ cases: [now] }: WhatIf): readonly string[] {
  return [
    ...(now.load.vcg
      ? []
      : ['Height of the centre of gravity not known: every force is taken through it.']),
    ...(now.curve.some(({ runs }) => runs.ok && runs.flapRestated)
      ? [
          'The tail is longer than a tenth of the wetted length: reckoned as a shorter, steeper flap of the same lift.',
        ]
      : []),
  ];
}
