import * as fc from 'fast-check';

import { readLength } from '../../../src/survey/readingText.ts';
import type { Line, Placement, Reading, Survey, Typed } from '../../../src/survey/survey.ts';

/** Surveys of every shape that a file can hold: odd texts, both units, looks, voids, blocks, repeats, logs' weights. */

const hostile = [
  '=SUM(A1:A9)',
  '+1',
  '-1',
  '@x',
  '\t=1',
  "'=1",
  "''@",
  'a, "b"; c',
  'two\nlines',
  'two\r\nlines',
  '#1',
  '__proto__',
  'x',
  '\ufeffmark',
];

const words = fc
  .oneof(fc.constantFrom(...hostile), fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }))
  .filter((text) => text.trim() !== '' && !text.includes('\u0000'))
  .map((text) => (/^[\t\r]/.test(text) ? text.trimEnd() : text.trim()));

const oneLine = words
  .map((text) => text.replace(/[\r\n,]+/g, ' ').trim())
  .filter((text) => text !== '');

const size = (smallest: number, largest: number) =>
  fc.oneof(
    fc.integer({ min: Math.ceil(smallest), max: Math.floor(largest) }),
    fc.integer({ min: Math.ceil(smallest * 10), max: Math.floor(largest * 10) }).map((n) => n / 10),
    fc.double({ min: Math.max(smallest, 1e-6), max: largest, noNaN: true }),
    fc
      .integer({ min: Math.ceil((smallest / 25.4) * 32), max: Math.floor((largest / 25.4) * 32) })
      .map((n) => (n * 254) / 320),
  );

const positive = (largest: number) => size(0.1, largest);

/** Along the hull: none shorter than a mm. */
const along = (largest: number) => size(1, largest);

/** A length as someone typed it, in one of the ways there are. */
function typed(smallest: number, largest: number): fc.Arbitrary<Typed> {
  const thirtySeconds = fc.integer({
    min: Math.ceil((smallest / 25.4) * 32),
    max: Math.floor((largest / 25.4) * 32),
  });
  const tenths = fc.integer({ min: Math.ceil(smallest * 10), max: Math.floor(largest * 10) });
  return fc
    .oneof(
      tenths.map((n) => ({ text: String(n / 10), unit: 'mm' as const })),
      tenths.map((n) => ({ text: `${n / 10} mm`, unit: 'in' as const })),
      tenths.map((n) => ({ text: (n / 10).toFixed(1).replace('.', ','), unit: 'mm' as const })),
      thirtySeconds.map((n) => ({ text: `${n}/32`, unit: 'in' as const })),
      thirtySeconds.map((n) => ({ text: `${n}/32"`, unit: 'mm' as const })),
      thirtySeconds.map((n) => ({ text: String(n / 32), unit: 'in' as const })),
    )
    .map(({ text, unit }) => {
      const read = readLength(text, { unit });
      if (!read.ok) throw new Error(`${text}: ${read.expected}`);
      return { mm: read.mm, text };
    });
}

function optional<K extends string, T>(key: K, value: fc.Arbitrary<T>) {
  return fc
    .option(value, { nil: undefined })
    .map((found) => (found === undefined ? {} : { [key]: found })) as fc.Arbitrary<
    Partial<Record<K, T>>
  >;
}

function all<T extends object>(...parts: fc.Arbitrary<Partial<T>>[]): fc.Arbitrary<Partial<T>> {
  return fc.tuple(...parts).map((found) => Object.assign({}, ...found) as Partial<T>);
}

const extra = optional(
  'extra',
  fc
    .dictionary(fc.constantFrom('moisture', 'é, "x"', '=head', 'seen by'), words, { minKeys: 1 })
    .map((found) => ({ ...found })),
);

function placement(line: string, name: string, repeat: number): fc.Arbitrary<Placement> {
  const held = fc.constantFrom('resting' as const, 'blocks' as const);
  const facts = all<Placement>(
    optional('aftEnd', size(-200, 2000)),
    optional('aftMark', fc.constantFrom('A' as const, 'B' as const)),
    optional('face', fc.constantFrom('marked' as const, 'other' as const)),
    optional('edge', oneLine),
    optional('edgeLength', size(600, 4000)),
    optional('gauge', oneLine),
    optional('supportPeriod', fc.nat(3)),
  );
  const blocks = all<Placement>(
    positive(60).map((block) => ({ block })),
    optional('blockFore', positive(60)),
    optional('blocksAt', fc.constantFrom([100, 1400] as const, [76.2, 1219.2] as const)),
  );
  const gauge = fc.option(
    fc.record({ division: positive(2), reads: fc.constantFrom('nearest mark', 'last leaf') }),
    { nil: undefined },
  );
  return fc
    .record({ held, facts, blocks, gauge })
    .chain(({ held: how, facts: stated, blocks: on, gauge: with_ }) => {
      const block = how === 'blocks' ? on.block : undefined;
      const gap = block === undefined ? typed(0, 30) : typed(0, block + 30);
      const reading = all<Reading>(
        with_ === undefined
          ? fc.constant({})
          : all<Reading>(
              optional('division', positive(2)),
              optional('reads', fc.constantFrom('nearest mark' as const, 'last leaf' as const)),
            ).map(({ division, reads }) => ({
              ...(division === undefined || division === with_.division ? {} : { division }),
              ...(reads === undefined || reads === with_.reads ? {} : { reads }),
            })),
        optional('weight', fc.integer({ min: 2, max: 99 })),
        optional('note', words),
        extra,
      );
      const around = all<Reading>(optional('note', words), extra);
      const station = typed(0, 3000);
      return fc
        .record({
          readings: fc.uniqueArray(
            fc.record({ station, gap, look: fc.integer({ min: 1, max: 3 }), reading }),
            { selector: (one) => `${one.station.mm} ${one.look}`, maxLength: 8 },
          ),
          voids: fc.array(fc.record({ station, reason: words, around }), { maxLength: 2 }),
          later: fc.array(fc.record({ station, reason: words, around }), { maxLength: 2 }),
        })
        .map(({ readings, voids, later }): Placement => {
          const taken = new Set(readings.map((one) => one.station.mm));
          const free = ({ station: at }: { station: Typed }) => {
            if (taken.has(at.mm)) return false;
            taken.add(at.mm);
            return true;
          };
          return {
            id: `${line}/${name}/${repeat}`,
            name,
            repeat,
            held: how,
            ...stated,
            ...(how === 'blocks' ? on : {}),
            ...(with_ as Partial<Placement> | undefined),
            readings: alone(readings).map(({ reading: more, ...one }) => ({
              ...one,
              ...more,
              source: '',
            })),
            voids: voids
              .filter(free)
              .map(({ around: more, ...one }) => ({ ...one, ...more, source: '' })),
            later: later
              .filter(free)
              .map(({ around: more, ...one }) => ({ ...one, ...more, source: '' })),
          };
        });
    });
}

/** In a log, readings of one lay at one single station are refused; keep one. */
function alone<T extends { station: Typed }>(readings: readonly T[]): readonly T[] {
  const stations = new Set(readings.map((one) => one.station.mm));
  return stations.size === 1 ? readings.slice(0, 1) : readings;
}

const line: fc.Arbitrary<Line> = fc
  .record({
    name: words,
    side: fc.constantFrom('port' as const, 'starboard' as const, 'centre' as const),
    offset: size(0, 2000),
    more: all<Line>(optional('landmark', words), optional('limit', along(3000))),
    lays: fc.uniqueArray(fc.tuple(words, fc.integer({ min: 1, max: 3 })), {
      selector: ([name, repeat]) => `${name} ${repeat}`,
      minLength: 1,
      maxLength: 3,
    }),
  })
  .chain(({ name, side, offset, more, lays }) =>
    fc
      .tuple(...lays.map(([lay, repeat]) => placement(name, lay, repeat)))
      .map((placements): Line => ({ id: name, name, side, offset, ...more, placements })),
  );

export const anySurvey: fc.Arbitrary<Survey> = fc
  .record({
    more: all<Survey>(
      optional('hull', oneLine),
      optional('date', oneLine),
      optional(
        'tolerance',
        fc.record({ gap: positive(5), over: along(3000), houseDefault: fc.boolean() }),
      ),
      optional('limit', along(3000)),
      optional('repeatability', size(0, 2)),
      optional('transomRadius', size(0, 50)),
    ),
    conditions: fc.dictionary(
      fc.constantFrom('surface', 'engine', 'sun and temperature', 'remark', '=key'),
      fc.array(oneLine, { minLength: 1, maxLength: 2 }).map((lines) => lines.join('\n')),
    ),
    support: fc.array(
      all<Survey['support'][number]>(
        oneLine.map((what) => ({ what })),
        optional('at', oneLine),
        optional('engine', fc.constantFrom('hung' as const, 'held' as const, 'off' as const)),
        optional('checkedBy', oneLine),
      ),
      { maxLength: 3 },
    ) as fc.Arbitrary<Survey['support']>,
    workUnit: fc.constantFrom('mm' as const, 'in' as const),
    kind: fc.constantFrom('hand' as const, 'log' as const),
    lines: fc.uniqueArray(line, { selector: ({ name }) => name, minLength: 1, maxLength: 4 }),
  })
  .map(({ more, conditions, ...rest }) => ({ ...more, conditions: { ...conditions }, ...rest }));
