import { readFileSync } from 'node:fs';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import type { Line, Placement, Reading, Survey, Typed } from '../../src/survey/survey.ts';
import type { Remark, SurveyAssessment } from '../../src/survey/assessment.ts';

/** A sample survey by its file's name below fixtures/samples; its readings are invented. */
export function sample(name: string): Survey {
  return surveyIn(readFileSync(new URL(`../../fixtures/samples/${name}`, import.meta.url), 'utf8'));
}

export function surveyIn(csv: string): Survey {
  const read = readCsv(csv);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.survey;
}

export function typed(mm: number): Typed {
  return { mm, text: String(mm) };
}

export function readingOf(station: number, gap: number, more: Partial<Reading> = {}): Reading {
  return { station: typed(station), gap: typed(gap), look: 1, source: `row ${station}`, ...more };
}

/** A placement resting on the hull, with a gauge read to 0.1 mm unless said otherwise. */
export function placementOf(
  stations: readonly number[],
  gap: (x: number) => number,
  more: Partial<Placement> = {},
): Placement {
  return {
    id: 'P450/1/1',
    name: '1',
    repeat: 1,
    held: 'resting',
    division: 0.1,
    readings: stations.map((x) => readingOf(x, gap(x))),
    voids: [],
    later: [],
    ...more,
  };
}

export function lineOf(placements: readonly Placement[], more: Partial<Line> = {}): Line {
  return { id: 'P450', name: 'P450', side: 'port', offset: 450, placements, ...more };
}

export function surveyOf(lines: readonly Line[], more: Partial<Survey> = {}): Survey {
  return { conditions: {}, support: [], workUnit: 'mm', kind: 'hand', lines, ...more };
}

/** The same survey with every reading replaced. */
export function withReadings(survey: Survey, change: (reading: Reading) => Reading): Survey {
  return {
    ...survey,
    lines: survey.lines.map((line) => ({
      ...line,
      placements: line.placements.map((p) => ({ ...p, readings: p.readings.map(change) })),
    })),
  };
}

/** A placement of which nobody said this. */
export function unsaid(
  placement: Placement,
  fact: 'division' | 'blocksAt' | 'supportPeriod',
): Placement {
  const said = Object.entries(placement).filter(([key]) => key !== fact);
  return Object.fromEntries(said) as unknown as Placement;
}

/** Evenly spaced stations, both ends included. */
export function stationsTo(limit: number, spacing: number): number[] {
  return Array.from({ length: Math.round(limit / spacing) + 1 }, (_, i) => i * spacing);
}

/** A sickle of this depth between two places, else straight. Positive is a hollow: the gap grows. */
export function bump(depth: number, from: number, to: number): (x: number) => number {
  return (x) =>
    x <= from || x >= to ? 0 : depth * Math.sin((Math.PI * (x - from)) / (to - from)) ** 2;
}

/** The verdict of every line, by its name. */
export function verdicts({ lines }: SurveyAssessment): Record<string, string> {
  return Object.fromEntries(
    lines.map(({ line, part, parts, outcome }) => [
      parts > 1 ? `${line.name} ${part}/${parts}` : line.name,
      outcome.ok ? outcome.judgement.verdict.join(' and ') : outcome.reason,
    ]),
  );
}

/** The judgement of a line that must have one. */
export function judgementOf(assessment: SurveyAssessment, at = 0) {
  const { outcome } = assessment.lines[at];
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.judgement;
}

/** What is remarked besides that nobody checked the straightedge: no survey here says a word of its edge. */
export function besidesEdge({ remarks }: SurveyAssessment): readonly Remark[] {
  return remarks.filter(({ kind }) => kind !== 'edge not checked');
}
