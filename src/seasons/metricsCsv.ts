import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import { writeTextCell } from '../survey/csv/textCell.ts';
import {
  LINE_MEASURES,
  measureOf,
  portLessStarboard,
  type LineMeasure,
  type Sized,
} from './lineMeasure.ts';
import { SAME_LINE_WITHIN } from './matchLines.ts';
import { portAndStarboard } from './portAndStarboard.ts';

/** Heads of the columns. `u_` is a standard uncertainty; `against` is the line to starboard whose figure was taken
 *  off the port line's; sizes stand under `_mm`, angles under `_deg`, never both. */
export const METRIC_COLUMNS = [
  'hull',
  'date',
  'line',
  'side',
  'offset_mm',
  'against',
  'part',
  'measure',
  'size_mm',
  'u_size_mm',
  'angle_deg',
  'u_angle_deg',
  'judged_from_mm',
  'judged_to_mm',
  'verdict',
  'tolerance_mm',
  'over_mm',
  'not_given',
] as const;

type Row = Partial<Record<(typeof METRIC_COLUMNS)[number], string>>;

/** Every measure of every line of every survey, a row each, and of lines that stand alike port less starboard, as CSV
 *  (RFC 4180: comma, CRLF, quotes where a cell needs them). A figure that cannot be given leaves its cells empty and
 *  says why. Text cells that a spreadsheet would run as a formula are guarded.
 *  `within`: how far apart the offsets of a pair may be written, mm. */
export function metricsCsv(
  surveys: readonly SurveyAssessment[],
  { within = SAME_LINE_WITHIN }: { readonly within?: number } = {},
): string {
  const rows = surveys.flatMap((survey) => [...lineRows(survey), ...pairRows(survey, within)]);
  const cells = rows.map((row) => METRIC_COLUMNS.map((column) => quoted(row[column] ?? '')));
  return [METRIC_COLUMNS, ...cells].map((row) => `${row.join(',')}\r\n`).join('');
}

function lineRows(survey: SurveyAssessment): readonly Row[] {
  return survey.lines.flatMap((line) => {
    const { outcome, part, parts } = line;
    return LINE_MEASURES.map((measure): Row => ({
      ...headOf(line, survey),
      ...(parts > 1 && { part: `${part} of ${parts}` }),
      measure,
      ...(outcome.ok && {
        judged_from_mm: figure(outcome.judgement.judged[0]),
        judged_to_mm: figure(outcome.judgement.judged[1]),
        verdict: text(outcome.judgement.verdict.join(' and ')),
      }),
      ...(outcome.ok
        ? sizedCells(measureOf(outcome.judgement, measure), measure)
        : { not_given: `${outcome.n} of the ${outcome.needed} stations that are needed` }),
    }));
  });
}

function pairRows(survey: SurveyAssessment, within: number): readonly Row[] {
  const whole = survey.lines.filter(({ parts }) => parts === 1);
  const lines = whole.map(({ line }) => line);
  return portAndStarboard(lines, within).flatMap(([port, starboard]) => {
    const [one, other] = [port, starboard].map((line) => whole[lines.indexOf(line)]);
    if (!one.outcome.ok || !other.outcome.ok) return [];
    const [a, b] = [one.outcome.judgement, other.outcome.judgement];
    return LINE_MEASURES.map((measure): Row => ({
      ...headOf(one, survey),
      against: text(starboard.name),
      measure: measure === 'tail angle' ? 'twist' : `${measure}, port less starboard`,
      ...sizedCells(portLessStarboard(a, b, measure), measure),
    }));
  });
}

function headOf({ line }: LineAssessment, { survey, tolerance }: SurveyAssessment): Row {
  return {
    hull: text(survey.hull ?? ''),
    date: text(survey.date ?? ''),
    line: text(line.name),
    side: line.side,
    offset_mm: figure(line.offset),
    tolerance_mm: figure(tolerance.gap),
    over_mm: figure(tolerance.over),
  };
}

function sizedCells(sized: Sized | undefined, measure: LineMeasure): Row {
  if (sized === undefined) return { not_given: 'too little of the line lies forward of the tail' };
  const [value, u] = [figure(sized.value), figure(sized.u)];
  return measure === 'tail angle'
    ? { angle_deg: value, u_angle_deg: u }
    : { size_mm: value, u_size_mm: u };
}

/** To a ten-thousandth, never −0: finer than anything measured. */
function figure(value: number): string {
  const found = Number(value.toFixed(4));
  return String(found === 0 ? 0 : found);
}

/** Line breaks inside a name would be lawful and unreadable. */
function text(words: string): string {
  return writeTextCell(words.replaceAll(/\s+/g, ' ').trim());
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
