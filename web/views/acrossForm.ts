import type { HullFeature } from '../../src/survey/fold/hullOf.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { WantedAcross } from '../../src/survey/panels/tiePlan.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { listed } from '../../src/survey/sentence.ts';
import type { AcrossSide, Direction, Typed } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';
import { linesOfSide, placeOf } from './acrossLines.ts';
import { inColumn, inWorkUnit } from './readingText.ts';
import type { AcrossBody, AcrossWhere } from './acrossView.ts';

/** Where the edge is to lie across, as typed. */
export interface AcrossAnswers {
  readonly side: AcrossSide;
  readonly direction: Direction;
  /** Its station; on the diagonal that on the innermost of its lines, right across the keel on the outermost to port. */
  readonly inner: string;
  /** On the diagonal, its station on the outermost. */
  readonly outer: string;
  /** Ids of lines that it does not cross. */
  readonly without: readonly string[];
}

export type AcrossRead =
  | { readonly ok: true; readonly where: AcrossWhere }
  | {
      readonly ok: false;
      readonly problems: Readonly<Partial<Record<'inner' | 'outer' | 'lines', string>>>;
    };

/** What the form starts from: the placement that is wanted next, over all lines; nothing typed where none is. */
export function acrossAnswers(
  side: AcrossAnswers['side'],
  wanted: WantedAcross | undefined,
  unit: 'mm' | 'in',
): AcrossAnswers {
  const text = (station: Typed | undefined) =>
    station === undefined ? '' : inColumn({ ...station, text: inWorkUnit(station, unit) }, unit);
  return {
    side,
    direction: wanted === undefined ? 'athwart' : wanted.direction,
    inner: text(wanted?.inner),
    outer: wanted?.direction === 'diagonal' ? text(wanted.outer) : '',
    without: [],
  };
}

/** The answers that a laying stands for. */
export function answersOf(
  { side, direction, crosses = [] }: AcrossBody,
  lines: readonly HullLine[],
  unit: 'mm' | 'in',
): AcrossAnswers {
  const crossed = linesOfSide(lines, side).flatMap((line) => {
    const found = crosses.find((each) => line.ids.includes(each.line));
    return found === undefined ? [] : [{ line, station: found.station }];
  });
  const inner = crossed.at(0)?.station;
  const outer = crossed.at(-1)?.station;
  const wanted = inner && outer && { direction, inner, outer };
  return {
    ...acrossAnswers(side, wanted, unit),
    direction,
    without: linesOfSide(lines, side)
      .filter((line) => !crossed.some((each) => each.line.id === line.id))
      .map(({ id }) => id),
  };
}

/** The lines and stations that answers come to. It takes two lines at least; on the diagonal a line between the
 *  innermost and the outermost is met on the straight line between their stations, to the nearest mm or 1/8 in. */
export function readAcross(
  { side, direction, inner, outer, without }: AcrossAnswers,
  lines: readonly HullLine[],
  unit: 'mm' | 'in',
): AcrossRead {
  const problems: Partial<Record<'inner' | 'outer' | 'lines', string>> = {};
  const length = (name: 'inner' | 'outer', text: string): Typed | undefined => {
    const read = readLength(text, { unit });
    if (read.ok) {
      return { mm: read.mm, text: read.stated ? read.text : `${read.text} ${read.unit}` };
    }
    problems[name] =
      read.reason === 'absent'
        ? `Expected ${read.expected}.`
        : `Found “${read.found}”, expected ${read.expected}.`;
    return undefined;
  };
  const crossed = linesOfSide(lines, side).filter(({ id }) => !without.includes(id));
  const from = length('inner', inner);
  const to = direction === 'athwart' ? from : length('outer', outer);
  if (crossed.length < 2) problems.lines = 'Choose two lines or more; three say something.';
  const places = crossed.map((line) => placeOf(side, line));
  const breadth = (places.at(-1) ?? NaN) - (places.at(0) ?? NaN);
  if (direction === 'diagonal' && breadth === 0) {
    problems.lines = 'On the diagonal the lines must lie apart.';
  } else if (direction === 'diagonal' && from !== undefined && from.mm === to?.mm) {
    problems.outer = 'Expected another station than on the inner line; at one it lies athwart.';
  }
  if (Object.keys(problems).length > 0 || !from || !to) return { ok: false, problems };
  const last = crossed.length - 1;
  const crosses = crossed.map(({ id }, i) => {
    const share = (places[i] - places[0]) / breadth;
    const between = direction === 'diagonal' && i > 0 && i < last;
    const end = i === last ? to : from;
    return {
      line: id,
      station: between ? marked(from.mm + share * (to.mm - from.mm), unit) : end,
    };
  });
  return { ok: true, where: { side, direction, crosses } };
}

/** As near as a place on a line can be marked. */
function marked(mm: number, unit: 'mm' | 'in'): Typed {
  const text = showLength(mm, unit === 'in' ? { unit, denominator: 8 } : { unit, decimals: 0 });
  const read = readLength(text, { unit });
  if (!read.ok) throw new RangeError(`station ${text}: expected a length`);
  return { mm: read.mm, text: `${text} ${unit}` };
}

/** Where strakes lie under it, between the lines that it crosses; empty where none is known of. */
export function strakesUnder(
  { side, crosses }: AcrossWhere,
  lines: readonly HullLine[],
  features: readonly HullFeature[],
): string {
  const met = linesOfSide(lines, side).flatMap((line) => {
    const found = crosses.find((each) => line.ids.includes(each.line));
    return found === undefined ? [] : [{ line, station: found.station.mm }];
  });
  const places = met.slice(1).flatMap(({ line: outer, station }, i) => {
    const { line: inner, station: before } = met[i];
    const [low, high] = [placeOf(side, inner), placeOf(side, outer)];
    const under = features.some(
      (each) =>
        each.feature === 'strake' &&
        placesOf(each, side).some(([from, to]) => from > low && to < high) &&
        each.stationFrom.mm <= Math.max(station, before) &&
        each.stationTo.mm >= Math.min(station, before),
    );
    return under ? [`${inner.name} and ${outer.name}`] : [];
  });
  if (places.length === 0) return '';
  return `A strake lies between ${listed(places)}: lay the straightedge on one panel, or stand it on blocks that clear the strake.`;
}

/** From where to where athwart a feature lies under a straightedge on a side. */
function placesOf(
  { side: on, offsetFrom: { mm: from }, offsetTo: { mm: to } }: HullFeature,
  side: AcrossSide,
): readonly (readonly [number, number])[] {
  if (side !== 'both') return on === side || on === 'both' ? [[from, to]] : [];
  if (on === 'centre') return [[-to, to]];
  return [
    ...(on === 'starboard' || on === 'both' ? [[from, to] as const] : []),
    ...(on === 'port' || on === 'both' ? [[-to, -from] as const] : []),
  ];
}
