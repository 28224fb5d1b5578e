import type { BodyOf } from '../kinds/kinds.ts';
import { readLength } from '../readingText.ts';
import type { Typed } from '../survey.ts';
import { readUnit, showUnit } from '../units.ts';
import { withUnit } from '../withUnit.ts';
import type { BookNames } from './bookNames.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const placementWords: Wording<'placement'> = {
  group: 'readings',
  words: (body, { unit, names }) => {
    const length = (typed: Typed) => withUnit(typed, unit);
    const { blocksAt, block, blockFore } = body;
    return sentenceOf(
      `Edge laid on ${names.line(body.line)}, laying ${body.name}${body.repeat === 1 ? '' : `, repeat ${body.repeat}`}`,
      [
        body.edge !== undefined && names.straightedge(body.edge),
        body.edgeLength && `${length(body.edgeLength)} long`,
        body.held === 'blocks'
          ? `on blocks${block === undefined ? '' : ` of ${length(block)}`}${blockFore === undefined ? '' : `, the fore one ${length(blockFore)}`}${blocksAt === undefined ? '' : ` at ${length(blocksAt[0])} and ${length(blocksAt[1])}`}`
          : 'resting',
        body.aftEnd && `aft end at ${length(body.aftEnd)}`,
        body.aftMark && `end ${body.aftMark} aft`,
        body.face && `${body.face === 'marked' ? 'marked' : 'unmarked'} face to the hull`,
        body.gauge !== undefined && `gauge ${names.gauge(body.gauge)}`,
        body.division && `read to ${length(body.division)}`,
        body.reads === 'last leaf' && 'as the last leaf that went in',
        body.support !== undefined && supportOf(body.support, names),
        body.laid !== undefined && `laid ${body.laid}`,
      ],
      body.notes,
    );
  },
};

function supportOf(id: string, names: BookNames): string {
  const nth = names.body('support', id)?.nth;
  return nth === undefined ? 'on a support that is not here' : `on support ${nth}`;
}

export const readingWords: Wording<'reading'> = {
  group: 'readings',
  words: (body, { unit, names }) => {
    const { gauge } = body;
    const gap = gapWords(body.gap, body.unit, unit);
    return sentenceOf(
      atStation(body, unit, names),
      [
        body.gap.mm === 0 ? `${gap} (contact)` : gap,
        ...readTo(body, unit, names),
        gauge !== undefined && gauge !== names.body('placement', body.placement)?.gauge
          ? `gauge ${names.gauge(gauge)}`
          : undefined,
        body.look > 1 && `look ${body.look}`,
        body.weight !== undefined && body.weight !== 1 && `mean of ${body.weight} readings`,
        ...extraWords(body.extra),
      ],
      body.note,
    );
  },
};

export const voidWords: Wording<'void'> = {
  group: 'readings',
  words: (body, { unit, names }) =>
    sentenceOf(
      atStation(body, unit, names),
      [`void, ${body.reason === '' ? 'no reason stated' : body.reason}`, ...extraWords(body.extra)],
      body.note,
    ),
};

export const laterWords: Wording<'later'> = {
  group: 'readings',
  words: (body, { unit, names }) =>
    sentenceOf(
      atStation(body, unit, names),
      [
        `come back later, ${body.reason === '' ? 'no reason stated' : body.reason}`,
        ...extraWords(body.extra),
      ],
      body.note,
    ),
};

function atStation(
  { placement, station }: BodyOf<'reading' | 'void' | 'later'>,
  unit: 'mm' | 'in',
  names: BookNames,
): string {
  return `${names.lay(placement)}, ${withUnit(station, unit)}`;
}

/** A gap as typed. With a counted unit, 5 in 1/32 in is 5/32 in. */
function gapWords(gap: Typed, typedIn: string | undefined, workUnit: 'mm' | 'in'): string {
  const counted = typedIn === undefined ? undefined : readUnit(typedIn);
  if (counted?.denominator !== undefined) {
    const read = readLength(gap.text, counted);
    if (read.ok && !read.stated && Math.abs(read.mm - gap.mm) < 1e-6) {
      return `${read.text} ${showUnit({ unit: counted.unit })}`;
    }
  }
  return withUnit(gap, workUnit);
}

/** The division and how the gauge speaks: the reading's own, else the laying's, else its gauge's. */
function readTo(body: BodyOf<'reading'>, unit: 'mm' | 'in', names: BookNames): readonly string[] {
  const lay = names.body('placement', body.placement);
  const id = body.gauge ?? lay?.gauge;
  const gauge = id === undefined ? undefined : names.body('gauge', id);
  const layFirst = body.gauge === undefined;
  const division = body.division ?? (layFirst ? lay?.division : undefined) ?? gauge?.division;
  const reads = body.reads ?? (layFirst ? lay?.reads : undefined) ?? gauge?.reads;
  return [
    ...(division === undefined ? [] : [`read to ${withUnit(division, unit)}`]),
    ...(reads === 'last leaf' ? ['last leaf that went in'] : []),
  ];
}

function extraWords(extra: Readonly<Record<string, string>> | undefined): readonly string[] {
  return Object.entries(extra ?? {}).map(([heading, cell]) => `${heading}: ${cell}`);
}
