import type { TypedFigure } from '../../src/running/file/typedFigure.ts';
import { MASS_UNITS, type MassUnit } from '../../src/running/massUnits.ts';
import type { TypicalItem } from '../../src/running/weights/typicalItems.ts';
import type { LedgerLine } from '../../src/running/fold/ledgerOf.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

type Body = BodyOf<'weight item'>;
type Length = TypedFigure<'length'>;

/** What a form holds while an item is written. */
export interface WeightForm {
  readonly name: string;
  readonly act: Body['act'];
  readonly since: 'as now' | 'as proposed';
  /** Of the boat itself: with the changes of now in its figure. */
  readonly weighedNow: boolean;
  readonly mass?: TypedFigure<'mass'> | undefined;
  readonly typical: boolean;
  readonly thing?: string | undefined;
  /** Where it stands, or stood before it was removed or moved. */
  readonly x?: Length | undefined;
  readonly height?: Length | undefined;
  /** Where a moved thing went. */
  readonly toX?: Length | undefined;
  readonly toHeight?: Length | undefined;
  readonly note: string;
}

export const EMPTY_FORM: WeightForm = {
  name: '',
  act: 'aboard',
  since: 'as now',
  weighedNow: false,
  typical: false,
  note: '',
};

/** The entry that a form makes, or what is wrong with it. Nothing but a name is needed; `former`: the body that is put
 *  right, whose further fields are carried along. */
export function weightBody(
  form: WeightForm,
  former?: Body,
): { readonly ok: true; readonly body: Body } | { readonly ok: false; readonly problem: string } {
  const name = form.name.trim();
  if (name === '') return { ok: false, problem: 'A name is needed; mass and place can wait.' };
  const { act, since, mass, thing, typical, weighedNow } = form;
  const place = placeBody(form.x, form.height);
  const after = placeBody(form.toX, form.toHeight);
  return {
    ok: true,
    body: {
      ...further(former),
      name,
      act,
      ...(act !== 'aboard' && { since }),
      ...(act === 'aboard' && weighedNow && { weighed: 'as now' as const }),
      ...(thing === undefined ? mass && { mass } : { thing }),
      ...(typical && mass && thing === undefined && { typical }),
      ...(act === 'aboard' && place && { at: place }),
      ...((act === 'removed' || act === 'moved') && place && { from: place }),
      ...(act === 'added' && place && { to: place }),
      ...(act === 'moved' && after && { to: after }),
      ...(form.note.trim() !== '' && { note: form.note.trim() }),
    },
  };
}

function placeBody(x: Length | undefined, height: Length | undefined): Body['at'] {
  if (x === undefined && height === undefined) return undefined;
  return { ...(x && { x }), ...(height && { height }) };
}

const OWN = [
  ...['sameAs', 'name', 'act', 'since', 'weighed', 'mass', 'thing', 'typical'],
  ...['at', 'from', 'to', 'note'],
];

function further(former: Body | undefined): object {
  return Object.fromEntries(Object.entries(former ?? {}).filter(([key]) => !OWN.includes(key)));
}

/** The form that puts an item right. */
export function formOf({ body }: LedgerLine): WeightForm {
  const place = body.act === 'added' ? body.to : body.act === 'aboard' ? body.at : body.from;
  return {
    name: body.name,
    act: body.act,
    since: body.since ?? 'as now',
    weighedNow: body.weighed === 'as now',
    mass: body.mass,
    typical: body.typical === true,
    thing: body.thing,
    x: place?.x,
    height: place?.height,
    ...(body.act === 'moved' && { toX: body.to?.x, toHeight: body.to?.height }),
    note: body.note ?? '',
  };
}

/** The form by which a thing of the list is removed or moved: its mass and its place are known. */
export function changeOf({ id, body }: LedgerLine, act: 'removed' | 'moved'): WeightForm {
  const place = body.act === 'added' ? body.to : body.at;
  return {
    ...EMPTY_FORM,
    ...{ name: body.name, act, thing: id, x: place?.x, height: place?.height },
    since: body.act === 'added' ? 'as proposed' : 'as now',
  };
}

/** A typical item as a mass: `count` pieces, litres or metres. Common practice, no source. */
export function typicalMass(
  { mass }: TypicalItem,
  count: number,
  unit: MassUnit,
): TypedFigure<'mass'> | undefined {
  if (!(count > 0 && count < Infinity) || !('low' in mass)) return undefined;
  const step = unit === 'lb' ? 5 : 1;
  const whole = (kg: number) => {
    const size = (kg * count) / MASS_UNITS[unit];
    return size < 20 ? Number(size.toFixed(1)) : Math.round(size / step) * step;
  };
  const [low, high] = [whole(mass.low), whole(mass.high)];
  return {
    kg: { low: low * MASS_UNITS[unit], high: high * MASS_UNITS[unit] },
    text: `${low} to ${high} ${unit}`,
  };
}
