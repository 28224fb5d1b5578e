import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Side } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';

/** What stands at a station of a strip. Without a depth to work to, `words` say why. */
export interface StripMark {
  /** Forward of the transom, mm. */
  readonly station: number;
  /** The station with its unit, as typed. */
  readonly text: string;
  readonly fill?: string;
  readonly grind?: string;
  readonly words?: string;
}

export interface StripFrom {
  readonly name: string;
  /** "PORT, 18 in from the KEEL". */
  readonly where: string;
  readonly side: Side;
  /** Where the strip ends, mm forward of the transom; it begins at the transom. */
  readonly to: number;
  readonly marks: readonly StripMark[];
  readonly unit: WorkUnit;
}

/** A line's full-size strip, cut into bands that stand side by side on their pages and are joined end to end.
 *  All lengths in mm on paper, which are mm on the hull. y grows towards the transom. */
export interface StripView {
  readonly name: string;
  readonly where: string;
  readonly count: number;
  readonly pages: readonly (readonly StripBand[])[];
  readonly width: number;
  readonly length: number;
  /** What is left blank ahead of the fore register line, to be glued under the next band. */
  readonly flap: number;
  readonly keel?: 'left' | 'right';
}

export interface StripBand {
  readonly number: number;
  /** Whether it begins at the transom, and whether another follows it. */
  readonly atTransom: boolean;
  readonly goesOn: boolean;
  /** The register lines' places on the hull, as they are written. */
  readonly from: string;
  readonly to: string;
  readonly marks: readonly (StripMark & {
    readonly y: number;
    /** Text stands by its mark, but never closer than it is tall to the one before. */
    readonly textY: number;
  })[];
  readonly ticks: readonly { readonly y: number; readonly long: boolean }[];
}

const WIDTH = 52;
const FLAP = 10;
const A_PAGE = 3;
/** Both fit an A4 and a Letter page with their heads and the check ruler, and are round in their unit. */
const BAND: Readonly<Record<WorkUnit, number>> = { mm: 200, in: 8 * 25.4 };
const TICK: Readonly<Record<WorkUnit, { readonly step: number; readonly long: number }>> = {
  mm: { step: 10, long: 5 },
  in: { step: 12.7, long: 2 },
};
const TEXT = 9.5;

/** Cuts a line's strip into bands. From below with the bow up, PORT is on the right of the keel, so that on a port
 *  strip the keel lies to the left. Throws RangeError when the strip has no length. */
export function stripView({ name, where, side, to, marks, unit }: StripFrom): StripView {
  if (!(to > 0 && to < Infinity)) throw new RangeError(`a strip's length expected, got ${to}`);
  const length = BAND[unit];
  const count = Math.ceil(to / length - 1e-9);
  const bands = Array.from({ length: count }, (_, i) =>
    bandOf(i, count, marks, { length, unit, last: i === count - 1 }),
  );
  const pages = Array.from({ length: Math.ceil(count / A_PAGE) }, (_, p) =>
    bands.slice(p * A_PAGE, (p + 1) * A_PAGE),
  );
  const keel = side === 'centre' ? undefined : side === 'port' ? 'left' : 'right';
  return {
    name,
    where,
    count,
    pages,
    width: WIDTH,
    length,
    flap: FLAP,
    ...(keel !== undefined && { keel }),
  };
}

function bandOf(
  i: number,
  count: number,
  marks: readonly StripMark[],
  { length, unit, last }: { length: number; unit: WorkUnit; last: boolean },
): StripBand {
  const start = i * length;
  const y = (mm: number) => FLAP + length - (mm - start);
  const place = (mm: number) =>
    `${showLength(mm, unit === 'mm' ? { unit, decimals: 0 } : { unit, denominator: 2 })} ${unit}`;
  const { step, long } = TICK[unit];
  const ticks = Array.from({ length: Math.round(length / step) + 1 }, (_, k) => {
    const at = Math.round(start / step) + k;
    return { y: y(at * step), long: at % long === 0 };
  });
  // A mark on a register line stands on the aft end of the next band, and the last one on its fore end.
  const here = [...marks]
    .filter(({ station }) => station >= start - 1e-6)
    .filter(({ station }) => station < start + length - 1e-6 || (last && station <= start + length))
    .sort((a, b) => a.station - b.station);
  let before = Infinity;
  const placed = here.map((mark) => {
    const at = y(mark.station);
    const textY = Math.max(FLAP + TEXT / 2, Math.min(at, before - TEXT));
    before = textY;
    return { ...mark, y: at, textY };
  });
  return {
    number: i + 1,
    atTransom: i === 0,
    goesOn: i < count - 1,
    from: i === 0 ? 'TRANSOM' : place(start),
    to: place(start + length),
    marks: placed,
    ticks,
  };
}
