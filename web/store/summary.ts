import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { Sha256 } from '../../src/book/sha256.ts';
import { standing } from '../../src/book/standing.ts';
import { acceptancesBetween, holding, type SurveyPair } from '../../src/seasons/acceptances.ts';
import { controlLinesBetween } from '../../src/seasons/controlLines.ts';
import { movedSince } from '../../src/seasons/movedSince.ts';
import { repairsOf } from '../../src/seasons/repairsOf.ts';
import { assess } from '../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { surveyOf } from '../../src/survey/fold/surveyOf.ts';
import { surveysOf } from '../../src/survey/fold/surveysOf.ts';
import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { verdictWord } from '../../src/survey/verdictWords.ts';
import { STRIKE } from './acts.ts';
import type { HullFacts, MovedFacts } from './hullFacts.ts';
import { reasonOf } from './reasonOf.ts';

/** How grave a word is: what must be seen in a list comes first. */
const GRAVITY = ['Hook and rocker', 'Hook', 'Rocker', 'Undecided', 'Too few readings', 'Fair'];

/** Kinds that change neither a reading nor how it is judged; what a strike does shows in what stands. */
const BESIDE = new Set([
  ...['cause', 'complaint', 'decision', 'feature', 'gate', 'hull', 'note', 'photo', 'sheet'],
  ...['sea trial', 'signature', STRIKE],
]);

type Judged = Pick<HullFacts, 'verdict' | 'verdictFailure' | 'moved'>;

/** What the list shows of a hull, from its entries. `known`: what it showed before; the verdict and the movement in it
 *  are taken over where nothing that they rest on has changed. */
export function factsOf(entries: readonly Entry[], known?: HullFacts): HullFacts {
  const { standing: standers, struckRows } = standing(bookOf(entries));
  const { hull, lines } = hullOf(standers);
  const { surveys } = surveysOf(standers);
  // Those without a date come last in the list, and are the last survey only where none has one.
  const last = surveys.filter(({ date }) => date !== undefined).at(-1) ?? surveys.at(-1);
  const measured = fingerprint(standers, struckRows);
  const judged = (): Judged => {
    if (last === undefined) return { verdict: [] };
    const folded = new Map(
      surveys.map(({ key }) => [key, surveyOf(standers, struckRows, key).survey]),
    );
    const assessOf = once(assess);
    const moved = movedOf(standers, lines, folded, assessOf);
    return {
      ...verdictOf(folded.get(last.key) as Survey, assessOf),
      ...(moved !== undefined && { moved }),
    };
  };
  return {
    ...(hull !== undefined && { name: hull.name }),
    ...(hull?.builder !== undefined && { builder: hull.builder }),
    ...(hull?.hin !== undefined && { hin: hull.hin }),
    ...(hull?.checkEvery !== undefined && { checkEvery: hull.checkEvery }),
    invented: hull?.invented === true,
    entries: entries.length,
    surveys: surveys.length,
    ...(last !== undefined && {
      lastSurvey: { key: last.key, ...(last.date !== undefined && { date: last.date }) },
    }),
    ...(known?.measured === measured ? judgedBefore(known) : judged()),
    measured,
  };
}

function judgedBefore({ verdict, verdictFailure, moved }: HullFacts): Judged {
  return {
    verdict,
    ...(verdictFailure !== undefined && { verdictFailure }),
    ...(moved !== undefined && { moved }),
  };
}

/** Entries never change, so which of them stand, and which of their rows, says whether anything measured did. */
function fingerprint(
  standers: readonly Entry[],
  struckRows: ReadonlyMap<string, readonly number[]>,
): string {
  const hash = new Sha256();
  const say = (text: string): void => hash.update(new TextEncoder().encode(`${text}\n`));
  for (const { _id, kind } of standers) if (!BESIDE.has(kind)) say(_id);
  for (const [id, rows] of struckRows) say(`${id} ${rows.join(' ')}`);
  return hash.hex();
}

function movedOf(
  standers: readonly Entry[],
  lines: readonly HullLine[],
  folded: ReadonlyMap<string, Survey>,
  assessOf: (survey: Survey) => SurveyAssessment,
): MovedFacts | undefined {
  const surveys = [...folded.values()];
  if (surveys.some((survey) => keptLogsOf(survey).length > 0)) {
    return { outcome: 'not worked out', why: 'logs are compared when they are opened' };
  }
  const keys = new Map([...folded].map(([key, survey]) => [survey, key]));
  const pairOf = (one: Survey, other: Survey): SurveyPair => [
    keys.get(one) as string,
    keys.get(other) as string,
  ];
  try {
    const moved = movedSince(
      surveys,
      {
        repairs: repairsOf(standers, lines, surveys).repairs,
        accepted: (one, other, unlike) =>
          holding(unlike, acceptancesBetween(standers, pairOf(one, other))).held.map(
            ({ what }) => what,
          ),
        control: (one, other) =>
          controlLinesBetween(standers, lines, pairOf(one, other)).map(({ name }) => name),
      },
      assessOf,
    );
    if (moved === undefined || moved.outcome === 'one survey only') return moved;
    return moved.outcome === 'not compared'
      ? { ...moved, why: [...moved.why] }
      : { ...moved, lines: [...moved.lines] };
  } catch (error) {
    return { outcome: 'not worked out', why: reasonOf(error) };
  }
}

function verdictOf(
  survey: Survey,
  assessOf: (survey: Survey) => SurveyAssessment,
): Pick<HullFacts, 'verdict' | 'verdictFailure'> {
  if (keptLogsOf(survey).length > 0) {
    return { verdict: [], verdictFailure: 'its log is read and judged when the survey is opened' };
  }
  try {
    const counts = new Map<string, number>();
    for (const { outcome, readings } of assessOf(survey).lines) {
      if (readings === 0) continue;
      const word = outcome.ok ? verdictWord(outcome.judgement) : 'Too few readings';
      const known = counts.get(word);
      counts.set(word, known === undefined ? 1 : known + 1);
    }
    const verdict = [...counts].map(([word, lines]) => ({ word, lines }));
    verdict.sort((a, b) => GRAVITY.indexOf(a.word) - GRAVITY.indexOf(b.word));
    return { verdict };
  } catch (error) {
    return { verdict: [], verdictFailure: reasonOf(error) };
  }
}

function once<K extends object, T>(make: (key: K) => T): (key: K) => T {
  const known = new Map<K, T>();
  return (key) => {
    const made = known.get(key) ?? make(key);
    known.set(key, made);
    return made;
  };
}
