import type { LineAssessment } from '../../src/survey/assessment.ts';
import {
  showLine,
  showMeasured,
  showPlace,
  showStretch,
  type WorkUnit,
} from '../../src/survey/figures.ts';
import { shownChords } from './profileChords.ts';
import { sectionWords } from './sectionMarks.ts';

export interface ProfileWords {
  /** Stands over the picture: "P18 · PORT". */
  readonly title: string;
  /** "18 in from the keel". */
  readonly where: string;
  /** Accessible name. */
  readonly name: string;
  /** What the picture shows, for those who hear it. */
  readonly summary: string;
}

export function profileWords(
  line: LineAssessment,
  toleranceWords: string,
  unit: WorkUnit,
): ProfileWords {
  const where = showLine(line.line.side, line.line.offset, unit);
  const part = line.parts > 1 ? `, part ${line.part} of ${line.parts}` : '';
  return {
    title: `${line.line.name} · ${line.line.side.toUpperCase()}`,
    where: where.replace(/^\w+, /, '') + part,
    name: `Profile of line ${line.line.name}, ${where}${part}`,
    summary: summaryOf(line, toleranceWords, unit),
  };
}

function summaryOf(
  { outcome, readings, stations }: LineAssessment,
  toleranceWords: string,
  unit: WorkUnit,
): string {
  const read = `${readings} ${readings === 1 ? 'reading' : 'readings'} at ${stations} ${stations === 1 ? 'station' : 'stations'}.`;
  if (!outcome.ok) {
    return `${read} Too few to draw a profile: ${outcome.needed} stations are needed.`;
  }
  const { judgement } = outcome;
  const sections = judgement.sections.map(
    (s) => `${sectionWords(s)}, from ${showStretch(s.from, s.to, unit)} forward of the transom`,
  );
  const chords = shownChords(judgement).map(
    ({ is, deepest }) =>
      `Largest ${is} ${showMeasured(deepest.size, deepest.u, unit)} at ${showPlace(deepest.at, unit)}.`,
  );
  return `${read} Sections: ${sections.join('; ')}. ${chords.join(' ')} Tolerance ${toleranceWords}.`;
}
