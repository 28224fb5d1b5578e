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
  readonly next: readonly string[];
}

export function lineWords(
  line: LineAssessment,
  { tolerance, survey }: SurveyAssessment,
  unit: WorkUnit = survey.workUnit,
): LineWords {
  const where =
    showLine(line.line.side, line.line.offset, unit) +
    (line.parts > 1 ? ` (part ${line.part} of ${line.parts})` : '');
  const next = nextSteps(line, tolerance.gap, unit);
  if (!line.outcome.ok) {
    const { n, needed } = line.outcome;
    return {
      word: 'Too few readings',
      where,
      findings: [
        `${n} usable station${n === 1 ? '' : 's'} within the limit; ${needed} are needed.`,
      ],
      proof: 'Nothing can be said.',
      blind: '',
      next,
    };
  }
  const { judgement } = line.outcome;
  return {
    word: verdictWord(judgement),
    where,
    findings: findings(judgement, tolerance.gap, unit),
    proof: proof(judgement),
    blind: blindness(line.outcome.spacing, unit),
    next,
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
  for (const section of sections) {
    if (section.leaning === 'fair') continue;
    const deepest = section.leaning === 'hook' ? hollow : hump;
    const inside = deepest.at >= section.from && deepest.at <= section.to;
    said.push(sectionSentence(section, inside ? deepest : undefined, unit));
  }
  if (said.length === 0) {
    const worst = hollow.size >= hump.size ? hollow : hump;
    const size = `${showMeasured(worst.size, worst.u, unit)} ${worst === hollow ? 'hollow' : 'proud'}`;
    const stretch = `between ${showPlace(judged[0], unit)} and ${showPlace(judged[1], unit)} forward of the transom`;
    const allowed = showTolerance(tolerance, unit);
    said.push(
      verdict.includes('undecided')
        ? `At most ${size}, as far as these readings tell, ${stretch}; not proven to stay within the ${allowed} allowed.`
        : `Nowhere more than ${size} ${stretch}; allowed are ${allowed}.`,
    );
  }
  if (tail && Math.abs(tail.angle) >= 2 * tail.u) {
    const turned = showAngle(Math.abs(tail.angle), tail.u);
    const way = tail.angle > 0 ? `down by ${turned}, like a fixed tab` : `up by ${turned}`;
    said.push(`The last ${showPlace(tail.over, unit)} turn ${way}.`);
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
  const under = `under a straight line from ${showStretch(deepest.from, deepest.to, unit)}`;
  return `${sure || `${kind} `}${size} ${how} at ${showPlace(deepest.at, unit)}, ${under}; beyond tolerance ${stretch}.`;
}

function blindness({ narrowest, widest }: Judged['spacing'], unit: WorkUnit): string {
  const shortest = showPlace(3 * narrowest, unit);
  if (widest - narrowest < 1) return `A feature shorter than about ${shortest} would not show.`;
  return `A feature shorter than about ${shortest} (${showPlace(3 * widest, unit)} where stations are farthest apart) would not show.`;
}

function proof({ verdict, sections, fairness }: Judgement): string {
  if (verdict.includes('fair')) return 'Proven fair.';
  if (!verdict.includes('undecided')) return 'Proven.';
  const leaning = sections
    .filter((s) => s.leaning !== 'fair')
    .sort((a, b) => b.probability - a.probability)[0];
  if (leaning) return `Not proven either way: more likely a ${leaning.leaning} than fair.`;
  return fairness >= 0.5
    ? 'Not proven either way: more likely fair than not.'
    : 'Not proven either way.';
}
