import type { Gauge } from '../../src/survey/fold/hullOf.ts';
import type { GaugeReads, Placement } from '../../src/survey/survey.ts';
import { readUnit, showUnit, type CountedUnit } from '../../src/survey/units.ts';

/** A gauge as the readings table takes it up: how it is typed, and what goes into the record with a reading. */
export interface GaugeInHand extends CountedUnit {
  /** Id of the hull's gauge; absent for one that nobody named. */
  readonly id?: string;
  /** How it is called: "scale, 1/32 in". */
  readonly name: string;
  /** "1/32 in", "0.5 mm": what its whole numbers count, or its division. */
  readonly short: string;
  readonly unit: 'mm' | 'in';
  /** mm. */
  readonly division?: number;
  readonly reads?: GaugeReads;
}

/** The gauges that can be taken up on a placement, the placement's own first: by name where it has one, else what is
 *  known of its division. There is always at least one. `own`: id of the placement's gauge. */
export function gaugesInHand(
  gauges: readonly Gauge[],
  own: string | undefined,
  placement: Pick<Placement, 'division' | 'reads'> | undefined,
  workUnit: 'mm' | 'in',
): readonly GaugeInHand[] {
  const named = gauges.map((gauge) => gaugeInHand(gauge, workUnit));
  const first = named.find(({ id }) => id === own);
  if (first !== undefined) return [first, ...named.filter((each) => each !== first)];
  return [unnamed(placement, workUnit), ...named];
}

/** What a gauge of the hull says of how it is typed; where it says nothing, its division does. */
export function gaugeInHand(gauge: Gauge, workUnit: 'mm' | 'in'): GaugeInHand {
  const counted = gauge.division === undefined ? undefined : readUnit(gauge.division.text);
  const unit = gauge.unit ?? metricOrInch(counted?.unit) ?? workUnit;
  const denominator =
    gauge.denominator ??
    counted?.denominator ??
    (unit === 'in' && gauge.division !== undefined
      ? wholeDenominator(gauge.division.mm)
      : undefined);
  return {
    id: gauge.id,
    name: gauge.name,
    short:
      gauge.division?.text ?? showUnit({ unit, ...(denominator !== undefined && { denominator }) }),
    unit,
    ...(denominator !== undefined && { denominator }),
    ...(gauge.division !== undefined && { division: gauge.division.mm }),
    ...(gauge.reads !== undefined && { reads: gauge.reads }),
  };
}

function unnamed(
  placement: Pick<Placement, 'division' | 'reads'> | undefined,
  workUnit: 'mm' | 'in',
): GaugeInHand {
  const division = placement?.division;
  const denominator =
    workUnit === 'in' && division !== undefined ? wholeDenominator(division) : undefined;
  const short =
    denominator !== undefined || division === undefined
      ? showUnit({ unit: workUnit, ...(denominator !== undefined && { denominator }) })
      : `${Number(division.toFixed(3))} mm`;
  return {
    name: division === undefined ? 'gauge not stated' : `read to ${short}`,
    short,
    unit: workUnit,
    ...(denominator !== undefined && { denominator }),
    ...(division !== undefined && { division }),
    ...(placement?.reads !== undefined && { reads: placement.reads }),
  };
}

function metricOrInch(unit: string | undefined): 'mm' | 'in' | undefined {
  return unit === 'mm' || unit === 'in' ? unit : undefined;
}

const DENOMINATORS = [2, 4, 8, 16, 32, 64, 128];

/** 32 for 1/32 in; undefined where the division, in mm, is none that a scale in inches has. */
function wholeDenominator(mm: number): number | undefined {
  return DENOMINATORS.find((parts) => Math.abs(25.4 / parts - mm) < 1e-6);
}

/** A division as people say it: "1/32 in", "0.5 mm". */
export function divisionText(mm: number): string {
  const parts = wholeDenominator(mm);
  return parts === undefined ? `${Number(mm.toFixed(3))} mm` : `1/${parts} in`;
}
