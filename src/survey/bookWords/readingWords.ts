import type { BodyOf } from '../kinds/kinds.ts';
import { acrossSideWords } from '../acrossSide.ts';
import { readLength } from '../readingText.ts';
import { listed } from '../sentence.ts';
import type { Typed } from '../survey.ts';
import { readUnit, showUnit } from '../units.ts';
import { withUnit } from '../withUnit.ts';
import type { BookNames } from './bookNames.ts';
import { sentenceOf, type Said, type Wording } from './wording.ts';

export const placementWords: Wording<'placement'> = {
  group: 'readings',
  words: (body, said) => {
    const { unit, names } = said;
    const { aftEnd, aftMark, laid } = body;
    return sentenceOf(
      `Edge laid on ${names.line(body.line)}, ${nthWords(body)}`,
      [
        ...layingWords(body, said, 'fore'),
        aftEnd && `aft end at ${withUnit(aftEnd, unit)}`,
        aftMark && `end ${aftMark} aft`,
        ...gaugeWords(body, said),
        laid !== undefined && `laid ${laid}`,
      ],
      body.notes,
    );
  },
};

export const placementAcrossWords: Wording<'placement across'> = {
  group: 'readings',
  words: (body, said) =>
    sentenceOf(
      `Edge laid across ${body.side === 'both' ? 'the keel, over lines of both sides' : `the lines ${acrossSideWords(body.side)}`}, ${body.direction}, ${nthWords(body)}`,
      [
        ...crossesWords(body, said),
        ...layingWords(body, said, body.side === 'both' ? 'starboard' : 'outboard'),
        ...gaugeWords(body, said),
      ],
      body.notes,
    ),
};

/** "to cross P150 and P300 at 600 mm"; on the diagonal each line has its own station. */
function crossesWords({ crosses = [] }: BodyOf<'placement across'>, { unit, names }: Said) {
  if (crosses.length === 0) return [];
  const at = crosses.map(({ station }) => withUnit(station, unit));
  const one = at.every((station) => station === at[0]);
  const lines = crosses.map(({ line }, i) => names.line(line) + (one ? '' : ` at ${at[i]}`));
  return [`to cross ${listed(lines)}${one ? ` at ${at[0]}` : ''}`];
}

function nthWords({ name, repeat }: BodyOf<'placement' | 'placement across'>): string {
  return `laying ${name}${repeat === 1 ? '' : `, repeat ${repeat}`}`;
}

/** How the edge was held. `far`: what the block is called that may have a height of its own. */
function layingWords(
  body: BodyOf<'placement'> | BodyOf<'placement across'>,
  { unit, names }: Said,
  far: string,
) {
  const length = (typed: Typed) => withUnit(typed, unit);
  const { blocksAt, block, blockFore } = body;
  return [
    body.edge !== undefined && names.straightedge(body.edge),
    body.edgeLength && `${length(body.edgeLength)} long`,
    body.held === 'blocks'
      ? `on blocks${block === undefined ? '' : ` of ${length(block)}`}${blockFore === undefined ? '' : `, the ${far} one ${length(blockFore)}`}${blocksAt === undefined ? '' : ` at ${length(blocksAt[0])} and ${length(blocksAt[1])}`}`
      : 'resting',
  ];
}

function gaugeWords(body: BodyOf<'placement'> | BodyOf<'placement across'>, { unit, names }: Said) {
  return [
    body.face && `${body.face === 'marked' ? 'marked' : 'unmarked'} face to the hull`,
    body.gauge !== undefined && `gauge ${names.gauge(body.gauge)}`,
    body.division && `read to ${withUnit(body.division, unit)}`,
    body.reads === 'last leaf' && 'as the last leaf that went in',
    body.support !== undefined && supportOf(body.support, names),
  ];
}

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
        gauge !== undefined && gauge !== layOf(body, names)?.gauge
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

/** The laying of the edge that a reading is of. */
function layOf({ placement }: BodyOf<'reading'>, names: BookNames) {
  return names.body('placement', placement) ?? names.body('placement across', placement);
}

function atStation(
  { placement, line, station }: BodyOf<'reading' | 'void' | 'later'>,
  unit: 'mm' | 'in',
  names: BookNames,
): string {
  const on = line === undefined ? '' : `, ${names.line(line)}`;
  return `${names.lay(placement)}${on}, ${withUnit(station, unit)}`;
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
  const lay = layOf(body, names);
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
