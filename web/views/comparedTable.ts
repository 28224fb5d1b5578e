import type { Change, SectionChange, SizedChange } from '../../src/seasons/comparison.ts';
import type { ToldComparison, ToldLine } from '../../src/seasons/told.ts';
import {
  showAngle,
  showLine,
  showMeasured,
  showStretch,
  type WorkUnit,
} from '../../src/survey/figures.ts';
import { inOrder } from './seasonsLines.ts';

/** A line of a comparison in the table beside the pictures. */
export interface ComparedRow {
  readonly key: string;
  readonly told: ToldLine;
  /** "P700 (port, 700 mm from the keel)". */
  readonly name: string;
  readonly word: string;
  /** Largest change either way, and the tail's, each with what it may be out by; empty where not compared. */
  readonly inward: string;
  readonly outward: string;
  readonly tail: string;
  readonly sections: readonly string[];
  /** How it was matched, and whether it is a control line. */
  readonly remarks: readonly string[];
}

/** Every line that both surveys have, from the keel outwards, port beside starboard. */
export function comparedTable({ lines }: ToldComparison, unit: WorkUnit): readonly ComparedRow[] {
  return [...lines]
    .sort((a, b) => inOrder(a.second, b.second) || a.part - b.part)
    .map((told) => {
      const { second, first, part, parts, firstPart, outcome, matchedBy, control } = told;
      const piece = parts > 1 ? `, part ${part} of ${parts}` : '';
      return {
        key: `${second.id}/${part}/${first.id}/${firstPart}`,
        told,
        name: `${second.name} (${showLine(second.side, second.offset, unit)}${piece})`,
        word: told.words.word,
        inward: outcome.ok ? sized(outcome.inward, unit) : '',
        outward: outcome.ok ? sized(outcome.outward, unit) : '',
        tail: outcome.ok ? tailOf(outcome) : '',
        sections: outcome.ok ? outcome.sections.map((each) => sectionWords(each, unit)) : [],
        remarks: [
          ...(control ? ['control line'] : []),
          ...(matchedBy === 'landmark'
            ? [`matched by its landmark, ${second.landmark ?? ''}`]
            : []),
          ...(first.name === second.name ? [] : [`called ${first.name} then`]),
        ],
      };
    });
}

function sized({ way, size, u, at }: SizedChange, unit: WorkUnit): string {
  return `${way} ${showMeasured(size, u, unit)} near ${showStretch(at, at, unit).replace(/^.* to /, '')}`;
}

function tailOf({ tail }: Change): string {
  if (tail === undefined) return 'too short';
  const turned = tail.angle > 0 ? 'down' : 'up';
  const how = showAngle(Math.abs(tail.angle), tail.u);
  return tail.proven ? `turned ${turned} ${how}` : `${how} ${turned}, not proven`;
}

/** "0 to 900 mm: moved, hollow deeper". */
export function sectionWords({ from, to, outcome, way }: SectionChange, unit: WorkUnit): string {
  const how =
    way === undefined || outcome === 'not moved'
      ? ''
      : `, ${outcome === 'moved' ? '' : 'leaning to '}${way}`;
  return `${showStretch(from, to, unit)}: ${outcome}${how}`;
}
