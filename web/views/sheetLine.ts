import type { StationWork } from '../../src/fairing/plan/plan.ts';
import { showWorkDepth } from '../../src/fairing/workStep.ts';
import { verdictWord } from '../../src/survey/verdictWords.ts';
import { showLine, showPlace, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { Placement } from '../../src/survey/survey.ts';
import { SAME_STATION } from '../../src/survey/usable.ts';
import { inColumn } from './readingText.ts';
import { depthWords, meetsTransom, nameOf, stationWords, type Planned } from './sheetFirst.ts';
import { laidWords } from './sheetLaid.ts';

/** A row of a worked line's table. Every figure is unsigned; a row without figures says why. */
export type SheetRow =
  | {
      readonly is: 'work';
      readonly station: string;
      readonly reading: string;
      /** Empty where nothing is filled, or ground, there. */
      readonly fill: string;
      readonly grind: string;
    }
  | {
      readonly is: 'words';
      readonly station: string;
      readonly reading: string;
      readonly words: string;
    };

/** Everything the sheet says of one line that is worked. */
export interface SheetLine {
  readonly key: string;
  readonly name: string;
  /** "PORT, 18 in from the KEEL". */
  readonly where: string;
  readonly work: readonly string[];
  /** How it was laid and read. */
  readonly laid: readonly string[];
  readonly rows: readonly SheetRow[];
  readonly after: string;
}

/** One worked line in words and rows. `tolerance`: mm. */
export function sheetLine(plan: Planned, unit: WorkUnit, tolerance: number): SheetLine {
  const used = plan.line.placements.filter(({ readings }) => readings.length > 0);
  return {
    key: `${plan.line.id}/${plan.part}`,
    name: nameOf(plan),
    where: whereWords(plan, unit),
    work: workWords(plan, unit),
    laid: [...new Set(used.map((placement) => laidWords(placement, unit)))],
    rows: plan.stations.map((station) => rowOf(station, used, unit)),
    after: afterWords(plan, unit, tolerance),
  };
}

export function whereWords({ line }: Pick<Planned, 'line'>, unit: WorkUnit): string {
  return showLine(line.side, line.offset, unit)
    .replace(/^\w+/, (side) => side.toUpperCase())
    .replace('keel', 'KEEL');
}

function workWords(plan: Planned, unit: WorkUnit): readonly string[] {
  const stretch = (from: number, to: number, atTransom: boolean) =>
    `${atTransom ? 'TRANSOM' : showPlace(from, unit)} to ${showPlace(to, unit)}`;
  const said: string[] = [];
  for (const [verb, patches] of [
    ['Fill', plan.fill],
    ['Grind', plan.grind],
  ] as const) {
    for (const patch of patches) {
      const atTransom = meetsTransom(patch);
      said.push(
        `${verb} ${stretch(patch.from, patch.to, atTransom)}, deepest ${depthWords(patch.deepest.depth, unit)} at ${stationWords(plan, patch.deepest.at, unit)}.`,
      );
      if (patch.aft === 'carried aft to the transom') {
        said.push('The first station’s figure is carried straight aft to the TRANSOM.');
      }
      if (patch.dam && atTransom) {
        said.push(
          'Deep at the TRANSOM: dam it, do not feather it out there; keep the trailing edge sharp.',
        );
      } else if (patch.dam) {
        said.push(
          `It ends where the readings end, at ${showPlace(patch.from, unit)}: settle how it goes on aft before starting.`,
        );
      }
    }
  }
  for (const { station, fill } of plan.laminateFirst ?? []) {
    said.push(
      `At ${stationWords(plan, station, unit)} ${depthWords(fill, unit)} is over the fill limit: laminate first.`,
    );
  }
  const { camber } = plan.target;
  if (camber !== undefined) {
    said.push(
      `The target is ${camber.shape} by ${showTolerance(camber.height, unit)} at its middle, as stated; it is not straight.`,
    );
  }
  if (plan.after.rounding.breaks && plan.after.rounding.words !== undefined) {
    said.push(plan.after.rounding.words);
  }
  return [...said, ...plan.carryOver.map(({ words }) => words)];
}

function rowOf(work: StationWork, used: readonly Placement[], unit: WorkUnit): SheetRow {
  const station = inColumn({ mm: work.station, text: work.text }, unit);
  const reading = readingsAt(work.station, used, unit);
  switch (work.is) {
    case 'worked': {
      const depth = (d: typeof work.fill) => (d.rounded === 0 ? '' : showWorkDepth(d, unit));
      const [fill, grind] = [depth(work.fill), depth(work.grind)];
      return fill === '' && grind === ''
        ? { is: 'words', station, reading, words: 'leave' }
        : { is: 'work', station, reading, fill, grind };
    }
    case 'left alone':
      return { is: 'words', station, reading, words: 'leave' };
    case 'not judged':
      return { is: 'words', station, reading, words: 'beyond the straight run: leave' };
    case 'void':
    case 'put off':
      return { is: 'words', station, reading, words: `${work.is}: ${work.reason}`.toUpperCase() };
    case 'unread':
      return { is: 'words', station, reading, words: 'NOT READ' };
  }
}

function afterWords({ after }: Planned, unit: WorkUnit, tolerance: number): string {
  const { verdict, rounding } = after;
  const word = verdictWord({ verdict }).toLowerCase();
  const left = rounding.departure.rounded;
  const deep = showTolerance(Math.ceil(left * 20) / 20, unit === 'in' ? 'mm' : unit);
  const size =
    unit === 'in'
      ? left <= tolerance
        ? 'within the tolerance'
        : 'over the tolerance'
      : `about ${deep} at most`;
  return verdict.includes('undecided')
    ? `Done to these figures the line should come out ${size}; that it is fair is not proven by what was measured so far: the check after the work has to show it.`
    : `Done to these figures the line should come out ${word}, ${size}. Measured again, it may not: check.`;
}

/** Readings as read, in turn, each with its unit only where that is not the column's. */
export function readingsAt(station: number, used: readonly Placement[], unit: WorkUnit): string {
  return used
    .flatMap((placement) => placement.readings)
    .filter((reading) => Math.abs(reading.station.mm - station) < SAME_STATION / 2)
    .map((reading) => inColumn(reading.gap, unit))
    .join(', ');
}
