import type { Entry } from '../../book/entry.ts';
import type { HullFacts } from '../../survey/fold/hullOf.ts';
import { readStanding } from '../../survey/fold/readStanding.ts';
import type { Disagreement, Unused } from '../../survey/fold/report.ts';
import { thingsOf } from '../../survey/fold/thingsOf.ts';
import type { BodyOf } from '../../survey/kinds/kinds.ts';
import { expected, type Estimate } from '../estimate.ts';
import type { Flap, PlaningHull, Thrust } from '../planing/running.ts';
import { WATERS, type Water } from '../planing/water.ts';
import { doubtOf, type Doubt } from '../whatIf/boat.ts';
import { estimateOf } from './ledgerOf.ts';

/** What is known of a hull for its running trim. */
export interface Particulars {
  /** The entry that states them; absent where none does. */
  readonly stated?: { readonly id: string; readonly body: BodyOf<'running particulars'> };
  readonly beam?: Estimate;
  readonly deadrise?: Estimate;
  /** Which of the two are taken from the hull's own facts. */
  readonly fromHull: readonly ('beam' | 'deadrise')[];
  readonly straightKeel?: number;
  readonly water: Water;
  readonly thrust?: Thrust;
  /** What of it is known between bounds only. */
  readonly doubt: Doubt;
  /** Of which something is stated and not all that is needed, or tabs wider than the beam: they are not taken. */
  readonly partly: readonly ('propeller' | 'tabs')[];
  readonly tabs?: readonly Flap[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** The particulars that standing entries state; beam and deadrise else as the hull's own facts have them. A thrust needs all
 *  three of its figures, tabs all three of theirs and a beam; each at its expectation. */
export function particularsOf(
  standing: readonly Entry[],
  facts: Pick<HullFacts, 'beamAtChine' | 'deadrise'> = {},
): Particulars {
  const read = readStanding(standing.filter(({ kind }) => kind === 'running particulars'));
  const things = thingsOf(
    read.of('running particulars'),
    () => 'particulars',
    () => 'the particulars for the running trim',
  );
  const shown = things.list.at(0)?.shown;
  const body = shown?.body ?? {};
  const beam = body.beam ? estimateOf(body.beam.mm) : asIs(facts.beamAtChine?.mm);
  const deadrise = body.deadrise
    ? estimateOf(body.deadrise.degrees)
    : asIs(facts.deadrise?.degrees);
  const { hubX, hubHeight, driveTrim, tabChord, tabWidth, tabAngle } = body;
  const hub = [hubX, hubHeight, driveTrim].filter((figure) => figure !== undefined).length;
  const tabs =
    tabChord && tabWidth && tabAngle && beam && tabsOf({ tabChord, tabWidth, tabAngle, beam });
  return {
    ...(shown && { stated: { id: shown.id, body: shown.body } }),
    ...(beam && { beam }),
    ...(deadrise && { deadrise }),
    fromHull: [
      ...(!body.beam && beam ? (['beam'] as const) : []),
      ...(!body.deadrise && deadrise ? (['deadrise'] as const) : []),
    ],
    ...(body.straightKeel && { straightKeel: expected(estimateOf(body.straightKeel.mm)) }),
    water: WATERS[body.water ?? 'sea'],
    ...(hubX &&
      hubHeight &&
      driveTrim && {
        thrust: {
          x: expected(estimateOf(hubX.mm)),
          height: expected(estimateOf(hubHeight.mm)),
          angle: expected(estimateOf(driveTrim.degrees)),
        },
      }),
    ...(tabs && { tabs }),
    doubt: doubtOf({
      ...(beam && { beam }),
      ...(deadrise && { deadrise }),
      ...(hubX &&
        hubHeight &&
        driveTrim && {
          thrustX: estimateOf(hubX.mm),
          thrustHeight: estimateOf(hubHeight.mm),
          thrustAngle: estimateOf(driveTrim.degrees),
        }),
      ...(tabs && { tabAngle: estimateOf(tabAngle.degrees) }),
    }),
    partly: [
      ...(hub > 0 && hub < 3 ? (['propeller'] as const) : []),
      ...(!tabs && (tabChord ?? tabWidth ?? tabAngle) ? (['tabs'] as const) : []),
    ],
    disagreements: things.disagreements,
    setAside: read.setAside,
  };
}

type Body = Required<BodyOf<'running particulars'>>;

function tabsOf({
  tabChord,
  tabWidth,
  tabAngle,
  beam,
}: Pick<Body, 'tabChord' | 'tabWidth' | 'tabAngle'> & { readonly beam: Estimate }):
  readonly Flap[] | undefined {
  const chord = expected(estimateOf(tabChord.mm));
  const span = expected(estimateOf(tabWidth.mm)) / expected(beam);
  return span > 1
    ? undefined
    : [{ chord, angle: expected(estimateOf(tabAngle.degrees)), span, aft: chord }];
}

function asIs(value: number | undefined): Estimate | undefined {
  return value === undefined ? undefined : { value };
}

/** The hull at the expectation of its figures; undefined while beam or deadrise is not known. */
export function hullFor({ beam, deadrise, straightKeel }: Particulars): PlaningHull | undefined {
  if (beam === undefined || deadrise === undefined) return undefined;
  return {
    beam: expected(beam),
    deadrise: expected(deadrise),
    ...(straightKeel !== undefined && { straightKeel }),
  };
}
