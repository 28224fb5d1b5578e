import { fairingTarget, type FairingTarget, type StationTarget } from '../../src/fairing/target.ts';
import { showWorkDepth, type WorkDepth } from '../../src/fairing/workStep.ts';
import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { measuredParts, showLine, showPlace, type WorkUnit } from '../../src/survey/figures.ts';
import type { Placement, Typed } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';
import { SAME_STATION } from '../../src/survey/usable.ts';
import { lineWords, type LineWords } from '../../src/survey/verdictWords.ts';
import { inColumn, withUnit } from './readingText.ts';
import { laidWords } from './sheetLaid.ts';
import type { SheetChoices } from './sheetChoices.ts';

/** A row of a line's table. Every figure is unsigned; a row without figures says why. */
export type SheetRow =
  | {
      readonly is: 'figures';
      readonly station: string;
      readonly reading: string;
      readonly departure: string;
      readonly fill: string;
      /** `none`: why there is no figure. */
      readonly grind: { readonly is: 'depth' | 'none'; readonly text: string };
    }
  | { readonly is: 'not judged'; readonly station: string; readonly reading: string }
  | { readonly is: 'words'; readonly station: string; readonly words: string };

/** Everything the sheet says of one line. */
export interface SheetLine {
  readonly key: string;
  readonly name: string;
  /** "PORT, 18 in from the KEEL". */
  readonly where: string;
  readonly words: LineWords;
  /** What is to be done along it, in a sentence or two. */
  readonly work: readonly string[];
  /** Whether fill and grind are to be worked to; those of a fair or an undecided line only stand for the record. */
  readonly toWork: boolean;
  /** How it was laid and read. */
  readonly laid: readonly string[];
  readonly rows: readonly SheetRow[];
  /** Stations that were to be read and were not, void ones and those put off, in words; empty where there are none. */
  readonly notRead: readonly string[];
  readonly remarks: readonly string[];
  /** What the first page says: the deepest fill and grind with their stations, or why there is nothing to do. */
  readonly first: { readonly fill: string; readonly grind: string };
}

export interface LineDone {
  readonly line: LineAssessment;
  readonly target: FairingTarget;
  readonly sheet: SheetLine;
}

export function sheetLine(
  line: LineAssessment,
  all: SurveyAssessment,
  planned: readonly Typed[],
  choices: SheetChoices,
  unit: WorkUnit,
): LineDone {
  const target = fairingTarget(line, {
    reference: choices.reference,
    ...(choices.grindLimit !== undefined && { grindLimit: choices.grindLimit }),
    unit,
    tolerance: all.tolerance.gap,
    planned,
  });
  const used = placementsIn(line);
  const words = lineWords(line, all, unit);
  const part = line.parts > 1 ? `, part ${line.part} of ${line.parts}` : '';
  const sheet: SheetLine = {
    key: `${line.line.id}/${line.part}`,
    name: line.line.name + part,
    where: showLine(line.line.side, line.line.offset, unit)
      .replace(/^\w+/, (side) => side.toUpperCase())
      .replace('keel', 'KEEL'),
    words,
    work: workOn(line, target, unit),
    toWork:
      line.outcome.ok &&
      line.outcome.judgement.verdict.some((word) => word === 'hook' || word === 'rocker'),
    laid: used.map((placement) => laidWords(placement, unit)).filter(isFirst),
    rows: target.stations.map((station) => rowOf(station, used, unit)),
    notRead: target.stations.flatMap((station) => notReadWords(station, unit)),
    remarks: all.remarks
      .filter((remark) => remark.about !== 'survey' && remark.line === line.line.name)
      .map((remark) => remark.words),
    first: firstPageWords(line, target, unit),
  };
  return { line, target, sheet };
}

function workOn(line: LineAssessment, target: FairingTarget, unit: WorkUnit): string[] {
  if (!line.outcome.ok || !target.ok) return ['No figures: too few readings. Measure first.'];
  const { verdict } = line.outcome.judgement;
  if (verdict.includes('fair')) {
    return [
      'Nothing to do: proven fair. The figures lie within tolerance and stand for the record.',
    ];
  }
  if (verdict.includes('undecided')) {
    return [
      'UNDECIDED, which is not fair: measure as told below before anything is filled or ground. The figures are not proven.',
    ];
  }
  const figured = target.stations.flatMap((s) => (s.is === 'figured' ? [s] : []));
  const [first, last] = [figured[0], figured[figured.length - 1]];
  if (first === undefined || last === undefined) return [];
  const said = ['Work to the figures, station by station, and feather out past the hollow.'];
  const depth = (s: typeof first) => `${showWorkDepth(s.figure.fill, unit)} ${unit}`;
  if (first.figure.fill.rounded > 0) {
    said.push(
      `At the TRANSOM end the fill is ${depth(first)}: dam it, do not feather it out; keep the trailing edge sharp.`,
    );
  }
  if (last.figure.fill.rounded > 0) {
    said.push(
      `At the forward end (${showPlace(last.station, unit)}) the line still asks for ${depth(last)}: nothing was judged ahead of it. Settle how the fill meets the hull there before starting.`,
    );
  }
  const high = figured.filter(({ figure }) => figure.departure.way === 'proud');
  if (high.some(({ figure }) => figure.grind.is === 'not without a stated limit')) {
    said.push('High spots stand proud of this line and no grind limit is stated: grind nothing.');
  }
  const over = high.filter(({ figure }) => figure.grind.is === 'over the limit');
  if (over.length > 0) {
    const at = over.map((s) => stationWithUnit(s, unit)).join(', ');
    said.push(
      `At ${at} more would have to come off than the grind limit allows: fill the rest instead (touching the high spots), or settle another limit.`,
    );
  }
  return said;
}

function rowOf(target: StationTarget, used: readonly Placement[], unit: WorkUnit): SheetRow {
  const station = stationText(target, unit);
  const reading = readingsAt(target.station, used, unit);
  switch (target.is) {
    case 'figured': {
      const { departure, fill, grind } = target.figure;
      return {
        is: 'figures',
        station,
        reading,
        departure: departureText(departure, unit),
        fill: showWorkDepth(fill, unit),
        grind:
          grind.is === 'depth'
            ? { is: 'depth', text: showWorkDepth(grind.depth, unit) }
            : { is: 'none', text: grind.is },
      };
    }
    case 'not judged':
      return { is: 'not judged', station, reading };
    case 'void':
    case 'put off':
      return { is: 'words', station, words: `${target.is}: ${target.reason}` };
    case 'unread':
      return { is: 'words', station, words: 'not read' };
  }
}

function notReadWords(target: StationTarget, unit: WorkUnit): string[] {
  const at = stationWithUnit(target, unit);
  if (target.is === 'unread') return [`${at}: not read`];
  if (target.is === 'void' || target.is === 'put off') {
    return [`${at}: ${target.is} (${target.reason})`];
  }
  return [];
}

function departureText(
  { size, u, way }: { size: number; u?: number; way: 'hollow' | 'proud' },
  unit: WorkUnit,
): string {
  if (u === undefined) {
    const fine = unit === 'mm' ? { unit, decimals: 1 } : { unit, denominator: 32 };
    const text = showLength(size, fine);
    return Number(text) === 0 ? text : `${text} ${way}`;
  }
  // Finer than a tenth of a mm nothing is worked to.
  const parts = measuredParts(size, unit === 'mm' ? Math.max(u, 0.05) : u, unit);
  const zero = Number(parts.size) === 0;
  return `${parts.size}${zero ? '' : ` ${way}`} ± ${parts.spread}`;
}

function firstPageWords(line: LineAssessment, target: FairingTarget, unit: WorkUnit) {
  const same = (words: string) => ({ fill: words, grind: words });
  if (!line.outcome.ok || !target.ok) return same('no figure');
  const { verdict } = line.outcome.judgement;
  if (verdict.includes('fair')) return same('nothing to do');
  if (verdict.includes('undecided')) return same('measure first');
  return deepestOf(target.stations, unit) ?? same('no figure');
}

function deepestOf(stations: readonly StationTarget[], unit: WorkUnit) {
  const figured = stations.flatMap((s) => (s.is === 'figured' ? [s] : []));
  const most = (of: (s: (typeof figured)[number]) => WorkDepth | undefined) => {
    const best = figured.reduce<{ at: string; depth: WorkDepth } | undefined>((found, s) => {
      const depth = of(s);
      if (depth === undefined || (found && found.depth.exact >= depth.exact)) return found;
      return { at: stationWithUnit(s, unit), depth };
    }, undefined);
    if (best === undefined) return undefined;
    if (best.depth.rounded === 0) return 'none';
    return `${showWorkDepth(best.depth, unit)} ${unit} at ${best.at}`;
  };
  const fill = most((s) => s.figure.fill);
  if (fill === undefined) return undefined;
  const none = figured.map((s) => s.figure.grind.is).find((is) => is !== 'depth');
  const grind = most((s) => (s.figure.grind.is === 'depth' ? s.figure.grind.depth : undefined));
  return { fill, grind: none ?? grind ?? 'none' };
}

function stationText({ station, text }: StationTarget, unit: WorkUnit): string {
  return inColumn({ mm: station, text }, unit);
}

function stationWithUnit({ station, text }: StationTarget, unit: WorkUnit): string {
  return withUnit({ mm: station, text }, unit);
}

/** Readings as read, in turn, each with its unit only where that is not the column's. */
function readingsAt(station: number, used: readonly Placement[], unit: WorkUnit): string {
  return used
    .flatMap((placement) => placement.readings)
    .filter((reading) => Math.abs(reading.station.mm - station) < SAME_STATION / 2)
    .map((reading) => inColumn(reading.gap, unit))
    .join(', ');
}

function placementsIn({ line, points }: LineAssessment): readonly Placement[] {
  const ids = new Set(points.map((point) => point.placement));
  return line.placements.filter(({ id }) => ids.has(id));
}

function isFirst(words: string, at: number, all: readonly string[]): boolean {
  return all.indexOf(words) === at;
}
