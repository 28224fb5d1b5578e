import type { Ledger, LedgerLine } from '../../src/running/fold/ledgerOf.ts';
import { showMass, type MassUnit } from '../../src/running/massUnits.ts';
import { showPlaceFigure } from '../../src/running/showFigure.ts';
import { statesOf, type LedgerItem, type LoadState } from '../../src/running/weights/ledger.ts';
import { loadOf, shiftBetween, type Figure } from '../../src/running/weights/loads.ts';
import { nextItems, soFar } from '../../src/running/weights/soFar.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { capital } from '../../src/survey/sentence.ts';

export interface WeightUnits {
  readonly length: WorkUnit;
  readonly mass: MassUnit;
}

export interface LedgerRow {
  readonly id: string;
  readonly name: string;
  /** "aboard", "removed, as now". */
  readonly act: string;
  readonly mass: string;
  readonly forward: string;
  readonly height: string;
  /** What lacks before it counts; empty where nothing does. */
  readonly lacks: string;
  readonly notes: readonly string[];
  /** Whether it can be written as removed or moved. */
  readonly canChange: boolean;
}

/** Each line of the ledger with its figures as they were typed. */
export function ledgerRows({ lines }: Pick<Ledger, 'lines'>): readonly LedgerRow[] {
  return lines.map((line) => {
    const { body, lacks } = line;
    const was = body.thing === undefined ? undefined : lines.find(({ id }) => id === body.thing);
    const figure = body.thing === undefined ? body.mass : was?.body.mass;
    return {
      id: line.id,
      name: body.name,
      act: body.act === 'aboard' ? aboard(line) : `${body.act}, ${body.since ?? 'as now'}`,
      mass: figure?.text ?? NOT_KNOWN,
      forward: placesOf(line, 'x'),
      height: placesOf(line, 'height'),
      lacks: lacks.length === 0 ? '' : `not counted yet: ${lacks.join(', ')} not known`,
      notes: [
        ...(body.typical === true ? ['typical mass, common practice, not weighed'] : []),
        ...(body.note ? [body.note] : []),
      ],
      canChange: body.act === 'aboard' || body.act === 'added',
    };
  });
}

const NOT_KNOWN = 'not known';

function aboard({ body }: LedgerLine): string {
  return body.weighed === 'as now' ? 'aboard, weighed as now' : 'aboard';
}

function placesOf({ body }: LedgerLine, which: 'x' | 'height'): string {
  const said = (place: typeof body.at) => place?.[which]?.text ?? NOT_KNOWN;
  switch (body.act) {
    case 'aboard':
      return said(body.at);
    case 'removed':
      return said(body.from);
    case 'added':
      return said(body.to);
    case 'moved':
      return `${said(body.from)} → ${said(body.to)}`;
  }
}

export interface LoadRow {
  readonly state: string;
  readonly weighs: string;
  readonly lcg: string;
  readonly vcg: string;
  /** Against as designed: empty in its own row. */
  readonly shift: string;
}

/** Displacement, LCG and VCG of each state that the ledger tells apart, and how far each has shifted from the first. */
export function loadRows(
  items: readonly LedgerItem[],
  { length, mass }: WeightUnits,
): readonly LoadRow[] {
  const states = statesOf(items);
  return states.flatMap((state): readonly LoadRow[] => {
    const load = loadOf(items, state);
    const name = states.length === 1 ? 'As listed' : capital(state);
    if (!load.ok) {
      return [{ state: name, weighs: load.reason, lcg: '', vcg: '', shift: '' }];
    }
    return [
      {
        state: name,
        weighs: showMass(load.displacement.value, mass, load.displacement.u),
        lcg: showPlaceFigure(load.lcg, length),
        vcg: load.vcg ? showPlaceFigure(load.vcg, length) : 'not told: a height is not known',
        shift: shiftWords(items, state, { length, mass }),
      },
    ];
  });
}

function shiftWords(items: readonly LedgerItem[], state: LoadState, units: WeightUnits): string {
  if (state === 'as designed') return '';
  const shift = shiftBetween(items, 'as designed', state);
  if (!shift.ok) return '';
  const parts = [
    wayOf(shift.lcg, 'forward', 'aft', units.length, 'LCG'),
    ...(shift.vcg ? [wayOf(shift.vcg, 'up', 'down', units.length, 'VCG')] : []),
    heavier(shift.displacement, units.mass),
  ];
  return capital(parts.join('; '));
}

/** "LCG 11.2 in ± 0.3 in aft". */
export function wayOf(
  { value, u }: Figure,
  up: string,
  down: string,
  unit: WorkUnit,
  name: string,
): string {
  const least = unit === 'in' ? 1.27 : 0.5;
  if (Math.abs(value) < least) return `${name} as it was`;
  const size = showPlaceFigure({ value: Math.abs(value), u }, unit);
  return `${name} ${size} ${value > 0 ? up : down}`;
}

function heavier({ value, u }: Figure, unit: MassUnit): string {
  if (Math.abs(value) < 0.5) return 'as heavy';
  return `${showMass(Math.abs(value), unit, u)} ${value > 0 ? 'heavier' : 'lighter'}`;
}

/** What the ledger tells already, and what one more figure would add. */
export function ledgerSays(
  ledger: Ledger,
  units: WeightUnits,
): { readonly told: string; readonly next: readonly string[] } {
  const so = soFar(ledger);
  const told = ((): string => {
    switch (so.tells) {
      case 'nothing':
        return 'Nothing can be told yet. A test with sandbags needs no figure: carry weight forward and try again.';
      case 'weight':
        return `What is listed weighs ${showMass(so.displacement.value, units.mass, so.displacement.u)} so far; LCG is not told.`;
      case 'centre':
        return so.vcg
          ? 'Displacement, LCG and VCG are told, of what is listed.'
          : 'Displacement and LCG are told, of what is listed.';
    }
  })();
  return { told, next: nextItems(ledger).map(({ what, adds }) => `${capital(what)}: ${adds}.`) };
}
