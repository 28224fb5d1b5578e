import * as v from 'valibot';

const count = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const words = v.array(v.string());

const moved = v.variant('outcome', [
  v.object({
    outcome: v.picklist(['moved', 'not moved', 'cannot tell']),
    since: v.string(),
    lines: words,
    compared: count,
    setUpChanged: v.exactOptional(v.literal(true)),
  }),
  v.object({ outcome: v.literal('not compared'), why: words }),
  v.object({ outcome: v.literal('one survey only') }),
  /** A log is judged when its survey is opened, not here. */
  v.object({ outcome: v.literal('not worked out'), why: v.string() }),
]);

/** What the yard's list keeps of a hull, as its database has it. */
export const hullFactsFields = {
  name: v.exactOptional(v.string()),
  builder: v.exactOptional(v.string()),
  /** Hull identification number. */
  hin: v.exactOptional(v.string()),
  /** Months between checks, where that is the hull's own. */
  checkEvery: v.exactOptional(count),
  invented: v.boolean(),
  entries: count,
  surveys: count,
  lastSurvey: v.exactOptional(v.object({ key: v.string(), date: v.exactOptional(v.string()) })),
  verdict: v.array(v.object({ word: v.string(), lines: count })),
  verdictFailure: v.exactOptional(v.string()),
  moved: v.exactOptional(moved),
  measured: v.exactOptional(v.string()),
};

/** What the last survey of a hull says, line by line, counted by word: `Hook`, 2 lines. The gravest first. */
export interface VerdictCount {
  readonly word: string;
  readonly lines: number;
}

export type MovedFacts = Readonly<v.InferOutput<typeof moved>>;

/** What the yard's list shows of a hull. */
export interface HullFacts {
  /** Absent until somebody has given a name. */
  readonly name?: string;
  readonly builder?: string;
  readonly hin?: string;
  readonly checkEvery?: number;
  readonly invented: boolean;
  readonly entries: number;
  readonly surveys: number;
  readonly lastSurvey?: { readonly key: string; readonly date?: string };
  /** Empty where there is no survey, or none of its lines has a reading. */
  readonly verdict: readonly VerdictCount[];
  /** Why there is no verdict although there is a survey that should have one. */
  readonly verdictFailure?: string;
  /** Whether the hull moved before its last survey; absent where none has a date and a reading. */
  readonly moved?: MovedFacts;
  /** What verdict and movement were worked out from: where it is the same again, so are they. */
  readonly measured?: string;
}

/** The form of a summary: one that was worked out in another form is worked out again. */
export const SUMMARY_FORM = 2;
