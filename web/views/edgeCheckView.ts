import type { Entry } from '../../src/book/entry.ts';
import { edgeError } from '../../src/survey/edge/edgeError.ts';
import { bowWords } from '../../src/survey/edge/edgeAssessment.ts';
import { checkFor } from '../../src/survey/edge/edgeKnown.ts';
import { showStretch, showTolerance } from '../../src/survey/figures.ts';
import { checkFrom } from '../../src/survey/fold/edgeChecksOf.ts';
import type { Straightedge } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { listed } from '../../src/survey/sentence.ts';
import type { EdgeCheck, Face, Typed } from '../../src/survey/survey.ts';
import { readUnit, showLength, type CountedUnit } from '../../src/survey/units.ts';
import type { Key } from './keypadView.ts';

/** What the form of a check holds, as typed. */
export interface EdgeCheckAnswers {
  readonly method: EdgeCheck['method'];
  /** What its figures are read to, "1/64 in". */
  readonly division: string;
  readonly date: string;
  readonly face: Face;
  /** Ids of the two other edges; empty for one that is none of the hull's. */
  readonly second: string;
  readonly third: string;
  readonly rows: readonly EdgeCheckRow[];
}

export interface EdgeCheckRow {
  readonly at: string;
  /** One for a reversal, three for three edges. */
  readonly figures: readonly string[];
}

/** Heads of the figures' columns. */
export const FIGURES = {
  reversal: ['Lines apart'],
  'three edges': ['This with second', 'Second with third', 'Third with this'],
} as const;

const POINTS = 9;

/** Rows to start from: nine places from end A to end B; without a length, nine empty ones. */
export function startingRows(
  length: Typed | undefined,
  unit: 'mm' | 'in',
  method: EdgeCheck['method'],
): readonly EdgeCheckRow[] {
  const figures = FIGURES[method].map(() => '');
  return Array.from({ length: POINTS }, (_, i) => {
    if (length === undefined) return { at: '', figures };
    const mm = (length.mm * i) / (POINTS - 1);
    const step = unit === 'in' ? { unit, denominator: 4 } : ({ unit, decimals: 0 } as const);
    return { at: showLength(mm, step), figures };
  });
}

export interface EdgeCheckRead {
  /** Absent while something is missing or wrong. */
  readonly body?: BodyOf<'edge check'>;
  /** By place in the table: row, and 0 for the point or 1 up for a figure. */
  readonly problems: ReadonlyMap<string, string>;
  /** What the check finds so far, or what it lacks. */
  readonly words: string;
  readonly complete: boolean;
}

export const cellKey = (row: number, field: number): string => `${row} ${field}`;

/** Reads a form: what is wrong where, what it finds so far, and the body of its entry once it can be used. Rows without
 *  a figure are left out; one with some of its figures is incomplete. */
export function readEdgeCheck(
  answers: EdgeCheckAnswers,
  edge: Straightedge,
  unit: 'mm' | 'in',
): EdgeCheckRead {
  const { method, division, date, face, second, third, rows } = answers;
  const counted = readUnit(division);
  const problems = new Map<string, string>();
  const points: BodyOf<'edge check'>['points'] = [];
  const placeOf: number[] = [];
  rows.forEach(({ at, figures }, row) => {
    if (figures.every((text) => text.trim() === '')) return;
    const place = lengthIn(at, { unit });
    if (typeof place === 'string') problems.set(cellKey(row, 0), place);
    const read = figures.map((text) => lengthIn(text, counted ?? { unit }));
    read.forEach((figure, i) => {
      if (typeof figure === 'string') problems.set(cellKey(row, i + 1), figure);
    });
    const [first, ...more] = read.flatMap((figure) => (typeof figure === 'string' ? [] : [figure]));
    if (typeof place === 'string' || first === undefined || more.length + 1 < read.length) return;
    placeOf.push(row);
    points.push(
      method === 'reversal'
        ? { at: place, apart: first }
        : { at: place, withSecond: first, secondWithThird: more[0], withThird: more[1] },
    );
  });
  const readTo = divisionOf(division);
  if (readTo === undefined) {
    return { problems, words: 'Say what the figures are read to.', complete: false };
  }
  const body: BodyOf<'edge check'> = {
    edge: edge.id,
    method,
    ...(date.trim() !== '' && { date: date.trim() }),
    face,
    readTo,
    ...(method === 'three edges' && second !== '' && { second }),
    ...(method === 'three edges' && third !== '' && { third }),
    points,
  };
  if (problems.size > 0) {
    return { problems, words: problemWords(problems, method), complete: false };
  }
  const found = edgeError(checkFrom(body, 0), edge.length?.mm);
  if (!found.ok) {
    const row = found.point === undefined ? undefined : placeOf[found.point];
    if (row !== undefined) problems.set(cellKey(row, 0), found.words);
    return { problems, words: found.words, complete: false };
  }
  const words = `${edge.name}: ${bowWords(found.bow, found.domain, unit)}.${openWords(found.domain, edge.length?.mm, unit)}`;
  return { body, problems, words, complete: true };
}

/** The first figure that cannot be used, by its place, and how many more are marked. */
function problemWords(
  problems: EdgeCheckRead['problems'],
  method: EdgeCheckAnswers['method'],
): string {
  const [[key, problem]] = problems;
  const [row, field] = key.split(' ').map(Number);
  const head = ['From end A', ...FIGURES[method]][field];
  const more = problems.size - 1;
  const others = more === 0 ? '' : ` ${more} more ${more === 1 ? 'is' : 'are'} marked.`;
  return `Point ${row + 1}, ${head}: ${problem}${others}`;
}

function lengthIn(text: string, unit: CountedUnit): Typed | string {
  const read = readLength(text, unit);
  if (!read.ok) {
    return read.reason === 'absent'
      ? 'A figure is missing.'
      : `Found “${text.trim()}”, expected ${read.expected}.`;
  }
  return { mm: read.mm, text: read.stated ? read.text : `${read.text} ${read.unit}` };
}

function divisionOf(text: string): Typed | undefined {
  const read = readLength(text);
  return read.ok && read.mm > 0 ? { mm: read.mm, text } : undefined;
}

export interface EdgeState {
  readonly is: 'checked' | 'stated' | 'not checked';
  /** "checked 2026-03-01: bows 0.4 mm ± 0.1 mm towards the hull over 1830 mm". */
  readonly words: string;
}

/** Which part of an edge no point of a check reaches: a laying that reads there cannot be corrected at all. */
function openWords(
  [from, to]: readonly [number, number],
  length: number | undefined,
  unit: 'mm' | 'in',
): string {
  const parts = [
    ...(from > A_MARK ? [`from ${showStretch(0, from, unit)}`] : []),
    ...(length !== undefined && length - to > A_MARK
      ? [`from ${showStretch(to, length, unit)}`]
      : []),
  ];
  return parts.length === 0
    ? ''
    : ` Nothing is checked ${listed(parts)}: a laying that reads there is not corrected.`;
}

/** Places closer than that are told as one, mm. */
const A_MARK = 10;

/** What is known of a straightedge's own error, in a few words. */
export function edgeState(edge: Straightedge, unit: 'mm' | 'in'): EdgeState {
  const check = checkFor(edge.checks, undefined);
  const found = check && edgeError(check, edge.length?.mm);
  if (check !== undefined && found?.ok) {
    const when = check.date === undefined ? '' : ` on ${check.date}`;
    return {
      is: 'checked',
      words: `checked${when}: ${bowWords(found.bow, found.domain, unit)}`,
    };
  }
  if (edge.bound !== undefined) {
    const { size, over } = edge.bound;
    return {
      is: 'stated',
      words: `not checked; stated within ${showTolerance(size.mm, unit)} over ${showTolerance(over.mm, unit)}`,
    };
  }
  return { is: 'not checked', words: 'not checked: a verdict takes it as straight' };
}

/** A check of a list, in words. */
export function checkWords(check: EdgeCheck, edge: Straightedge, unit: 'mm' | 'in'): string {
  const how = check.method === 'reversal' ? 'a line scribed twice' : 'three edges in pairs';
  const found = edgeError(check, edge.length?.mm);
  const what = found.ok ? bowWords(found.bow, found.domain, unit) : found.words;
  const face = check.face === 'other' ? ', unmarked face' : '';
  return `${check.date ?? 'without a date'}, ${how}${face}: ${what}`;
}

/** Ids of the entries that state checks of a straightedge: struck with it, they leave nothing behind. */
export function checksOf(standing: readonly Entry[], edge: string): readonly string[] {
  const checks = readStanding(standing.filter(({ kind }) => kind === 'edge check'));
  return checks.of('edge check').flatMap(({ id, body }) => (body.edge === edge ? [id] : []));
}

const digit = (text: string): Key => ({ act: 'insert', label: text, text });

/** The keys of a check's figures: those of the readings keypad, without its void and later, and with a minus. */
export function checkPadKeys(division: string): readonly (readonly Key[])[] {
  const inches = readUnit(division)?.unit === 'in';
  const mark: Key = inches
    ? { act: 'insert', label: '/', spoken: 'over', text: '/' }
    : { act: 'insert', label: '.', spoken: 'point', text: '.' };
  const minus: Key = { act: 'insert', label: '−', spoken: 'minus', text: '-' };
  const space: Key = { act: 'insert', label: '␣', spoken: 'space', text: ' ' };
  const zeros: Key = { act: 'insert', label: '00', text: '00' };
  return [
    [digit('7'), digit('8'), digit('9'), { act: 'erase', label: '⌫', spoken: 'Erase' }],
    [digit('4'), digit('5'), digit('6'), minus],
    [digit('1'), digit('2'), digit('3'), mark],
    [digit('0'), inches ? space : zeros, { act: 'next', label: 'Next', spoken: 'Next figure' }],
  ];
}
