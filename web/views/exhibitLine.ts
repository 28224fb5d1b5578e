import type { Judgement } from '../../src/fit/judge.ts';
import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import {
  measuredParts,
  showAngle,
  showPlace,
  showStretch,
  type WorkUnit,
} from '../../src/survey/figures.ts';
import { lineWords } from '../../src/survey/verdictWords.ts';
import { readingCount } from '../../src/survey/usableColumns.ts';
import { profileScale } from './profileScale.ts';
import { profileView, type ProfileView } from './profileView.ts';
import { sectionWords } from './sectionMarks.ts';
import { laidWords } from './sheetLaid.ts';
import { whereWords } from './sheetLine.ts';

/** One line of the exhibit: its verdict in words, its sizes with what they may be out by, and its figure. */
export interface ExhibitLine {
  readonly key: string;
  readonly name: string;
  /** "PORT, 18 in from the KEEL", and which part where it was judged in parts. */
  readonly where: string;
  readonly word: string;
  readonly proof: string;
  readonly findings: readonly string[];
  readonly sections: string;
  readonly tail: string;
  readonly blind: string;
  readonly next: readonly string[];
  readonly read: string;
  readonly figure: ProfileView;
}

/** A row of the table on the first page: figures in the unit of its head. */
export interface ExhibitRow {
  readonly key: string;
  readonly name: string;
  /** "PORT, 18 in". */
  readonly where: string;
  readonly word: string;
  readonly hollow: string;
  readonly hump: string;
  readonly tail: string;
}

/** mm on paper: what A4 and Letter both have between their margins, two figures with their words to a page. */
const FIGURE = { width: 184, height: 70, unit: 'mm', text: 3.6 } as const;

type LineAndRow = ExhibitLine & { readonly row: ExhibitRow };

const known = new WeakMap<SurveyAssessment, Map<WorkUnit, readonly LineAndRow[]>>();

/** The lines of an assessment, worked out once for each: what would decide a line takes seconds to find. */
export function exhibitLines(assessment: SurveyAssessment, unit: WorkUnit): readonly LineAndRow[] {
  const byUnit = known.get(assessment) ?? new Map<WorkUnit, readonly LineAndRow[]>();
  const lines = byUnit.get(unit) ?? linesOf(assessment, unit);
  known.set(assessment, byUnit.set(unit, lines));
  return lines;
}

function linesOf(assessment: SurveyAssessment, unit: WorkUnit): readonly LineAndRow[] {
  const scale = profileScale(
    assessment.lines,
    { limit: assessment.limit.mm, tolerance: assessment.tolerance.gap },
    FIGURE,
  );
  return assessment.lines.map((line) => {
    const words = lineWords(line, assessment, unit);
    const key = `${line.line.id}/${line.part}`;
    const where =
      whereWords(line, unit) + (line.parts > 1 ? `, part ${line.part} of ${line.parts}` : '');
    const judgement = line.outcome.ok ? line.outcome.judgement : undefined;
    const { name } = line.line;
    return {
      key,
      name,
      where,
      word: words.word,
      proof: words.proof,
      findings: words.findings,
      sections: judgement === undefined ? '' : sectionsSaid(judgement, unit),
      tail: judgement === undefined ? '' : tailSaid(judgement, unit),
      blind: words.blind,
      next: words.next,
      read: readSaid(line, unit),
      figure: profileView(line, assessment, { size: FIGURE, scale, unit }),
      row: {
        key,
        name,
        where: where.replace(' from the KEEL', ''),
        word: words.word,
        ...(judgement === undefined
          ? { hollow: '–', hump: '–', tail: '–' }
          : {
              hollow: sized(judgement.hollow, unit),
              hump: sized(judgement.hump, unit),
              tail: turned(judgement.tail) ?? 'not given',
            }),
      },
    };
  });
}

function sized({ size, u }: { size: number; u: number }, unit: WorkUnit): string {
  const parts = measuredParts(size, u, unit);
  return `${parts.size} ± ${parts.spread}`;
}

/** "0.35° ± 0.10° down"; without a way where it cannot be told from none. */
function turned(tail: Judgement['tail']): string | undefined {
  if (tail === undefined) return undefined;
  const told = Math.abs(tail.angle) >= 2 * tail.u;
  const way = !told ? '' : tail.angle > 0 ? ' down' : ' up';
  return `${showAngle(Math.abs(tail.angle), tail.u)}${way}`;
}

function tailSaid({ tail }: Judgement, unit: WorkUnit): string {
  if (tail === undefined) {
    return 'Tail angle: not given, too little was read ahead of the tail.';
  }
  const told = Math.abs(tail.angle) >= 2 * tail.u ? '' : ', not told apart from none';
  return `Tail angle over the last ${showPlace(tail.over, unit)}: ${turned(tail) ?? ''}${told}.`;
}

function sectionsSaid({ sections }: Judgement, unit: WorkUnit): string {
  const said = sections.map(
    (section) => `${showStretch(section.from, section.to, unit)} ${sectionWords(section)}`,
  );
  return `Sections, forward of the transom: ${said.join('; ')}.`;
}

function readSaid({ line, readings, stations, logged }: LineAssessment, unit: WorkUnit): string {
  const laid = line.placements.filter((placement) => readingCount(placement) > 0);
  const how = [...new Set(laid.map((placement) => laidWords(placement, unit)))];
  const count = logged === undefined ? readings : logged;
  const what = logged === undefined ? 'readings' : 'logged readings';
  return `Read: ${count} ${what} at ${stations} judged stations, ${laid.length} ${laid.length === 1 ? 'laying' : 'layings'}; ${how.join('; ')}.`;
}
