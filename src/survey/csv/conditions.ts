import { GAP_BOUNDS, LENGTH_BOUNDS, outside, type Bounds } from '../bounds.ts';
import { UNNAMED_EDGE } from '../edge/edgeKnown.ts';
import { CONDITION } from '../kinds/condition.ts';
import { readLength } from '../readingText.ts';
import type {
  Direction,
  Edge,
  Face,
  GaugeReads,
  Held,
  SupportEvent,
  Tolerance,
} from '../survey.ts';
import { readUnit, type CountedUnit } from '../units.ts';
import { EDGE_KEYS, EdgeLines } from './edgeLines.ts';
import { fault, type Fault } from './fault.ts';
import type { HashLine } from './splitFile.ts';

/** What the `# key: value` lines of a file say. Absent means not stated. Lengths in mm. */
export interface Conditions {
  hull?: string;
  date?: string;
  kind?: 'hand' | 'log';
  workUnit?: 'mm' | 'in';
  held?: Held;
  block?: number;
  blockFore?: number;
  blocksAt?: readonly [number, number];
  aftEnd?: number;
  aftMark?: 'A' | 'B';
  face?: Face;
  edge?: string;
  edgeLength?: number;
  gauge?: string;
  reads?: GaugeReads;
  division?: number;
  limit?: number;
  tolerance?: Tolerance;
  toleranceSetBy?: string;
  repeatability?: number;
  transomRadius?: number;
  stationUnit?: CountedUnit;
  offsetUnit?: CountedUnit;
  gapUnit?: CountedUnit;
}

/** A `#` line as it was understood, to be shown before anything is kept. */
export interface RecognisedCondition {
  readonly row: number;
  readonly key: string;
  readonly value: string;
  /** False where the key is none of ours: its text is kept as written and nothing is computed from it. */
  readonly used: boolean;
}

export interface ConditionsRead {
  readonly stated: Readonly<Conditions>;
  readonly support: readonly SupportEvent[];
  /** What is known of straightedges beyond their length. */
  readonly edges: readonly Edge[];
  /** Every line whose key is none of ours, as written; lines of one key joined by a line break. And whether the bottom is
   *  flat across the keel, which is a condition like them and reckoned with. */
  readonly other: Readonly<Record<string, string>>;
  readonly recognised: readonly RecognisedCondition[];
  readonly faults: readonly Fault[];
}

type Read<T> = { readonly value: T } | { readonly expected: string };
type Setter = (into: Conditions, text: string) => string | undefined;

/** Ties a reader of text to the field that it fills. */
function field<K extends keyof Conditions>(
  name: K,
  read: (text: string) => Read<NonNullable<Conditions[K]>>,
): Setter {
  return (into, text) => {
    const result = read(text);
    if ('expected' in result) return result.expected;
    into[name] = result.value;
    return undefined;
  };
}

const words = (text: string): Read<string> => ({ value: text });

function choice<T extends string>(options: Readonly<Record<string, T>>) {
  const known = new Map(Object.entries(options));
  return (text: string): Read<T> => {
    const value = known.get(text.trim().toLowerCase());
    return value === undefined ? { expected: [...known.keys()].join(' or ') } : { value };
  };
}

function length(smallest: 'any' | 'from 0' | 'above 0', example: string, bounds?: Bounds) {
  return (text: string): Read<number> => {
    const read = readLength(text);
    if (!read.ok) {
      return {
        expected:
          read.reason === 'unreadable'
            ? read.expected
            : `a length with its unit, such as ${example}`,
      };
    }
    if (smallest === 'above 0' && read.mm <= 0)
      return { expected: `more than 0, such as ${example}` };
    if (smallest === 'from 0' && read.mm < 0) return { expected: `0 or more, such as ${example}` };
    const expected = bounds && outside(read.mm, bounds);
    return expected === undefined ? { value: read.mm } : { expected };
  };
}

function unit(text: string): Read<CountedUnit> {
  const value = readUnit(text);
  return value === undefined ? { expected: 'a unit such as mm, in or 1/32 in' } : { value };
}

/** "100 mm and 1400 mm"; a unit at the end holds for both. */
export function readBlocksAt(text: string): Read<readonly [number, number]> {
  const expected = 'two stations with their unit, such as 100 mm and 1400 mm';
  const [first, second, ...more] = text.split(/\s*(?:\band\b|&|;)\s*/i);
  if (first === undefined || second === undefined || more.length > 0) return { expected };
  const to = readLength(second);
  if (!to.ok) return { expected };
  const from = readLength(first, { unit: to.unit });
  if (!from.ok || from.mm === to.mm) return { expected };
  return { value: [from.mm, to.mm] };
}

function tolerance(text: string): Read<Tolerance> {
  const expected = 'a gap over a length with their units, such as 1.5 mm over 1500 mm';
  const match = /^(.+?)\s+over\s+(.+?)(\s*\(house default\))?$/i.exec(text);
  if (match === null) return { expected };
  const gap = readLength(match[1] ?? '');
  const over = readLength(match[2] ?? '');
  if (!gap.ok || !over.ok || gap.mm <= 0 || over.mm <= 0) return { expected };
  const strange = outside(gap.mm, GAP_BOUNDS) ?? outside(over.mm, LENGTH_BOUNDS);
  if (strange !== undefined) return { expected: strange };
  return { value: { gap: gap.mm, over: over.mm, houseDefault: match[3] !== undefined } };
}

/** How a straightedge lay: nothing to say where it lay fore and aft. */
export const readDirection = choice<Direction | 'fore and aft'>({
  athwart: 'athwart',
  diagonal: 'diagonal',
  'fore and aft': 'fore and aft',
});
export const readHeld = choice<Held>({
  resting: 'resting',
  blocks: 'blocks',
  'on blocks': 'blocks',
});
export const readGaugeReads = choice<GaugeReads>({
  'nearest mark': 'nearest mark',
  'last leaf': 'last leaf',
});
export const readFace = choice<Face>({ marked: 'marked', other: 'other' });
export const readYesNo = choice<'yes' | 'no'>({ yes: 'yes', no: 'no' });
export const readAftMark = choice<'A' | 'B'>({ a: 'A', b: 'B' });

const setters: ReadonlyMap<string, Setter> = new Map([
  ['hull', field('hull', words)],
  ['date', field('date', words)],
  ['kind', field('kind', choice<'hand' | 'log'>({ hand: 'hand', log: 'log' }))],
  ['work unit', field('workUnit', choice<'mm' | 'in'>({ mm: 'mm', in: 'in' }))],
  ['held', field('held', readHeld)],
  ['block', field('block', length('above 0', '20 mm'))],
  ['fore block', field('blockFore', length('above 0', '20 mm'))],
  ['blocks at', field('blocksAt', readBlocksAt)],
  ['aft end', field('aftEnd', length('any', '-50 mm'))],
  ['aft mark', field('aftMark', readAftMark)],
  ['edge face', field('face', readFace)],
  ['edge', field('edge', words)],
  ['edge length', field('edgeLength', length('above 0', '1500 mm', LENGTH_BOUNDS))],
  ['gauge', field('gauge', words)],
  ['reads', field('reads', readGaugeReads)],
  ['read to', field('division', length('above 0', '1/32 in', GAP_BOUNDS))],
  ['limit', field('limit', length('above 0', '1500 mm', LENGTH_BOUNDS))],
  ['tolerance', field('tolerance', tolerance)],
  ['tolerance set by', field('toleranceSetBy', words)],
  [
    'repeatability',
    field('repeatability', length('from 0', '0.2 mm', { ...GAP_BOUNDS, least: 0 })),
  ],
  ['transom radius', field('transomRadius', length('from 0', '10 mm'))],
  ['station unit', field('stationUnit', unit)],
  ['offset unit', field('offsetUnit', unit)],
  ['gap unit', field('gapUnit', unit)],
]);

const supportKeys: ReadonlySet<string> = new Set([
  'support',
  'support since',
  'support engine',
  'support checked by',
]);

/** Whether a key is one that the tool computes with, and so never one of `other`. */
export function isKnownKey(key: string): boolean {
  const plain = plainKey(key);
  return setters.has(plain) || supportKeys.has(plain) || EDGE_KEYS.has(plain);
}

/** Reads the `# key: value` lines of a file. A line without a colon is kept under the key `remark`. */
export function readConditions(lines: readonly HashLine[]): ConditionsRead {
  const stated: Conditions = {};
  const support: SupportEvent[] = [];
  const edgeLines = new EdgeLines();
  const other = new Map<string, string>();
  const recognised: RecognisedCondition[] = [];
  const faults: Fault[] = [];
  const firstRow = new Map<string, { row: number; value: string }>();

  for (const { row, text } of lines) {
    const colon = text.indexOf(':');
    const key = colon < 1 ? 'remark' : text.slice(0, colon).trim();
    const value = colon < 1 ? text.trim() : text.slice(colon + 1).trim();
    if (value === '') continue;
    const plain = plainKey(key);
    const set = setters.get(plain);

    if (plain === CONDITION.flatAcross) {
      const said = readYesNo(value);
      const before = other.get(CONDITION.flatAcross);
      if ('expected' in said) faults.push(fault(row, key, value, said.expected));
      else if (before !== undefined && before !== said.value) {
        faults.push(fault(row, key, value, `one ${plain}: an earlier row says ${before}`));
      } else {
        other.set(CONDITION.flatAcross, said.value);
        recognised.push({ row, key, value, used: true });
      }
    } else if (supportKeys.has(plain) || EDGE_KEYS.has(plain)) {
      const expected = supportKeys.has(plain)
        ? readSupport(support, plain, value)
        : edgeLines.take(plain, value, row);
      if (expected === undefined) recognised.push({ row, key, value, used: true });
      else faults.push(fault(row, key, value, expected));
    } else if (set === undefined) {
      const before = other.get(key);
      other.set(key, before === undefined ? value : `${before}\n${value}`);
      recognised.push({ row, key, value, used: false });
    } else {
      const before = firstRow.get(plain);
      if (before !== undefined && before.value !== value) {
        faults.push(fault(row, key, value, `one ${plain}: row ${before.row} says ${before.value}`));
        continue;
      }
      firstRow.set(plain, { row, value });
      const expected = set(stated, value);
      if (expected === undefined) recognised.push({ row, key, value, used: true });
      else faults.push(fault(row, key, value, expected));
    }
  }
  if (edgeLines.unnamed && stated.edge === undefined) stated.edge = UNNAMED_EDGE;
  const { edges, faults: edgeFaults } = edgeLines.finish(stated.edge, stated.edgeLength);
  return {
    stated,
    support,
    edges,
    other: Object.fromEntries(other),
    recognised,
    faults: [...faults, ...edgeFaults],
  };
}

function plainKey(key: string): string {
  return key
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, ' ');
}

const readEngine = choice<'hung' | 'held' | 'off'>({ hung: 'hung', held: 'held', off: 'off' });

/** `support:` begins an event; `support since:`, `support engine:` and `support checked by:` say more of the last. */
function readSupport(events: SupportEvent[], key: string, value: string): string | undefined {
  if (key === 'support') {
    events.push({ what: value });
    return undefined;
  }
  const last = events.at(-1);
  if (last === undefined) return 'a "support:" line before it';
  let more: Partial<SupportEvent>;
  if (key === 'support engine') {
    const engine = readEngine(value);
    if ('expected' in engine) return engine.expected;
    more = { engine: engine.value };
  } else {
    more = key === 'support since' ? { at: value } : { checkedBy: value };
  }
  events[events.length - 1] = { ...last, ...more };
  return undefined;
}
