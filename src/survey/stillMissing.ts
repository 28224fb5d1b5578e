import { CONDITION } from './kinds/condition.ts';
import type { Line, PlacementAcross, Survey, Typed } from './survey.ts';

/** Something that cannot be had once the boat has rolled out. */
export interface Missing {
  /** A condition's name, `support`, `engine`, `support checked` or `station put off`. */
  readonly about: string;
  /** What to ask, or what is left to do. */
  readonly ask: string;
}

const ASKED: readonly (readonly [string, string])[] = [
  [CONDITION.hauled, 'When was it hauled?'],
  [CONDITION.daysAfloat, 'How many days was it afloat before?'],
  [CONDITION.lastSupport, 'What did it stand on for long before this?'],
  [CONDITION.bunksEnd, 'How far forward of the transom did those bunks end?'],
  [CONDITION.surface, 'What is the surface at the stations: bare, thin paint, built-up, scraped?'],
  [CONDITION.tabs, 'Which tabs and pockets are there, and how were the tabs set?'],
  [CONDITION.sun, 'Was the sun on the bottom?'],
  [CONDITION.temperature, 'How warm was it?'],
];

/** The list before rolling out: conditions that nobody has stated, and stations put off that have been neither read
 *  nor found void since, on any placement of their line. It holds back the printed sheet, never a reading. */
export function stillMissing(survey: Survey): readonly Missing[] {
  const missing: Missing[] = [];
  if (survey.support.length === 0) {
    missing.push({ about: 'support', ask: 'What stands where under the hull?' });
  } else {
    if (survey.support.some(({ engine }) => engine === undefined)) {
      missing.push({ about: 'engine', ask: 'Was the engine hanging, held or off?' });
    }
    if (survey.support.some(({ checkedBy }) => checkedBy === undefined)) {
      missing.push({ about: 'support checked', ask: 'Who checked the supports?' });
    }
  }
  if (survey.transomRadius === undefined) {
    const ask = 'What is the radius of the transom edge? 0 if it is sharp.';
    missing.push({ about: CONDITION.transomRadius, ask });
  }
  // A file may write its keys with capitals.
  const said = new Set(
    Object.entries(survey.conditions)
      .filter(([, text]) => text.trim() !== '')
      .map(([about]) => about.trim().toLowerCase()),
  );
  for (const [about, ask] of ASKED) {
    if (!said.has(about)) missing.push({ about, ask });
  }
  const { lines, across = [] } = survey;
  return [
    ...missing,
    ...lines.flatMap(putOff),
    ...across.flatMap((placement) => putOffAcross(placement, lines)),
  ];
}

function putOff(line: Line): readonly Missing[] {
  const done = new Set(
    line.placements
      .flatMap(({ readings, voids }) => [...readings, ...voids])
      .map(({ station }) => placeOf(station.mm)),
  );
  return line.placements
    .flatMap(({ later }) => later)
    .filter(({ station }) => !done.has(placeOf(station.mm)))
    .map(({ station, reason }) => ({
      about: 'station put off',
      ask: `${line.name}, station ${station.text}: put off (${reason}).`,
    }));
}

/** Lines that a straightedge laid across has not been read on, nor found void, since they were put off. */
function putOffAcross(
  { side, direction, readings, voids, later }: PlacementAcross,
  lines: readonly Line[],
): readonly Missing[] {
  const key = (act: { readonly line: string; readonly station: Typed }) =>
    `${act.line} ${placeOf(act.station.mm)}`;
  const done = new Set([...readings, ...voids].map(key));
  return later
    .filter((act) => !done.has(key(act)))
    .map(({ line, station, reason }) => {
      const name = lines.find(({ id }) => id === line)?.name ?? line;
      return {
        about: 'station put off',
        ask: `${name}, station ${station.text}, across ${side === 'both' ? 'the keel' : `to ${side}`}, ${direction}: put off (${reason}).`,
      };
    });
}

/** Micrometres: the same station typed in two units is one. */
function placeOf(mm: number): number {
  return Math.round(mm * 1000);
}
