import type { SurveyAssessment } from '../../src/survey/assessment.ts';

type Outcome = SurveyAssessment['lines'][number]['outcome'];
export type Section = Extract<Outcome, { ok: true }>['judgement']['sections'][number];

/** A section on paper: told by its letter, its hatch and its outline, never by colour. */
export interface SectionMark {
  readonly from: number;
  readonly to: number;
  readonly letter: 'H' | 'R' | 'F' | '?';
  readonly class: Section['class'];
  /** Places of its hatch strokes, mm on paper; none for fair and undecided. */
  readonly hatch: readonly number[];
}

export const SECTION_LETTERS: readonly (readonly [SectionMark['letter'], string])[] = [
  ['H', 'hook'],
  ['R', 'rocker'],
  ['F', 'fair'],
  ['?', 'undecided'],
];

const HATCH = 1.8;

/** Sections on paper. `place`: takes mm on the hull to mm on paper. */
export function sectionMarks(
  sections: readonly Section[],
  place: (mm: number) => number,
): readonly SectionMark[] {
  return sections.map((section) => {
    const ends = [place(section.from), place(section.to)].sort((a, b) => a - b);
    const [from, to] = ends;
    const hatched = section.class === 'hook' || section.class === 'rocker';
    const count = hatched ? Math.floor((to - from) / HATCH) : 0;
    return {
      from,
      to,
      letter: letterOf(section.class),
      class: section.class,
      hatch: Array.from({ length: count }, (_, i) => Math.round((from + i * HATCH) * 100) / 100),
    };
  });
}

function letterOf(is: Section['class']): SectionMark['letter'] {
  return is === 'hook' ? 'H' : is === 'rocker' ? 'R' : is === 'fair' ? 'F' : '?';
}
