import type { Verdict } from '../../fit/judge.ts';
import type { SurveyAssessment } from '../assessment.ts';
import type { BodyOf } from '../kinds/kinds.ts';

/** Whether what was measured of the bottom goes with what the boat is said to do. */
export interface Agreement {
  readonly says:
    | 'agrees'
    | 'opposes'
    | 'does not explain it'
    | 'not decided'
    | 'nothing measured'
    | 'nothing complained of';
  readonly words: string;
}

type Proven = ReadonlySet<Verdict>;

/** A hook holds the bow down: the boat ploughs, is slow to plane. A rocker lets it rise: it porpoises. Unlike sides make
 *  it list and pull. Only what is proven speaks. Common practice, no source. */
export function agreementOf(
  assessment: SurveyAssessment | undefined,
  complaint: BodyOf<'complaint'> | undefined,
): Agreement {
  const lines = assessment?.lines ?? [];
  if (lines.length === 0) {
    return { says: 'nothing measured', words: 'The bottom has not been measured yet.' };
  }
  const does = new Set<string>(complaint?.does);
  if (does.size === 0) {
    return {
      says: 'nothing complained of',
      words:
        'What the boat does is not stated: without it nobody can say whether the bottom explains it.',
    };
  }
  const proven = provenOf(lines);
  const opposed = opposition(proven, does);
  if (opposed !== undefined) return { says: 'opposes', words: opposed };
  const bow = ['ploughs', 'slow to plane'].filter((what) => does.has(what));
  if (proven.has('hook') && bow.length > 0) {
    return {
      says: 'agrees',
      words: `The bottom is hooked, and the boat ${does.has('ploughs') ? 'ploughs' : 'is slow to plane'}: a hook holds the bow down, so the two agree.`,
    };
  }
  if (proven.has('rocker') && does.has('porpoises')) {
    return {
      says: 'agrees',
      words:
        'The bottom is rockered, and the boat porpoises: a rocker lets the bow rise, so the two agree.',
    };
  }
  const [port, starboard] = (['port', 'starboard'] as const).map((side) =>
    shapesOf(provenOf(lines.filter(({ line }) => line.side === side))),
  );
  if ((does.has('lists') || does.has('pulls')) && port !== starboard) {
    return {
      says: 'agrees',
      words: `PORT is ${port}, STARBOARD ${starboard}: sides that differ can make it list or pull. So can the propeller, an engine out of plumb, wet foam, or a load off centre.`,
    };
  }
  const open = lines.some(
    ({ outcome }) => !outcome.ok || outcome.judgement.verdict.includes('undecided'),
  );
  if (open) {
    return {
      says: 'not decided',
      words: 'The bottom is not decided on every line: measure more before it is blamed.',
    };
  }
  const shape = shapesOf(proven);
  const fair = shape === 'without a proven hook or rocker';
  return {
    says: 'does not explain it',
    words: fair
      ? 'The bottom is fair: it does not explain what the boat does.'
      : `The bottom is ${shape}, which by itself does not explain what the boat does.`,
  };
}

function provenOf(lines: SurveyAssessment['lines']): Proven {
  return new Set(lines.flatMap(({ outcome }) => (outcome.ok ? outcome.judgement.verdict : [])));
}

function shapesOf(proven: Proven): string {
  if (proven.has('hook')) return proven.has('rocker') ? 'hooked and rockered' : 'hooked';
  return proven.has('rocker') ? 'rockered' : 'without a proven hook or rocker';
}

/** A hook holds the bow down and works against porpoising; a rocker lets it rise and works against ploughing. */
function opposition(proven: Proven, does: ReadonlySet<string>): string | undefined {
  if (proven.has('hook') && !proven.has('rocker') && does.has('porpoises')) {
    return 'The boat porpoises, and the bottom is hooked. A hook holds the bow down and works against porpoising: a fairer bottom may porpoise more.';
  }
  if (proven.has('rocker') && !proven.has('hook') && does.has('ploughs')) {
    return 'The boat ploughs, and the bottom is rockered. A rocker lets the bow rise and works against ploughing: a fairer bottom may plough more.';
  }
  return undefined;
}
