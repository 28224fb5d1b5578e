import type { Deepest, Judgement } from '../fit/judge.ts';
import type { Section } from '../fit/sections.ts';
import type { Judged, LineAssessment, SurveyAssessment } from './assessment.ts';
import {
  showAngle,
  showLine,
  showMeasured,
  showPlace,
  showStretch,
  showTolerance,
  type WorkUnit,
} from './figures.ts';
import { nextSteps } from './nextStep.ts';

/** A line read over less of the edge's length than this is not called fair without saying so: a long
 *  hollow read in short pieces shows little in each. */
const MOST_OF = 0.9;

/** A line's verdict in words a customer understands: the word first, then what, where, how much,
 *  how sure, over what range; and what to measure next when it is undecided. */
export interface LineWords {
  readonly word: string;
  readonly where: string;
  /** One sentence a finding. */
  readonly findings: readonly string[];
  readonly proof: string;
  /** What these stations cannot show. */
  readonly blind: string;
  /** Worked out when it is asked for. */
  readonly next: readonly string[];
}

export function lineWords(
  line: LineAssessment,
  all: SurveyAssessment,
  unit: WorkUnit = all.survey.workUnit,
): LineWords {
  const { tolerance, limit } = all;
  const where =
    showLine(line.line.side, line.line.offset, unit) +
    (line.parts > 1 ? ` (part ${line.part} of ${line.parts})` : '');
  if (!line.outcome.ok) {
    const { n, needed } = line.outcome;
    const missing = `${n} usable station${n === 1 ? '' : 's'} within the limit; ${needed} are needed.`;
    return {
      word: n < needed ? 'Too few readings' : 'Cannot be fitted',
      where,
      findings: [n < needed ? missing : 'No profile fits these figures.'],
      proof: 'Nothing can be said.',
      blind: '',
      get next() {
        return nextSteps(line, all, unit);
      },
    };
  }
  const { judgement } = line.outcome;
  const whole = Math.min(tolerance.over, limit.mm, line.line.limit ?? Infinity);
  return {
    word: verdictWord(judgement),
    where,
    findings: findings(judgement, tolerance.gap, unit),
    proof: proof(judgement, whole, tolerance.over, unit),
    blind: blindness(line.outcome.spacing, unit),
    get next() {
      return nextSteps(line, all, unit);
    },
  };
}

/** "Hook", "Hook and rocker", "Fair", "Undecided". */
export function verdictWord({ verdict }: Pick<Judgement, 'verdict'>): string {
  const words = verdict.join(' and ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function findings(judgement: Judgement, tolerance: number, unit: WorkUnit): string[] {
  const said: string[] = [];
  const { verdict, hollow, hump, sections, tail, judged } = judgement;
  const departing = sections.filter((s) => s.leaning !== 'fair');
  for (const section of departing.sort((a, b) => Number(b.proven) - Number(a.proven))) {
    const deepest = section.leaning === 'hook' ? hollow : hump;
    const inside = deepest.at >= section.from && deepest.at <= section.to;
    said.push(sectionSentence(section, inside ? deepest : undefined, unit));
  }
  if (said.length === 0) {
    const worst = hollow.size >= hump.size ? hollow : hump;
    const size = `${showMeasured(worst.size, worst.u, unit)} ${worst === hollow ? 'hollow' : 'proud'}`;
    const place = worst.size > 2 * worst.u ? `, near ${showPlace(worst.at, unit)}` : '';
    const stretch = `From ${showStretch(judged[0], judged[1], unit)} forward of the transom`;
    const allowed = showTolerance(tolerance, unit);
    const against = verdict.includes('undecided')
      ? `not proven to stay within the ${allowed} allowed`
      : `${allowed} is allowed`;
    said.push(`${stretch} the largest departure is ${size}${place}; ${against}.`);
  }
  if (tail && Math.abs(tail.angle) >= 2 * tail.u) {
    const way = tail.angle > 0 ? 'down' : 'up';
    const turned = showAngle(Math.abs(tail.angle), tail.u);
    const tab = tail.angle > 0 && verdict.includes('hook') ? ', like a fixed tab' : '';
    said.push(
      `Over the last ${showPlace(tail.over, unit)} the bottom turns ${way} by ${turned}${tab}.`,
    );
  }
  return said;
}

function sectionSentence(section: Section, deepest: Deepest | undefined, unit: WorkUnit): string {
  const kind = section.leaning === 'hook' ? 'Hollow' : 'Hump';
  const sure = section.proven ? '' : `Perhaps a ${kind.toLowerCase()}, not proven: `;
  const stretch = `from ${showStretch(section.from, section.to, unit)} forward of the transom`;
  if (!deepest) return `${sure || `${kind} `}${stretch}.`;
  const size = showMeasured(deepest.size, deepest.u, unit);
  const how = section.leaning === 'hook' ? 'deep' : 'high';
  const chord = `measured from a straight line laid from ${showStretch(deepest.from, deepest.to, unit)}`;
  return `${sure || `${kind} `}${size} ${how} near ${showPlace(deepest.at, unit)}, ${chord}; ${section.proven ? '' : 'perhaps '}beyond tolerance ${stretch}.`;
}

function blindness({ narrowest, widest }: Judged['spacing'], unit: WorkUnit): string {
  const [shortest, farthest] = [narrowest, widest].map((step) => showPlace(3 * step, unit));
  if (shortest === farthest) return `A feature shorter than about ${shortest} might not show.`;
  return `A feature shorter than about ${shortest} (${farthest} where stations are farthest apart) might not show.`;
}

/** `whole`: as much of a line as an edge of the tolerance's length would lie on. */
function proof(
  { verdict, sections, fairness, judged }: Judgement,
  whole: number,
  over: number,
  unit: WorkUnit,
): string {
  if (verdict.includes('fair')) {
    const read = judged[1] - judged[0];
    if (read >= MOST_OF * whole) return 'Proven fair.';
    return `Proven fair over the ${showPlace(read, unit)} that were read, and no farther: a straightedge of ${showTolerance(over, unit)} would span more.`;
  }
  if (!verdict.includes('undecided')) return 'Proven.';
  const leaning = sections
    .filter((s) => s.leaning !== 'fair')
    .sort((a, b) => b.probability - a.probability)[0];
  if (leaning) return `Not proven either way: more likely a ${leaning.leaning} than fair.`;
  return fairness >= 0.5
    ? 'Not proven either way: more likely fair than not.'
    : 'Not proven either way.';
}
