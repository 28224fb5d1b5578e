import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { CONDITION } from '../../src/survey/kinds/condition.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { stillMissing } from '../../src/survey/stillMissing.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { inWorkUnit } from './readingText.ts';

/** One thing that cannot be had once the boat has rolled out. */
export interface Question {
  readonly about: string;
  /** What to ask. */
  readonly ask: string;
  /** How the answer is given. */
  readonly as: 'text' | 'length' | 'days' | 'temperature' | 'time' | readonly string[];
  /** What was answered; absent while it is missing. */
  readonly said?: string;
}

const SURFACES = ['bare', 'thin paint', 'built-up', 'scraped'] as const;

const ASKED: readonly Pick<Question, 'about' | 'ask' | 'as'>[] = [
  { about: CONDITION.surface, ask: 'Surface at the stations', as: SURFACES },
  {
    about: CONDITION.transomRadius,
    ask: 'Radius of the transom edge (0 if it is sharp)',
    as: 'length',
  },
  { about: CONDITION.hauled, ask: 'Hauled when', as: 'time' },
  { about: CONDITION.daysAfloat, ask: 'Days afloat before', as: 'days' },
  { about: CONDITION.lastSupport, ask: 'What it stood on for long before this', as: 'text' },
  {
    about: CONDITION.bunksEnd,
    ask: 'Those bunks ended how far forward of the transom',
    as: 'length',
  },
  { about: CONDITION.tabs, ask: 'Tabs and pockets, and how the tabs were set', as: 'text' },
  {
    about: CONDITION.sun,
    ask: 'Sun on the bottom',
    as: ['none', 'on one side', 'on all of it'],
  },
  { about: CONDITION.temperature, ask: 'Temperature', as: 'temperature' },
];

/** Every question of the list, each with its answer where there is one. */
export function questions(survey: Survey): readonly Question[] {
  const missing = new Set(stillMissing(survey).map(({ about }) => about));
  const said = new Map(
    Object.entries(survey.conditions).map(([about, text]) => [about.trim().toLowerCase(), text]),
  );
  return ASKED.map((asked) => {
    if (missing.has(asked.about)) return asked;
    const { transomRadius: mm } = survey;
    const figure =
      asked.about === CONDITION.transomRadius && mm !== undefined
        ? inWorkUnit({ mm, text: `${Number(mm.toFixed(1))} mm` }, survey.workUnit)
        : '';
    return { ...asked, said: said.get(asked.about) ?? figure };
  });
}

/** Stations put off that nobody has come back to, in words. */
export function comeBackTo(survey: Survey): readonly string[] {
  return stillMissing(survey)
    .filter(({ about }) => about === 'station put off')
    .map(({ ask }) => ask);
}

/** Names of the hull's lines along which nothing was laid in this survey. */
export function linesNotLaid(survey: Survey, lines: readonly HullLine[]): readonly string[] {
  const laid = new Set(
    survey.lines.filter(({ placements }) => placements.length > 0).map(({ id }) => id),
  );
  return lines.filter(({ ids }) => !ids.some((id) => laid.has(id))).map(({ name }) => name);
}

/** How many things of the list are missing; it holds back the printed sheet, never a reading. */
export function missingCount(survey: Survey): number {
  return stillMissing(survey).length;
}

export type Answer =
  | { readonly ok: true; readonly body: BodyOf<'condition'> }
  | { readonly ok: false; readonly words: string };

/** An answer as the record keeps it: what was written, and beside it the figure where there is one to reckon with. */
export function answer(
  { about, as }: Pick<Question, 'about' | 'as'>,
  text: string,
  unit: 'mm' | 'in',
): Answer {
  const said = text.trim();
  if (said === '') return { ok: false, words: 'Nothing is written yet.' };
  const found = (expected: string): Answer => ({
    ok: false,
    words: `Found “${said}”, expected ${expected}.`,
  });
  if (as === 'length') {
    const read = readLength(said, { unit });
    if (!read.ok) return found(read.expected);
    if (read.mm < 0) return found('a length of 0 or more');
    const full = read.stated ? read.text : `${read.text} ${read.unit}`;
    return { ok: true, body: { about, said: full, length: { mm: read.mm, text: full } } };
  }
  if (as === 'days') {
    const match = /^(\d{1,6}(?:[.,]\d+)?)\s*(?:days?)?$/i.exec(said);
    if (match === null) return found('days as a number, 0 or more');
    return { ok: true, body: { about, said, days: Number(match[1].replace(',', '.')) } };
  }
  if (as === 'temperature') {
    const match = /^(-?\d{1,3}(?:[.,]\d+)?)\s*°?\s*([CF])$/i.exec(said);
    if (match === null) return found('degrees with their scale, such as 18 C or 64 F');
    const degrees = Number(match[1].replace(',', '.'));
    const celsius = match[2].toUpperCase() === 'F' ? ((degrees - 32) * 5) / 9 : degrees;
    return { ok: true, body: { about, said, celsius: Number(celsius.toFixed(2)) } };
  }
  if (about === CONDITION.surface) {
    const surface = SURFACES.find((each) => each === said);
    if (surface !== undefined) return { ok: true, body: { about, said, surface } };
  }
  return { ok: true, body: { about, said } };
}
