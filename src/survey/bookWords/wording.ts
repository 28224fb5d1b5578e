import type { BodyOf, KindName } from '../kinds/kinds.ts';
import type { BookNames } from './bookNames.ts';

/** Kinds that belong together, and what they are called where one chooses among them. */
export const BOOK_GROUPS = {
  hull: 'The hull and its lines',
  instruments: 'Straightedges and gauges',
  survey: 'The haul-out',
  readings: 'Layings and readings',
  work: 'Gates, work and repairs',
  seasons: 'Seasons compared',
  weights: 'Weights and running trim',
  remarks: 'Remarks, photos, signatures',
  strikes: 'Strikes and undo',
  other: 'Other',
} as const;
export type BookGroup = keyof typeof BOOK_GROUPS;

/** Where an entry stands: its id, and what the ids in it stand for. */
export interface Said {
  readonly id: string;
  readonly names: BookNames;
  readonly unit: 'mm' | 'in';
}

/** How a kind is put in plain words. */
export interface Wording<K extends KindName> {
  readonly group: BookGroup;
  readonly words: (body: BodyOf<K>, said: Said) => string;
  /** What stands in rows of its own: the points of a check, the figures of a sheet. */
  readonly rows?: {
    readonly count: (body: BodyOf<K>) => number;
    /** Those from `from` to before `to`. */
    readonly words: (body: BodyOf<K>, said: Said, from: number, to: number) => readonly string[];
  };
}

/** "head: a, b; notes", of those parts that are stated. */
export function sentenceOf(
  head: string,
  parts: readonly (string | undefined | false)[],
  notes?: string,
): string {
  const said = parts.filter((part): part is string => typeof part === 'string' && part !== '');
  const body = [said.join(', '), ...(notes === undefined || notes === '' ? [] : [notes])];
  const rest = body.filter((part) => part !== '').join('; ');
  return rest === '' ? head : `${head}: ${rest}`;
}
