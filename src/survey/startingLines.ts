import type { Side, Typed } from './survey.ts';
import { UNITS } from './units.ts';

/** A line that is proposed for a hull, before it is an entry. */
export interface ProposedLine {
  readonly side: Side;
  readonly offset: Typed;
  readonly name: string;
}

/** How far out the lines lie where the beam is known, as parts of the half beam. */
const PARTS = [0.25, 0.5, 0.75];
/** Where it is not: lines that a 6 ft beam still carries, in each unit. */
const PLAIN = { mm: [200, 400, 600], in: [8, 16, 24] } as const;
const STEP = { mm: 10, in: 1 } as const;

/** A set of lines to start from, three each side at the same offsets, port first, from the keel outwards; a person
 *  moves them off strakes and fittings. Common practice, no source: several lines each side, the same offsets port
 *  and starboard.
 *  `beamAtChine`: mm. The bottom is wider than half the beam where there is deadrise, so that offsets along it taken
 *  from the half beam stay inboard of the chine. `unit`: offsets are whole inches, or tens of mm.
 *  Throws RangeError on a beam that is not above 400 mm and finite. */
export function startingLines(
  beamAtChine?: number,
  unit: 'mm' | 'in' = 'mm',
): readonly ProposedLine[] {
  if (beamAtChine !== undefined && !(Number.isFinite(beamAtChine) && beamAtChine > 400)) {
    throw new RangeError(`beam at chine: got ${beamAtChine} mm, expected above 400 mm`);
  }
  const { mm } = UNITS[unit];
  const offsets =
    beamAtChine === undefined
      ? PLAIN[unit]
      : PARTS.map((part) => {
          const steps = Math.round((part * beamAtChine) / 2 / mm / STEP[unit]);
          return steps * STEP[unit];
        });
  return (['port', 'starboard'] as const).flatMap((side) =>
    offsets.map((offset) => ({
      side,
      offset: { mm: offset * mm, text: `${offset} ${unit}` },
      name: `${side === 'port' ? 'P' : 'S'}${offset}${unit}`,
    })),
  );
}
