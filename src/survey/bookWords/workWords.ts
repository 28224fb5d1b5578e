import type { Typed } from '../survey.ts';
import { listed } from '../sentence.ts';
import { withUnit } from '../withUnit.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { sentenceOf, type Wording } from './wording.ts';

/** As it was told: speeds, settings, load, and what was changed. */
export function complaintParts(body: BodyOf<'complaint'>): readonly string[] {
  const { from, upTo, driveTrim, tabs, load, changedHow } = body;
  return [
    ...(from === undefined ? [] : [`from ${from.text}`]),
    ...(upTo === undefined ? [] : [`up to ${upTo.text}`]),
    ...(driveTrim === undefined ? [] : [`drive trim ${driveTrim}`]),
    ...(tabs === undefined ? [] : [`tabs ${tabs}`]),
    ...(load === undefined ? [] : [`load ${load}`]),
    ...(changedHow === undefined || changedHow === '' ? [] : [`what was changed: ${changedHow}`]),
  ];
}

export const complaintWords: Wording<'complaint'> = {
  group: 'work',
  words: (body) =>
    sentenceOf(
      'What the boat does',
      [
        body.does.length === 0 ? 'none of what is asked' : listed(body.does),
        body.changed !== undefined &&
          body.changed.length > 0 &&
          `changed lately: ${listed(body.changed)}`,
        ...complaintParts(body),
      ],
      body.said,
    ),
};

export const gateWords: Wording<'gate'> = {
  group: 'work',
  words: (body) =>
    sentenceOf(
      `Gate “${body.gate}”`,
      [body.answer, body.by !== undefined && `looked at by ${body.by}`],
      body.notes,
    ),
};

/** What was measured of a cause. */
export function measuredParts(body: BodyOf<'cause'>, unit: 'mm' | 'in'): readonly string[] {
  const { pin, engine, bracket, pocket } = body;
  const said = (what: string, length: Typed | undefined, more = '') =>
    length === undefined ? [] : [`${what} ${withUnit(length, unit)}${more}`];
  return [
    ...(pin === undefined ? [] : [`limit pin ${pin}`]),
    ...said('setback', engine?.setback),
    ...said('anti-ventilation plate', engine?.plate, ' above the bottom carried aft'),
    ...said('underside of the bracket', bracket?.underside, ' above the bottom carried aft'),
    ...(pocket?.count === undefined
      ? []
      : [pocket.count === 1 ? 'one pocket' : `${pocket.count} pockets alike`]),
    ...said('length', pocket?.length),
    ...said('width', pocket?.width),
    ...said('depth', pocket?.depth),
    ...said('its top', pocket?.below, ' below the waterline at rest'),
    ...(pocket?.vented === undefined ? [] : [pocket.vented]),
  ];
}

export const causeWords: Wording<'cause'> = {
  group: 'work',
  words: (body, { unit }) =>
    sentenceOf(
      `Other cause, ${body.cause}`,
      [
        body.found ?? 'not checked yet',
        body.by !== undefined && `tried by ${body.by}`,
        body.date,
        ...measuredParts(body, unit),
      ],
      body.how,
    ),
};

export const decisionWords: Wording<'decision'> = {
  group: 'work',
  words: (body) =>
    sentenceOf(
      'The owner’s choice',
      [
        body.choice,
        `by ${body.by}`,
        body.date,
        `signed ${body.signed}`,
        body.acceptsWorse !== undefined &&
          `accepted by ${body.acceptsWorse} that a fairer bottom may make it worse`,
        body.acceptsUnexplained !== undefined &&
          `accepted by ${body.acceptsUnexplained} that the work may not mend what the boat does`,
      ],
      body.notes,
    ),
};

export const sheetWords: Wording<'sheet'> = {
  group: 'work',
  words: (body, { unit, names }) => {
    const length = (typed: Typed) => withUnit(typed, unit);
    const lines = new Set(body.figures.map(({ name }) => name));
    return sentenceOf(
      `Worksheet ${body.number} issued`,
      [
        body.date,
        body.way,
        body.grindLimit && `grind no more than ${length(body.grindLimit)}`,
        body.fillLimit && `fill no more than ${length(body.fillLimit)}`,
        body.forward && `to ${length(body.forward)} forward`,
        body.camber && `${body.camber.shape} camber ${length(body.camber.height)}`,
        body.alike === true && 'port and starboard alike',
        body.panel !== undefined && `whole panels to ${body.panel}`,
        `in steps of ${length(body.step)}`,
        body.replaces !== undefined && `replaces ${names.sheet(body.replaces)}`,
        body.remainderOf !== undefined && `what is left of ${names.sheet(body.remainderOf)}`,
        `${body.figures.length} ${body.figures.length === 1 ? 'figure' : 'figures'}${lines.size === 0 ? '' : ` on ${listed([...lines])}`}`,
      ],
      body.notes,
    );
  },
  rows: {
    count: (body) => body.figures.length,
    words: (body, { unit }, from, to) =>
      body.figures
        .slice(from, to)
        .map(({ name, station, fill, grind }) =>
          sentenceOf(`${name}, ${withUnit(station, unit)}`, [
            `fill ${withUnit(fill, unit)}`,
            `grind ${withUnit(grind, unit)}`,
          ]),
        ),
  },
};

export const repairWords: Wording<'repair'> = {
  group: 'work',
  words: (body, { names }) =>
    sentenceOf(
      `Repair, finished ${body.date}`,
      [
        body.what,
        body.lines !== undefined && `on ${listed(body.lines.map((id) => names.line(id)))}`,
        body.sheet !== undefined && `to ${names.sheet(body.sheet)}`,
        body.by !== undefined && `by ${body.by}`,
        body.inspector !== undefined && `inspected by ${body.inspector}`,
        ...(body.passes ?? []).map((pass, i) =>
          sentenceOf(`pass ${i + 1}`, [
            pass.product,
            pass.batch !== undefined && `batch ${pass.batch}`,
            pass.celsius !== undefined && `${pass.celsius} °C`,
            pass.cureStart !== undefined && `cure from ${pass.cureStart}`,
            pass.cureEnd !== undefined && `to ${pass.cureEnd}`,
          ]),
        ),
      ],
      body.notes,
    ),
};
