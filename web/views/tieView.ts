import { acrossSideName } from '../../src/survey/acrossSide.ts';
import { flatAcrossKeel } from '../../src/survey/flatAcrossKeel.ts';
import { showPlace } from '../../src/survey/figures.ts';
import type { HullState } from '../../src/survey/fold/hullOf.ts';
import type { SurveyState } from '../../src/survey/fold/surveyOf.ts';
import { placeAthwart } from '../../src/survey/panels/placeAthwart.ts';
import {
  tiePlan,
  tiePlans,
  type CrossedLine,
  type LaidAcross,
  type TiePlan,
  type WantedAcross,
} from '../../src/survey/panels/tiePlan.ts';
import { wantedWords } from '../../src/survey/panels/tieWords.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { capital } from '../../src/survey/sentence.ts';
import type { AcrossSide, Placement, PlacementAcross, Typed } from '../../src/survey/survey.ts';
import { plannedOrRead } from './stationsView.ts';
import { linesOfSide } from './acrossLines.ts';
import type { AcrossBody } from './acrossView.ts';
import type { StatedLay } from './layView.ts';
import type { PlanAcross } from './planAcross.ts';

export interface TieFrom {
  readonly hull: Pick<HullState, 'lines'>;
  readonly state: SurveyState;
  readonly stated: readonly StatedLay<'placement across'>[];
  /** How far forward lines are judged, mm. */
  readonly limit: number;
}

/** What ties each side of this survey, as far as it has come, on what the hull stands on now: readings of before a move
 *  of the support tie nothing. Sides without lines are left out. A bottom that is flat across the keel is one panel, and a
 *  side of it told by itself only where something was laid across that alone, and the whole is not tied yet. */
export function tieView({ hull, state, stated, limit }: TieFrom): readonly TiePlan[] {
  const { survey } = state;
  const all = survey.across ?? [];
  const layings = [...survey.lines.flatMap(({ placements }) => placements), ...all];
  const now = Math.max(0, ...layings.map(periodOf));
  const bodies = new Map(stated.map(({ id, body }) => [id, body]));
  const planned = plannedOrRead(state).filter(({ mm }) => mm <= limit + 1);
  const across = all.filter((each) => periodOf(each) === now);
  const laidAs = (each: PlacementAcross) =>
    laidOf(each, bodies.get(each.id), (id) => lineIn(hull, id));
  const linesOn = (side: AcrossSide) =>
    linesOfSide(hull.lines, side).map((line): CrossedLine => {
      const read = survey.lines.find(({ id }) => id === line.id)?.placements ?? [];
      const stations = readStations(read.filter((each) => periodOf(each) === now));
      const logged = read.some(({ log }) => log !== undefined);
      return {
        id: line.id,
        name: line.name,
        side: line.side,
        offset: line.offset.mm,
        marks: [...planned, ...stations.filter(({ mm }) => mm <= limit + 1)],
        read: logged ? Infinity : stations.length,
      };
    });
  const sides = (['port', 'starboard'] as const).map((side) => {
    const lines = linesOn(side);
    const own = across.filter((each) => each.side === side);
    const plans = lines.length === 0 ? [] : tiePlans(side, lines, own.map(laidAs));
    return { plans, begun: own.length > 0 };
  });
  const apart = sides.flatMap(({ plans }) => plans);
  if (!flatAcrossKeel(survey)) return apart;
  const whole = tiePlan('both', linesOn('both'), across.map(laidAs));
  if (whole.is === 'too few lines') return apart;
  if (whole.is !== 'open') return [whole];
  return [whole, ...sides.flatMap(({ plans, begun }) => (begun ? plans : []))];
}

/** The placement that would help most, as a person would lay it: at places as near as they are told. */
export function wantedFrom(
  { inner, outer }: { readonly inner: number; readonly outer: number },
  unit: 'mm' | 'in',
): WantedAcross {
  const place = (mm: number): Typed => {
    const text = showPlace(mm, unit);
    const read = readLength(text);
    if (!read.ok) throw new RangeError(`place ${text}: expected a length`);
    return { mm: read.mm, text };
  };
  const direction = Math.abs(inner - outer) < 1 ? 'athwart' : 'diagonal';
  return { direction, inner: place(inner), outer: place(outer) };
}

/** A placement that is wanted over all lines of a panel, as the plan draws it. */
export function wantedDrawn(
  { side, lines }: Pick<TiePlan, 'side' | 'lines'>,
  wanted: WantedAcross,
  unit: 'mm' | 'in',
): PlanAcross {
  const places = lines.map((line) => placeAthwart(side, line));
  const [first, last] = [places[0], places[places.length - 1]];
  const { inner, outer } = wanted;
  return {
    id: `next ${side}`,
    is: 'next',
    points: lines.map(({ side: on, offset }, i) => ({
      side: on,
      offset,
      station: inner.mm + ((places[i] - first) / (last - first)) * (outer.mm - inner.mm),
    })),
    words: `${capital(acrossSideName(side))}, lay next ${wantedWords(wanted, lines, unit)}`,
  };
}

function lineIn({ lines }: TieFrom['hull'], id: string): string {
  return lines.find(({ ids }) => ids.includes(id))?.id ?? id;
}

function laidOf(
  { id, direction, readings, voids, later }: PlacementAcross,
  body: AcrossBody | undefined,
  lineOf: (id: string) => string,
): LaidAcross {
  const meant = body?.crosses === undefined ? [] : body.crosses.map(({ line }) => lineOf(line));
  const said = [...readings, ...voids, ...later].map(({ line }) => line);
  return {
    id,
    direction,
    lines: [...new Set([...meant, ...said])],
    met: readings.map(({ line, station }) => ({ line, station: station.mm })),
  };
}

function periodOf({ supportPeriod }: Pick<Placement, 'supportPeriod'>): number {
  return supportPeriod === undefined ? FIRST_PERIOD : supportPeriod;
}

/** Placements of which nobody stated the support all belong to the first period. */
const FIRST_PERIOD = 0;

function readStations(placements: readonly Placement[]): readonly Typed[] {
  const read = placements.flatMap(({ readings }) => readings.map(({ station }) => station));
  return [...new Map(read.map((station) => [Math.round(station.mm * 1000), station])).values()];
}
