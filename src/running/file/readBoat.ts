import * as v from 'valibot';
import { shown } from '../../book/plain.ts';
import { tailOfLines } from '../planing/tailFlap.ts';
import { termsOf } from '../weights/terms.ts';
import type { WorkUnit } from '../../survey/figures.ts';
import { unitNamed } from '../../survey/units.ts';
import { expected, type Estimate } from '../estimate.ts';
import { massUnitNamed, type MassUnit } from '../massUnits.ts';
import { speedUnitNamed, type SpeedUnit } from '../speedUnits.ts';
import type { Thrust } from '../planing/running.ts';
import { doubtOf, type WhatIfBoat } from '../whatIf/boat.ts';
import { boatSchema } from './boatSchema.ts';

/** What is wrong at a place of a boat's file. */
export interface BoatFault {
  /** "items.2.mass" */
  readonly at: string;
  readonly found: string;
  readonly expected: string;
}

export interface BoatFile {
  readonly ok: true;
  readonly name?: string;
  readonly boat: WhatIfBoat;
  /** m/s, ascending. */
  readonly speeds: readonly number[];
  /** m/s: where the complaint is, else the middle of the speeds. */
  readonly at: number;
  /** What the file speaks in, for showing it: by its beam, its first item and its speeds. */
  readonly units: {
    readonly length: WorkUnit;
    readonly mass: MassUnit;
    readonly speed: SpeedUnit;
  };
}

/** Reads a boat from the JSON of a file: what `aftrun running` takes. Every length, mass and speed states its unit;
 *  angles are degrees. A field that is not known is a fault, so that a slip of spelling is not a silence. */
export function readBoat(
  json: unknown,
): BoatFile | { readonly ok: false; readonly faults: readonly BoatFault[] } {
  const read = v.safeParse(boatSchema, json);
  if (!read.success) return { ok: false, faults: read.issues.map(faultOf) };
  const {
    boat: called,
    beam: breadth,
    deadrise: rise,
    straightKeel,
    items,
    tail: tails,
    tabs,
    thrust: pushes,
    speeds,
    at,
    ...rest
  } = read.output;
  const riseKnown: Estimate = typeof rise === 'number' ? { value: rise } : rise;
  const [beam, deadrise] = [expected(breadth), expected(riseKnown)];
  const thrust = pushes && thrustAt(pushes);
  const doubt = doubtOf({
    beam: breadth,
    deadrise: riseKnown,
    ...(pushes && {
      thrustAngle: pushes.angle,
      ...('arm' in pushes
        ? { thrustArm: pushes.arm }
        : { thrustX: pushes.x, thrustHeight: pushes.height }),
    }),
    ...(tabs && { tabAngle: tabs.angle }),
  });
  const faults: BoatFault[] = [];
  if (tabs && tabs.width > beam) {
    faults.push({ at: 'tabs.width', found: `${tabs.width} mm`, expected: 'no more than the beam' });
  }
  if (tails?.some(({ over }) => over !== tails[0].over)) {
    faults.push({ at: 'tail', found: 'several', expected: 'tails over one length' });
  }
  try {
    termsOf(items);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    faults.push({ at: 'items', found: error.message, expected: 'one mass for one thing' });
  }
  if (faults.length > 0) return { ok: false, faults };
  const whole = tails && tailOfLines(tails);
  return {
    ok: true,
    ...(called !== undefined && { name: called }),
    boat: {
      hull: { beam, deadrise, ...(straightKeel !== undefined && { straightKeel }) },
      ...(Object.keys(doubt).length > 0 && { doubt }),
      items,
      ...(thrust && { thrust }),
      ...(whole && { tail: whole }),
      ...(tabs && {
        tabs: [
          {
            chord: tabs.chord,
            angle: expected(tabs.angle),
            span: tabs.width / beam,
            aft: tabs.chord,
          },
        ],
      }),
      ...rest,
    },
    speeds,
    at: at ?? speeds[speeds.length >> 1],
    units: unitsOf(json as Spoken),
  };
}

type Pushes = { readonly angle: Estimate } & (
  { readonly arm: Estimate } | { readonly x: Estimate; readonly height: Estimate }
);

function thrustAt(pushes: Pushes): Thrust {
  const angle = expected(pushes.angle);
  return 'arm' in pushes
    ? { arm: expected(pushes.arm), angle }
    : { x: expected(pushes.x), height: expected(pushes.height), angle };
}

interface Spoken {
  readonly beam: string;
  readonly items: readonly { readonly mass: string }[];
  readonly speeds: string;
}

/** Of a file that has been read: each of these texts ends in a unit that is known. */
function unitsOf({ beam, items, speeds }: Spoken): BoatFile['units'] {
  const last = (text: string) =>
    /([a-z/"']+)\s*(?:,\s*likeliest.*)?$/i.exec(text.trim())?.[1] ?? '';
  const length = unitNamed(last(beam));
  return {
    length: length === 'in' || length === 'ft' ? 'in' : 'mm',
    mass: massUnitNamed(last(items[0].mass)) ?? 'kg',
    speed: speedUnitNamed(last(speeds)) ?? 'kn',
  };
}

function faultOf(issue: v.BaseIssue<unknown>): BoatFault {
  const at = (issue.path ?? []).map(({ key }) => String(key)).join('.');
  const lacking = issue.type === 'strict_object' && issue.input === undefined;
  return {
    at: at === '' ? 'the file' : at,
    found: shown(issue.input),
    expected: lacking ? 'this field, which is needed' : issue.message.replace(/^expected /, ''),
  };
}
