import { searchFor } from './searchText.ts';
import { MOVED, type MovedWord, type YardRow } from './yardRows.ts';

export const SORTS = ['name', 'survey', 'verdict', 'moved', 'due'] as const;
export type SortBy = (typeof SORTS)[number];

/** What of the verdict is asked for: a word on any line, but fair on every one. */
export const VERDICTS = [
  'hook',
  'rocker',
  'undecided',
  'too few readings',
  'fair',
  'none',
] as const;
export type VerdictAsked = (typeof VERDICTS)[number];

export const DUES = ['due', 'comes up', 'not due', 'not measured'] as const;
export type DueAsked = (typeof DUES)[number];

export interface YardChoices {
  readonly search: string;
  readonly sort: SortBy;
  /** True: the other way round. What has nothing to sort by stays last. */
  readonly turned: boolean;
  readonly verdict: VerdictAsked | '';
  readonly moved: MovedWord | '';
  readonly due: DueAsked | '';
}

export const ALL_BY_NAME: YardChoices = {
  search: '',
  sort: 'name',
  turned: false,
  verdict: '',
  moved: '',
  due: '',
};

/** Whether anything narrows the list. */
export function narrows({ search, verdict, moved, due }: YardChoices): boolean {
  return search.trim() !== '' || verdict !== '' || moved !== '' || due !== '';
}

/** The rows that are asked for, in the order that is asked for; those alike by name, then by key. */
export function yardShown(rows: readonly YardRow[], choices: YardChoices): readonly YardRow[] {
  const searched = searchFor(choices.search);
  const shown = rows.filter(
    (row) =>
      searched(row.search) &&
      hasVerdict(row, choices.verdict) &&
      (choices.moved === '' || row.movedWord === choices.moved) &&
      isDue(row, choices.due),
  );
  const way = choices.turned ? -1 : 1;
  const rank = RANKS[choices.sort];
  return shown.sort((a, b) => {
    const [one, other] = [rank(a), rank(b)];
    if (one !== other) {
      if (one === undefined) return 1;
      if (other === undefined) return -1;
      return one < other ? -way : way;
    }
    return byName(a, b) * (choices.sort === 'name' ? way : 1) || (a.hull < b.hull ? -1 : 1);
  });
}

function byName(a: YardRow, b: YardRow): number {
  return a.sortName < b.sortName ? -1 : a.sortName > b.sortName ? 1 : 0;
}

/** The first way round, each begins with what should be seen first: the latest survey, the gravest verdict, what moved,
 *  the check that is longest due. */
const RANKS: Readonly<Record<SortBy, (row: YardRow) => number | undefined>> = {
  name: () => undefined,
  survey: ({ days }) => days,
  verdict: ({ verdictWords: [word] }) => (word === undefined ? undefined : gravity(word)),
  moved: ({ movedWord }) => (movedWord === undefined ? undefined : MOVED.indexOf(movedWord)),
  due: ({ dueIn }) => dueIn,
};

function gravity(word: string): number {
  return word === 'hook and rocker' ? -1 : VERDICTS.findIndex((asked) => asked === word);
}

function hasVerdict(
  { verdictWords, unanimous, workingOut }: YardRow,
  asked: VerdictAsked | '',
): boolean {
  if (asked === '') return true;
  if (asked === 'none') return verdictWords.length === 0 && !workingOut;
  if (asked === 'fair') return unanimous && verdictWords[0] === 'fair';
  return verdictWords.some((word) => word.split(' and ').includes(asked));
}

/** What comes up is not due yet; what is due has come up. */
function isDue({ dueState }: YardRow, asked: DueAsked | ''): boolean {
  if (asked === '') return true;
  if (asked === 'comes up') return dueState === 'due' || dueState === 'comes up';
  if (asked === 'not due') return dueState === 'not due' || dueState === 'comes up';
  return dueState === asked;
}
