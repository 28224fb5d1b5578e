import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/book/entry.ts';
import { hullOf } from '../../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../../src/survey/fold/surveyOf.ts';
import { draftOf } from '../../../src/survey/kinds/draft.ts';
import { checkOrder, checkOrderWords } from '../../../web/views/checkOrder.ts';
import { entriesOf, idOf, mm, SURVEY } from '../../survey/fold/samples.ts';

const line = (side: 'port' | 'starboard', offset: number) =>
  draftOf('line', { side, offset: mm(offset) }, { ref: `${side}${offset}` });
const laid = (on: string) =>
  draftOf('placement', { line: on, name: '1', repeat: 1, held: 'resting', division: mm(0.5) });

const [P200, , P700, S400] = [0, 1, 2, 3].map((n) => idOf(n, 'hull'));

function order(worked: readonly string[]) {
  const entries = entriesOf([
    line('port', 200),
    line('port', 400),
    line('port', 700),
    line('starboard', 400),
    draftOf('survey', { workUnit: 'mm', measured: 'hand' }),
    laid('port200'),
    laid('port700'),
    laid('starboard400'),
    draftOf(
      'sheet',
      {
        number: 3,
        way: 'fill only',
        step: mm(0.5),
        figures: worked.map((each) => ({
          line: each,
          name: each,
          station: mm(300),
          fill: mm(2),
          grind: mm(0),
        })),
      },
      { ref: 'sheet' },
    ),
  ]);
  const sheet = entries.find(({ kind }) => kind === 'sheet') as Entry;
  const told = (standing: readonly Entry[]) =>
    checkOrder(sheet._id, standing, hullOf(entries).lines, (key) =>
      key === SURVEY ? surveyOf(entries, new Map(), key).survey : undefined,
    );
  return { told: told(entries), struck: told(entries.filter((each) => each !== sheet)) };
}

describe('a survey that checks a worksheet', () => {
  it('reads a line first that was read before and not worked, the nearest on the side of the work before others', () => {
    const { told } = order([P200]);
    expect(told?.untouched.map(({ name }) => name)).toEqual(['P700', 'S400']);
    expect(told?.worked.map(({ name }) => name)).toEqual(['P200']);
    expect(told && checkOrderWords(told)).toMatch(
      /^This survey checks sheet 3\. First read a line that was not worked, P700 or S400: .* Then read what was worked: P200\. The page Sheet says/,
    );
  });

  it('says so where no line was left alone', () => {
    const { told } = order([P200, P700, S400]);
    expect(told?.untouched).toEqual([]);
    expect(told && checkOrderWords(told)).toContain('No line was left alone');
  });

  it('has nothing to say once the sheet is struck', () => {
    expect(order([P200]).struck).toBeUndefined();
  });
});
