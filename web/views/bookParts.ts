import { NO_SURVEY } from '../../src/book/id.ts';
import { BOOK_GROUPS, type BookGroup } from '../../src/survey/bookWords/wording.ts';
import type { SurveyLine } from '../../src/survey/fold/surveysOf.ts';
import type { BookLine } from './bookView.ts';

/** What is shown of the book. Empty: everything. */
export interface BookFilter {
  readonly survey: string;
  readonly by: string;
  readonly group: '' | BookGroup;
  readonly struckOnly: boolean;
  readonly search: string;
}

export const WHOLE_BOOK: BookFilter = {
  survey: '',
  by: '',
  group: '',
  struckOnly: false,
  search: '',
};

/** The lines that a filter lets through, in the same order. */
export function filteredLines(lines: readonly BookLine[], filter: BookFilter): readonly BookLine[] {
  const words = filter.search.trim().toLowerCase().split(/\s+/).filter(Boolean);
  return lines.filter(
    (line) =>
      (filter.survey === '' || line.survey === filter.survey) &&
      (filter.by === '' || line.by === filter.by) &&
      (filter.group === '' || line.group === filter.group) &&
      (!filter.struckOnly || line.struck.length > 0 || line.struckRows.size > 0) &&
      words.every((word) => line.text.includes(word)),
  );
}

/** What a filter leaves, in words for the head of a page; empty for the whole book. */
export function filterWords(filter: BookFilter, title: (survey: string) => string): string {
  return [
    ...(filter.survey === '' ? [] : [title(filter.survey)]),
    ...(filter.by === '' ? [] : [`entries by ${filter.by}`]),
    ...(filter.group === '' ? [] : [BOOK_GROUPS[filter.group].toLowerCase()]),
    ...(filter.struckOnly ? ['only what was struck'] : []),
    ...(filter.search.trim() === '' ? [] : [`with “${filter.search.trim()}”`]),
  ].join('; ');
}

/** A choice of a filter, with how many lines it has. */
export interface Choice {
  readonly value: string;
  readonly count: number;
}

/** The values that lines have of something, in the order of their first appearance. */
export function choicesOf(
  lines: readonly BookLine[],
  of: (line: BookLine) => string,
): readonly Choice[] {
  const counts = new Map<string, number>();
  for (const line of lines) {
    const count = counts.get(of(line));
    counts.set(of(line), count === undefined ? 1 : count + 1);
  }
  return [...counts].map(([value, count]) => ({ value, count }));
}

/** Lines of one day in one survey. */
export interface BookPart {
  readonly key: string;
  readonly day: string;
  readonly survey: string;
  readonly lines: readonly BookLine[];
}

/** Lines in the order of the book, parted by day and survey. */
export function bookParts(lines: readonly BookLine[]): readonly BookPart[] {
  const parts: (BookPart & { readonly lines: BookLine[] })[] = [];
  for (const line of lines) {
    const { day, survey } = line;
    const last = parts.at(-1);
    if (last?.day === day && last.survey === survey) last.lines.push(line);
    else parts.push({ key: `${day} ${survey}`, day, survey, lines: [line] });
  }
  return parts;
}

/** What a survey is called in the book, by its key. */
export function surveyTitles(surveys: readonly SurveyLine[]): (survey: string) => string {
  const known = new Map(surveys.map((survey) => [survey.key, survey]));
  return (key) => {
    if (key === NO_SURVEY) return 'The hull itself';
    const survey = known.get(key);
    if (survey === undefined) return `Survey ${key}, struck or not arrived`;
    const date = survey.date === undefined ? 'without a date' : `of ${survey.date}`;
    return `Survey ${date}${survey.place === undefined ? '' : `, ${survey.place}`}`;
  };
}
