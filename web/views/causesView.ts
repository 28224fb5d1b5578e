import { readFigure, speedOf } from '../../src/running/file/quantity.ts';
import { speedUnitNamed, type SpeedUnit } from '../../src/running/speedUnits.ts';
import { agreementOf } from '../../src/survey/causes/agreement.ts';
import {
  firstTry,
  orderCauses,
  type CauseNow,
  type Finding,
} from '../../src/running/causes/orderCauses.ts';
import { outcomeOf } from '../../src/running/causes/outcome.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import type { Stated } from '../../src/survey/fold/readStanding.ts';
import { capital } from '../../src/survey/sentence.ts';
import { lineWords } from '../../src/survey/verdictWords.ts';

export const TRIAL_CAUTIONS =
  'Two aboard at least, lifejackets on, all seated, kill-cord on, calm and clear water, speed in steps. Engine off before anyone reaches to drive or propeller. Local rules and licensed practice come first.';

/** Everything that the page "Is it the bottom?" says. */
export function causesView(
  assessment: SurveyAssessment | undefined,
  complaint: BodyOf<'complaint'> | undefined,
  found: ReadonlyMap<string, BodyOf<'cause'>>,
  unit: 'mm' | 'in',
) {
  const causes = orderCauses(complaint, found);
  const bottom = agreementOf(assessment, complaint);
  const now = new Map(causes.map((each) => [each.cause, each]));
  return {
    /** Stay where they are while they are answered: what was found moves the next test, not the list. */
    causes: orderCauses(complaint, new Map()).map(({ cause }) => now.get(cause) as CauseNow),
    bottom,
    outcome: outcomeOf(causes, bottom),
    /** Only until something was found: from then on the next test leads. */
    first: causes.every((each) => each.found === 'NOT CHECKED')
      ? firstTry(complaint?.does ?? [])
      : [],
    lines: (assessment?.lines ?? []).map((line) => {
      const { where, word, proof } = lineWords(line, assessment as SurveyAssessment, unit);
      return { key: `${line.line.id} ${line.part}`, where, word, proof };
    }),
  };
}

/** Whether it is the bottom at all, in a sentence, as the worksheet's first page has it. */
export function outcomeWords(
  assessment: SurveyAssessment,
  complaint: BodyOf<'complaint'> | undefined,
  found: ReadonlyMap<string, BodyOf<'cause'>>,
): string {
  const { is, words } = outcomeOf(
    orderCauses(complaint, found),
    agreementOf(assessment, complaint),
  );
  // Which of them are not checked stands beside it.
  return is === 'test first'
    ? 'Not known yet. Leave it alone until the others are checked.'
    : capital(words);
}

/** A speed typed by hand: a bare number stands in `unit`. Undefined where it says none above 0. */
export function typedSpeed(
  text: string,
  unit: SpeedUnit,
): { readonly mps: number; readonly text: string } | undefined {
  const typed = text.trim().replace(',', '.');
  const full = /^[\d.]+$/.test(typed) ? `${typed} ${unit}` : typed;
  const mps = readFigure(full, speedOf);
  return mps !== undefined && mps > 0 ? { mps, text: full } : undefined;
}

/** The unit in which the last run was typed; knots before there is one. */
export function speedUnitOf(runs: readonly BodyOf<'sea trial'>[]): SpeedUnit {
  const word = /[a-z/]+$/i.exec(runs.at(-1)?.speed.text.trim() ?? '')?.[0] ?? 'kn';
  return speedUnitNamed(word) ?? 'kn';
}

type Cause = BodyOf<'cause'>;
/** What may be said of a cause besides what was found of it; undefined takes it away. */
export type CauseMore = {
  readonly [F in 'how' | 'by' | 'date' | 'pin' | 'engine' | 'bracket' | 'pocket']?:
    Cause[F] | undefined;
};

/** What is now said of a cause, with everything that was said of it before; undefined where nothing is left of it. A new
 *  finding is of the person who states it, today, until they say otherwise. */
export function causeSaid(
  former: Cause | undefined,
  cause: string,
  finding: Finding,
  more: CauseMore,
  now: { readonly person: string; readonly date: string },
): Cause | undefined {
  const anew = finding !== 'NOT CHECKED' && finding !== former?.found;
  const said: Record<string, unknown> = {
    ...former,
    found: undefined,
    ...(anew && { by: now.person, date: now.date }),
    ...more,
  };
  const left = Object.fromEntries(
    Object.entries(said).filter(
      ([, value]) => value !== undefined && value !== '' && !isEmpty(value),
    ),
  );
  const measured = ['pin', 'engine', 'bracket', 'pocket'].some((field) => field in left);
  if (finding === 'NOT CHECKED') return measured ? { ...left, cause } : undefined;
  return { ...left, cause, found: finding };
}

function isEmpty(value: unknown): boolean {
  return (
    typeof value === 'object' &&
    value !== null &&
    Object.values(value).every((each) => each === undefined)
  );
}

/** Who tried it and when: as stated, else who wrote it down. "Tried by Kim, 2026-06-01." */
export function triedWords(stated: Stated<'cause'>): string | undefined {
  if (stated.body.found === undefined) return undefined;
  const who = triedBy(stated);
  return who === undefined
    ? `Tried ${triedOn(stated)}; by whom is not stated.`
    : `Tried by ${who}, ${triedOn(stated)}.`;
}

/** Undefined where neither who tried it nor who wrote it down gave a name. */
export function triedBy({ body, by }: Stated<'cause'>): string | undefined {
  return body.by ?? (by === NAMELESS ? undefined : by);
}

export function triedOn({ body, at }: Stated<'cause'>): string {
  return body.date ?? at.slice(0, 10);
}

/** Who an entry is by, where nobody gave a name on that device. */
export const NAMELESS = 'not stated';
