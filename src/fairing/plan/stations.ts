import type { LineAssessment } from '../../survey/assessment.ts';
import type { WorkUnit } from '../../survey/figures.ts';
import type { Typed } from '../../survey/survey.ts';
import { showLength } from '../../survey/units.ts';
import { stationsOf, type StationKnown } from '../stationsOf.ts';
import { depthInSteps } from '../workStep.ts';
import type { CarryOver, Patch, StationWork } from './plan.ts';

/** Half a pencil mark: a station at an end of the stretch is on it. */
const ON = 0.5;

export interface WorkOn {
  /** Aft end of the readings and forward limit. */
  readonly over: readonly [number, number];
  /** End of the judged stretch. */
  readonly judgedTo: number;
  readonly step: number;
  readonly grindLimit?: number;
  /** What is to be done at x within `over`, mm: above 0 filled, below 0 ground; and how unsure that is. */
  readonly depthAt: (x: number) => number;
  readonly uAt: (x: number) => number;
}

/** Every station of a line with its figures, or why it has none. */
export function stationWork(
  line: LineAssessment,
  planned: readonly Typed[],
  on: WorkOn,
): readonly StationWork[] {
  return stationsOf(line, planned).map((known) => oneStation(known, on));
}

function oneStation(known: StationKnown, on: WorkOn): StationWork {
  const { station, text, read, said } = known;
  if (!read) return said ? { station, text, ...said } : { station, text, is: 'unread' };
  const [aft, fore] = on.over;
  if (station > on.judgedTo + ON) return { station, text, is: 'not judged' };
  if (station > fore + ON || station < aft - ON) return { station, text, is: 'left alone' };
  const x = Math.min(fore, Math.max(aft, station));
  const depth = on.depthAt(x);
  return {
    station,
    text,
    is: 'worked',
    fill: depthInSteps(Math.max(0, depth), on.step),
    grind: depthInSteps(Math.max(0, -depth), on.step, on.grindLimit),
    u: on.uAt(x),
  };
}

/** Stations in or at a patch that have no figure of their own, each with the worked stations beside it. */
export function carryOver(
  stations: readonly StationWork[],
  patches: readonly Patch[],
  unit: WorkUnit,
): readonly CarryOver[] {
  return stations.flatMap((each, i): CarryOver[] => {
    if (each.is !== 'void' && each.is !== 'put off' && each.is !== 'unread') return [];
    const { station, text } = each;
    const inside = patches.some(
      ({ from, to, aft }) =>
        station <= to + ON && (station >= from - ON || aft === 'carried aft to the transom'),
    );
    if (!inside) return [];
    const aft = stations.slice(0, i).findLast(({ is }) => is === 'worked');
    const fore = stations.slice(i + 1).find(({ is }) => is === 'worked');
    const reason = 'reason' in each ? each.reason : undefined;
    return [
      {
        station,
        text,
        is: each.is,
        ...(reason !== undefined && { reason }),
        ...(aft && { aft: { station: aft.station, text: aft.text } }),
        ...(fore && { fore: { station: fore.station, text: fore.text } }),
        words: carryWords(each.is, station, reason, aft?.station, fore?.station, unit),
      },
    ];
  });
}

function carryWords(
  is: CarryOver['is'],
  station: number,
  reason: string | undefined,
  aft: number | undefined,
  fore: number | undefined,
  unit: WorkUnit,
): string {
  const why = is === 'unread' ? 'not read' : `${is}${reason === undefined ? '' : ` (${reason})`}`;
  const place = (mm: number) => stationWords(mm, unit);
  const way =
    aft !== undefined && fore !== undefined
      ? `carry over it in a straight line, on a batten laid from ${place(aft)} to ${place(fore)}`
      : aft === undefined && fore !== undefined
        ? `carry the depth of ${place(fore)} straight aft`
        : 'nothing was worked out on both sides of it: read it before the work reaches it';
  const first = is === 'void' ? 'keep clear of it and ' : 'read it if you can; else ';
  return `${place(station)}, ${why}: ${first}${way}.`;
}

/** A station as it is marked on the hull: "450 mm", "17 3/4 in". */
export function stationWords(mm: number, unit: WorkUnit): string {
  const shown =
    unit === 'in'
      ? showLength(mm, { unit, denominator: 16 })
      : showLength(mm, { unit, decimals: Math.abs(mm - Math.round(mm)) < 0.05 ? 0 : 1 });
  return `${shown} ${unit}`;
}
