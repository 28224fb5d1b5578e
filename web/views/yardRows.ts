import { listed } from '../../src/survey/sentence.ts';
import type { MovedSince } from '../../src/seasons/movedSince.ts';
import { dayOf, daysOf } from '../../src/seasons/season.ts';
import { checkDue, type Due } from './checkDue.ts';
import { NO_NAME, sayInvented } from './hullName.ts';
import { foldText } from './searchText.ts';

export interface VerdictCount {
  readonly word: string;
  readonly lines: number;
}

/** Whether a hull moved before its last survey, as its summary keeps it. */
export type Moved =
  | Exclude<MovedSince, { readonly outcome: 'not compared' }>
  // What stood in the way may have been worked out by another version of the app.
  | { readonly outcome: 'not compared'; readonly why: readonly string[] }
  | { readonly outcome: 'not worked out'; readonly why: string };

/** What is known of a hull without opening its record. */
export interface YardHull {
  readonly hull: string;
  readonly name?: string;
  readonly builder?: string;
  readonly hin?: string;
  readonly checkEvery?: number;
  readonly invented: boolean;
  readonly surveys: number;
  readonly lastSurvey?: { readonly date?: string };
  readonly verdict: readonly VerdictCount[];
  readonly verdictFailure?: string;
  readonly moved?: Moved;
  readonly dirty: boolean;
}

/** The answers to "moved?" that can be told apart, sorted and filtered by; in the order in which they matter. */
export const MOVED = ['moved', 'cannot tell', 'not moved', 'one survey only'] as const;
export type MovedWord = (typeof MOVED)[number];

/** A word first, then what belongs to it. */
export interface WordAndMore {
  readonly word: string;
  readonly more: string;
}

export interface YardRow {
  readonly hull: string;
  readonly name: string;
  /** A tag is needed: the hull is invented and its name does not say so. */
  readonly sayInvented: boolean;
  /** Builder and number, as far as they are stated. */
  readonly about: string;
  readonly survey: WordAndMore;
  /** Days since the last survey; absent where it has no date that can be read. */
  readonly days?: number;
  readonly verdict: WordAndMore;
  /** Words of the verdict, the gravest first, in lower case. */
  readonly verdictWords: readonly string[];
  /** True where every line bears the one word. */
  readonly unanimous: boolean;
  readonly moved: WordAndMore;
  /** Absent where no survey has been measured. */
  readonly movedWord?: MovedWord;
  readonly due: WordAndMore;
  readonly dueState: Due['state'];
  readonly dueIn?: number;
  /** The record is newer than what was worked out of it. */
  readonly workingOut: boolean;
  readonly search: { readonly folded: string; readonly squeezed: string };
  /** Sorts as people sort names: without case and accents, numbers by their size. */
  readonly sortName: string;
}

export interface YardAsked {
  /** As 2026-03-14. */
  readonly today: string;
  /** The yard's interval between checks, months. */
  readonly checkEvery: number;
}

const known = new WeakMap<YardHull, { readonly asked: string; readonly row: YardRow }>();

/** A row a hull; those whose hull and question are the same as before are the same rows. */
export function yardRows(hulls: readonly YardHull[], asked: YardAsked): readonly YardRow[] {
  const asks = `${asked.today} ${asked.checkEvery}`;
  return hulls.map((hull) => {
    const before = known.get(hull);
    if (before?.asked === asks) return before.row;
    const row = yardRow(hull, asked);
    known.set(hull, { asked: asks, row });
    return row;
  });
}

export function yardRow(hull: YardHull, { today, checkEvery }: YardAsked): YardRow {
  const name = hull.name ?? NO_NAME;
  const day = dayOf(hull.lastSurvey?.date);
  const days = day === undefined ? undefined : daysOf(today) - daysOf(day);
  const due = checkDue(hull.surveys, hull.lastSurvey?.date, hull.checkEvery ?? checkEvery, today);
  const said = [hull.builder, hull.hin].filter((text) => text !== undefined);
  const movedWord = hull.dirty ? undefined : movedWordOf(hull);
  // What is being worked out is not sorted or filtered by what it was.
  const words = hull.dirty ? [] : hull.verdict.map(({ word }) => word.toLowerCase());
  return {
    hull: hull.hull,
    name,
    sayInvented: sayInvented(name, hull.invented),
    about: said.join(' · '),
    survey: surveyWords(hull, days),
    ...(days !== undefined && { days }),
    verdict: hull.dirty ? { word: 'Being worked out…', more: '' } : verdictWords(hull),
    verdictWords: words,
    unanimous: words.length === 1,
    moved: hull.dirty ? { word: '', more: '' } : movedWords(hull),
    ...(movedWord !== undefined && { movedWord }),
    due: dueWords(due),
    dueState: due.state,
    ...(due.inDays !== undefined && { dueIn: due.inDays }),
    workingOut: hull.dirty,
    search: {
      folded: foldText([name, ...said].join(' ')),
      squeezed: foldText(hull.hin ?? '').replaceAll(' ', ''),
    },
    sortName: foldText(name).replaceAll(/\d+/g, (digits) => digits.padStart(9, '0')),
  };
}

/** "Hook on 2 of 6 lines; fair on 4." Empty where there is no verdict. */
export function verdictText(verdict: readonly VerdictCount[]): string {
  const all = verdict.reduce((sum, { lines }) => sum + lines, 0);
  const parts = verdict.map(({ word, lines }, place) => {
    if (lines === all) return `${word} on ${all === 1 ? 'its one line' : `all ${all} lines`}`;
    return place === 0
      ? `${word} on ${lines} of ${all} lines`
      : `${word.toLowerCase()} on ${lines}`;
  });
  return parts.length === 0 ? '' : `${parts.join('; ')}.`;
}

function surveyWords({ surveys, lastSurvey }: YardHull, days: number | undefined): WordAndMore {
  if (surveys === 0) return { word: 'Not measured yet', more: '' };
  const date = lastSurvey?.date;
  if (date === undefined) return { word: 'Without a date', more: '' };
  return { word: date, more: days === undefined ? '' : agoText(days) };
}

function agoText(days: number): string {
  if (days === 0) return 'today';
  if (days === 1) return 'yesterday';
  return days > 0 ? `${days} days ago` : `in ${daysText(-days)}: look at its date`;
}

function daysText(days: number): string {
  return `${days} ${days === 1 ? 'day' : 'days'}`;
}

function verdictWords({ surveys, verdict, verdictFailure }: YardHull): WordAndMore {
  if (surveys === 0) return { word: '', more: '' };
  if (verdictFailure !== undefined) return { word: 'Not judged', more: verdictFailure };
  if (verdict.length === 0) return { word: 'No reading yet', more: '' };
  const [{ word }] = verdict;
  return { word, more: verdictText(verdict).slice(word.length).trim().replace(/\.$/, '') };
}

function movedWordOf({ moved }: YardHull): MovedWord | undefined {
  if (moved === undefined) return undefined;
  const { outcome } = moved;
  return outcome === 'not compared' || outcome === 'not worked out' ? 'cannot tell' : outcome;
}

function movedWords({ surveys, moved }: YardHull): WordAndMore {
  if (surveys === 0 || moved === undefined) return { word: '', more: '' };
  switch (moved.outcome) {
    case 'one survey only':
      return { word: 'One survey only', more: '' };
    case 'not worked out':
      return { word: 'Cannot tell', more: moved.why };
    case 'not compared':
      return {
        word: 'Cannot tell',
        more:
          moved.why.length === 0
            ? 'no line in common with an earlier survey'
            : `not alike: ${listed(moved.why)}`,
      };
    case 'moved':
      return {
        word: 'Moved',
        more: `on ${moved.lines.length} of ${moved.compared} ${linesWord(moved.compared)} (${listed(moved.lines)}) since ${moved.since}`,
      };
    case 'not moved':
      return { word: 'Not moved', more: `since ${moved.since}` };
    case 'cannot tell':
      return {
        word: 'Cannot tell',
        more: moved.setUpChanged
          ? `a line that nobody worked on moved too since ${moved.since}`
          : `since ${moved.since}`,
      };
  }
}

function linesWord(count: number): string {
  return count === 1 ? 'line' : 'lines';
}

function dueWords({ state, day = '', inDays = NaN }: Due): WordAndMore {
  switch (state) {
    case 'not measured':
      return { word: '', more: '' };
    case 'no date':
      return { word: 'Not known', more: 'its survey has no date' };
    case 'due':
      return { word: 'Due', more: inDays === 0 ? 'today' : `since ${day}` };
    case 'comes up':
      return { word: 'Comes up', more: `in ${daysText(inDays)}, ${day}` };
    case 'not due':
      return { word: 'Not due', more: `until ${day}` };
  }
}
