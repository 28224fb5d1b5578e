import type { Section } from '../../src/fit/sections.ts';
import { hatchPath, type Box } from './hatch.ts';

/** A section as it is drawn: told by its letter, its hatch and its outline, and by colour besides. */
export interface DrawnSection extends Box {
  readonly key: string;
  readonly class: Section['class'];
  readonly letter: 'H' | 'R' | 'F' | '?';
  /** The letter, with the word where there is room for it. */
  readonly label: string;
  /** Middle of the box, for the label. */
  readonly middle: readonly [x: number, y: number];
  /** Strokes: rising for hook, falling for rocker; none for fair and for undecided, whose outline is broken. */
  readonly hatch: string;
  /** "hook, proven", "undecided, more likely hook than not". */
  readonly words: string;
}

export const LETTERS: Readonly<Record<Section['class'], DrawnSection['letter']>> = {
  hook: 'H',
  rocker: 'R',
  fair: 'F',
  undecided: '?',
};

/** A section in its box; `em`: height of text. The label lies along the box's longer side's middle. */
export function drawnSection(section: Section, box: Box, em: number): DrawnSection {
  const is = section.class;
  const letter = LETTERS[is];
  const lean = is === 'hook' ? 'rising' : is === 'rocker' ? 'falling' : undefined;
  const roomy = box.width >= (is.length + 4) * 0.62 * em;
  return {
    ...box,
    key: `${section.from}-${section.to}`,
    class: is,
    letter,
    label: roomy ? `${letter} ${is}` : letter,
    middle: [box.x + box.width / 2, box.y + box.height / 2],
    hatch: lean === undefined ? '' : hatchPath(box, em * 0.55, lean),
    words: sectionWords(section),
  };
}

export function sectionWords({ class: is, leaning }: Section): string {
  if (is !== 'undecided') return `${is}, proven`;
  return `undecided, leaning to ${leaning}`;
}

/** The section that a station lies in; undefined where it was not judged. */
export function sectionAt(sections: readonly Section[], station: number): Section | undefined {
  return sections.find(({ from, to }) => station >= from - 1e-6 && station <= to + 1e-6);
}
