import type { Section } from '../../src/fit/sections.ts';
import type { LineAssessment } from '../../src/survey/assessment.ts';
import { showLine, type WorkUnit } from '../../src/survey/figures.ts';
import type { Line, Side } from '../../src/survey/survey.ts';
import { verdictWord } from '../../src/survey/verdictWords.ts';

/** A station of a line on the plan, mm forward of the transom, and what stands there. */
export interface PlanStation {
  readonly station: number;
  readonly state: 'read' | 'void' | 'later' | 'open';
}

/** A line as the plan needs it, whether or not it has been measured or judged. Lengths in mm. */
export interface PlanLine {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  readonly offset: number;
  readonly stations: readonly PlanStation[];
  readonly sections: readonly Section[];
  /** Said of it behind its name: "Hook", "12 of 14 read". */
  readonly word: string;
}

/** The lines of an assessment, the parts of a line on one another. */
export function planLines(lines: readonly LineAssessment[]): readonly PlanLine[] {
  const byId = new Map<string, LineAssessment[]>();
  for (const each of lines) byId.set(each.line.id, [...(byId.get(each.line.id) ?? []), each]);
  return [...byId.values()].map((parts) => {
    const { line } = parts[0];
    const words = parts.map(({ outcome }) =>
      outcome.ok ? verdictWord(outcome.judgement) : 'Too few readings',
    );
    return {
      ...bare(line),
      stations: stationsOf(line),
      sections: parts.flatMap(({ outcome }) => (outcome.ok ? outcome.judgement.sections : [])),
      word: [...new Set(words)].join(', '),
    };
  });
}

/** Each station once: read where any placement has a reading there. */
export function stationsOf({ placements }: Pick<Line, 'placements'>): readonly PlanStation[] {
  const states = new Map<number, PlanStation['state']>();
  for (const { later } of placements) for (const s of later) states.set(s.station.mm, 'later');
  for (const { voids } of placements) for (const s of voids) states.set(s.station.mm, 'void');
  for (const { readings } of placements) for (const r of readings) states.set(r.station.mm, 'read');
  return [...states]
    .map(([station, state]) => ({ station, state }))
    .sort((a, b) => a.station - b.station);
}

/** "P18, port, 18 in from the keel: Hook". */
export function planLineWords({ name, side, offset, word }: PlanLine, unit: WorkUnit): string {
  const where = showLine(side, offset, unit);
  return `${name}, ${where}${word === '' ? '' : `: ${word}`}`;
}

function bare({ id, name, side, offset }: Line): Pick<PlanLine, 'id' | 'name' | 'side' | 'offset'> {
  return { id, name, side, offset };
}
