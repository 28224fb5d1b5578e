import type { Entry } from '../../src/book/entry.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { surveyKeyOf } from '../../src/survey/fold/hullOf.ts';
import { readStanding } from '../../src/survey/fold/readStanding.ts';
import type { Survey } from '../../src/survey/survey.ts';

/** What a survey made to check a worksheet has to read, in turn. */
export interface CheckOrder {
  /** The sheet's number. */
  readonly number: number;
  /** Lines read before the work that the sheet leaves alone, the nearest to the work first: one of them is read first. */
  readonly untouched: readonly HullLine[];
  /** Lines that the sheet works. */
  readonly worked: readonly HullLine[];
}

/** `checks`: id of the sheet. `surveyOf`: a survey of the hull by its key. Absent where the sheet does not stand. */
export function checkOrder(
  checks: string,
  standing: readonly Entry[],
  lines: readonly HullLine[],
  surveyOf: (key: string) => Survey | undefined,
): CheckOrder | undefined {
  const [sheet] = readStanding(standing.filter(({ _id }) => _id === checks)).of('sheet');
  if (sheet === undefined) return undefined;
  const figured = new Set(sheet.body.figures.map(({ line }) => line));
  const read = new Set(
    (surveyOf(surveyKeyOf(sheet.id))?.lines ?? [])
      .filter(({ placements }) => placements.length > 0)
      .map(({ id }) => id),
  );
  const worked = lines.filter(({ ids }) => ids.some((id) => figured.has(id)));
  const away = ({ side, offset }: HullLine): number =>
    Math.min(
      ...worked.map((each) =>
        each.side === side ? Math.abs(each.offset.mm - offset.mm) : Infinity,
      ),
    );
  const untouched = lines
    .filter((line) => line.ids.some((id) => read.has(id)) && !worked.includes(line))
    .map((line) => ({ line, away: away(line) }))
    .sort((a, b) => (a.away < b.away ? -1 : a.away > b.away ? 1 : 0))
    .map(({ line }) => line);
  return { number: sheet.body.number, untouched, worked };
}

export function checkOrderWords({ number, untouched, worked }: CheckOrder): string {
  const then = worked.map(({ name }) => name).join(', ');
  const first =
    untouched.length === 0
      ? 'No line was left alone, so nothing can show whether the set-up is the same. Read'
      : `First read a line that was not worked, ${untouched.map(({ name }) => name).join(' or ')}: if it has changed, so has the set-up or the hull, and nothing may be called repaired. Then read`;
  return `This survey checks sheet ${number}. ${first} what was worked: ${then}. The page Sheet says what is done and what is left.`;
}
