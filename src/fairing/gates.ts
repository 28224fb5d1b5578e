import type { Remark, SurveyAssessment } from '../survey/assessment.ts';
import { surveyKeyOf } from '../survey/fold/hullOf.ts';
import { readStanding } from '../survey/fold/readStanding.ts';
import type { Entry } from '../book/entry.ts';
import type { Found } from '../survey/kinds/cause.ts';
import type { BodyOf } from '../survey/kinds/kinds.ts';
import { agreementOf } from '../survey/causes/agreement.ts';
import { hookOrRocker } from './hookOrRocker.ts';
import { OTHER_CAUSES } from '../survey/causes/otherCauses.ts';

/** What people stated of a survey before any irreversible work; of several statements about one thing the last by id
 *  holds. Absent is not checked. */
export interface GateStatements {
  readonly gates: ReadonlyMap<string, BodyOf<'gate'>>;
  readonly causes: ReadonlyMap<string, BodyOf<'cause'>>;
  readonly complaint?: BodyOf<'complaint'>;
  readonly decision?: BodyOf<'decision'>;
}

export const NO_STATEMENTS: GateStatements = { gates: new Map(), causes: new Map() };

/** Reads them from the standing entries of one hull, in whatever order. */
export function gateStatementsOf(standing: readonly Entry[], surveyKey: string): GateStatements {
  const read = readStanding(standing.filter(({ _id }) => surveyKeyOf(_id) === surveyKey));
  const complaint = read.of('complaint').at(-1)?.body;
  const decision = read.of('decision').at(-1)?.body;
  return {
    gates: new Map(read.of('gate').map(({ body }) => [body.gate, body])),
    causes: new Map(read.of('cause').map(({ body }) => [body.cause, body])),
    ...(complaint && { complaint }),
    ...(decision && { decision }),
  };
}

const GATE = {
  sounded: 'sounded',
  flex: 'flex',
  moisture: 'moisture',
  structure: 'stringers and transom',
  secondEdge: 'second edge',
  builder: 'builder',
  afloat: 'days afloat',
} as const;

export type Answer = 'yes' | 'no' | 'NOT CHECKED';

/** One gate as it stands. */
export interface Gate {
  readonly gate: string;
  readonly asks: string;
  readonly answer: Answer;
  /** Passed: the answer that lets the work go on was given. */
  readonly passed: boolean;
  readonly by?: string;
}

export interface CauseFound {
  readonly cause: string;
  readonly test: string;
  readonly found: Found | 'NOT CHECKED';
  readonly how?: string;
}

/** A sentence, and the gates or causes that it is about, where it is about some. */
export interface Reason {
  readonly words: string;
  readonly about: readonly string[];
}

/** Why the work may disappoint, and who accepts that it may. */
export interface Against {
  /** `worse`: what was measured works against what the boat is said to do; `unexplained`: it does not explain it, or not yet. */
  readonly because: 'worse' | 'unexplained';
  readonly words: string;
  readonly acceptedBy?: string;
}

/** Whether work may begin. `stop`: it may not, and why; `not yet`: nothing forbids it, but these have to be done
 *  first; `go`. */
export interface Gates {
  readonly go: 'go' | 'not yet' | 'stop';
  /** Why it stops, or what has to come first. */
  readonly why: readonly Reason[];
  readonly gates: readonly Gate[];
  readonly causes: readonly CauseFound[];
  readonly against?: Against;
  readonly decision?: BodyOf<'decision'>;
  /** The outcome is a qualified surveyor's to judge. */
  readonly referred: boolean;
}

const STRUCTURE =
  'Soft, wet or flexing is structure, not filler. Refer to a qualified marine surveyor before any other work.';
const MOULDED =
  'The shape is the builder’s own: leave it, unless the builder says that it may be changed.';
const WAIT =
  'Part of it may go by itself after days afloat: float the boat, haul out, survey again, and only then decide. Filled now it would become a hump.';

interface Rule {
  readonly gate: string;
  readonly asks: string;
  readonly passes: 'yes' | 'no';
  readonly otherwise: string;
  /** Asked only where the readings suggest it. */
  readonly when?: (kinds: ReadonlySet<Remark['kind']>) => boolean;
}

const alike = (kinds: ReadonlySet<Remark['kind']>) =>
  kinds.has('same departure on every line') || kinds.has('alike port and starboard');

const RULES: readonly Rule[] = [
  { gate: GATE.sounded, asks: 'Sounded: solid all over', passes: 'yes', otherwise: STRUCTURE },
  { gate: GATE.flex, asks: 'Flexes when pushed', passes: 'no', otherwise: STRUCTURE },
  { gate: GATE.moisture, asks: 'Moisture found', passes: 'no', otherwise: STRUCTURE },
  {
    gate: GATE.structure,
    asks: 'Stringers and transom looked at: sound',
    passes: 'yes',
    otherwise: STRUCTURE,
  },
  {
    gate: GATE.secondEdge,
    asks: 'Alike on all lines: read again with another, checked edge; it shows the same',
    passes: 'yes',
    otherwise: 'The edge made it: check the edge and read again. There is nothing to fill.',
    when: alike,
  },
  {
    gate: GATE.builder,
    asks: 'Alike port and starboard: the builder says that it was moulded so',
    passes: 'no',
    otherwise: MOULDED,
    when: alike,
  },
  {
    gate: GATE.afloat,
    asks: 'Given days afloat since it stood on its trailer or bunks, and surveyed again',
    passes: 'yes',
    otherwise: WAIT,
    when: (kinds) => kinds.has('may recover afloat'),
  },
];

/** What stands between a survey and the work: gates, other causes, whether the measured class opposes the complaint,
 *  and the owner's choice. Nothing is taken as checked that nobody stated. Common practice, no source. */
export function gatesOf(
  assessment: SurveyAssessment,
  { gates: answers, causes: tried, complaint, decision }: GateStatements,
): Gates {
  const kinds = new Set(assessment.remarks.map(({ kind }) => kind));
  const asked = RULES.filter(({ when }) => when === undefined || when(kinds));
  const gates = asked.map(({ gate, asks, passes }): Gate => {
    const said = answers.get(gate);
    return {
      gate,
      asks,
      answer: said?.answer ?? 'NOT CHECKED',
      passed: said?.answer === passes,
      ...(said?.by !== undefined && { by: said.by }),
    };
  });
  const causes = OTHER_CAUSES.map(({ cause, test }): CauseFound => {
    const said = tried.get(cause);
    return {
      cause,
      test,
      found: said?.found ?? 'NOT CHECKED',
      ...(said?.how !== undefined && { how: said.how }),
    };
  });
  const against = againstOf(assessment, complaint, decision);
  const stops = unique([
    ...asked.flatMap(({ otherwise }, i) =>
      gates[i].answer !== 'NOT CHECKED' && !gates[i].passed ? [otherwise] : [],
    ),
    ...causes.flatMap(({ cause, found }) =>
      found === 'is the cause'
        ? [
            `The cause was found: ${cause}. Put that right and try the boat before touching the bottom.`,
          ]
        : [],
    ),
    ...chosenAgainst(decision),
  ]).map(plain);
  const waits = [
    ...waitFor(
      'Check first',
      gates.filter(({ answer }) => answer === 'NOT CHECKED').map(({ asks }) => asks),
    ),
    ...waitFor(
      'Rule out first, by a test that can be undone',
      causes.filter(({ found }) => found === 'NOT CHECKED').map(({ cause }) => cause),
    ),
    ...(against !== undefined && against.acceptedBy === undefined
      ? [plain(TO_ACCEPT[against.because])]
      : []),
    ...(decision === undefined
      ? [plain('The owner has to choose and sign before irreversible work.')]
      : []),
  ];
  return {
    go: stops.length > 0 ? 'stop' : waits.length > 0 ? 'not yet' : 'go',
    why: stops.length > 0 ? stops : waits,
    gates,
    causes,
    ...(against && { against }),
    ...(decision && { decision }),
    referred: decision?.choice === 'refer to a surveyor',
  };
}

const TO_ACCEPT: Readonly<Record<Against['because'], string>> = {
  worse: 'Somebody has to accept, by name, that a fairer bottom may make it worse.',
  unexplained: 'Somebody has to accept, by name, that the work may not mend what the boat does.',
};

/** Where nothing is hooked or rockered there is nothing to work, and so nothing to accept. */
function againstOf(
  assessment: SurveyAssessment,
  complaint: BodyOf<'complaint'> | undefined,
  decision: BodyOf<'decision'> | undefined,
): Against | undefined {
  const { says, words } = agreementOf(assessment, complaint);
  const accepted = (acceptedBy: string | undefined) =>
    acceptedBy === undefined ? {} : { acceptedBy };
  if (says === 'opposes') {
    return { because: 'worse', words, ...accepted(decision?.acceptsWorse) };
  }
  const proven = assessment.lines.some(
    ({ outcome }) => outcome.ok && hookOrRocker(outcome.judgement.verdict),
  );
  return (says === 'does not explain it' || says === 'not decided') && proven
    ? { because: 'unexplained', words, ...accepted(decision?.acceptsUnexplained) }
    : undefined;
}

function chosenAgainst(decision: BodyOf<'decision'> | undefined): readonly string[] {
  switch (decision?.choice) {
    case 'nothing':
      return [`${decision.by} chose to leave the bottom as it is.`];
    case 'move weight':
      return [`${decision.by} chose to move weight first: the bottom stays as it is.`];
    case 'refer to a surveyor':
      return ['Referred to a qualified marine surveyor: no work until they have reported.'];
    case 'fill':
    case 'grind':
    case 'fill and grind':
    case undefined:
      return [];
  }
}

function waitFor(words: string, about: readonly string[]): readonly Reason[] {
  return about.length === 0 ? [] : [{ words, about }];
}

function plain(words: string): Reason {
  return { words, about: [] };
}

/** A reason in full: "Check first: sounded; moisture." */
export function reasonWords({ words, about }: Reason): string {
  return about.length === 0 ? words : `${words}: ${about.join('; ')}.`;
}

function unique(words: readonly string[]): readonly string[] {
  return [...new Set(words)];
}
