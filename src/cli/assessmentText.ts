import type { LineAssessment, Remark, SurveyAssessment } from '../survey/assessment.ts';
import { measuredParts, showLine, showTolerance } from '../survey/figures.ts';
import { lineWords } from '../survey/verdictWords.ts';
import type { PanelsAssessment } from '../survey/panels/assessPanels.ts';
import { budgetText } from './budgetText.ts';
import { gaugeDivisions } from './gaugeDivisions.ts';
import { layOut } from './layOut.ts';
import { panelsText } from './panelsText.ts';

/** The assessment as a table for people, then each line in words, then what else the readings suggest,
 *  then how sure each line's figures are and why.
 *  assumed: what was taken of the file though it does not say so; resolution: a gauge division asked for, mm. */
export function assessmentText(
  all: SurveyAssessment,
  assumed: readonly string[],
  resolution?: number,
  panels?: PanelsAssessment,
): string {
  const { survey, tolerance, limit, edges, lines, remarks } = all;
  const unit = survey.workUnit;
  const head = [
    ...(survey.hull ? [survey.hull + (survey.date ? `, ${survey.date}` : '')] : []),
    `Tolerance ${showTolerance(tolerance.gap, unit)} over ${showTolerance(tolerance.over, unit)}${byDefault(tolerance.houseDefault)}; judged to ${showTolerance(limit.mm, unit)} forward of the transom${byDefault(limit.houseDefault)}.`,
    `${gaugeWords(all, resolution)}Repeatability ${repeatabilityWords(all)}.`,
    'What follows a ± is what the figure may be out by (about 95 %). Scatter alone makes a straight line show a small departure.',
    // An edge of which nothing is known has a note of its own below.
    ...edges.filter(({ state }) => state !== 'not stated').map(({ words }) => words[0]),
    ...assumed.map((words) => `Taken although the file does not say so: ${words}.`),
  ];
  const rows = lines.map((line) => tableRow(line, all));
  const columns = [
    'line',
    'where',
    'verdict',
    `hollow (${unit})`,
    `hump (${unit})`,
    'readings',
    'single reading',
  ];
  const table = layOut([columns, ...rows]);
  const words = lines.map((line) => paragraph(line, all));
  const note = (about: (r: Remark) => boolean) =>
    remarks.filter(about).map((r) => `Note: ${r.words}`);
  const overall = note((r) => r.about === 'survey');
  const more = note((r) => r.about !== 'survey');
  const surfaces = panels === undefined ? [] : [panelsText(panels, all)];
  const sure = lines.map((line) => budgetText(line, all)).filter((text) => text !== '');
  const caution =
    'A measurement exhibit, not a condition survey. A soft, wet or flexing bottom is structure, not filler: stop and ask a qualified marine surveyor. Local codes and licensed practice come first.';
  return `${[head.join('\n'), table, ...overall, ...words, ...surfaces, ...more, ...sure, caution].join('\n\n')}\n`;
}

function byDefault(houseDefault: boolean): string {
  return houseDefault ? ' (house default)' : '';
}

function gaugeWords({ survey }: SurveyAssessment, resolution: number | undefined): string {
  const { divisions, houseDefault } = gaugeDivisions(survey, resolution);
  const [finest, coarsest] = [divisions[0], divisions[divisions.length - 1]];
  if (finest === undefined) return '';
  const [fine, coarse] = [finest, coarsest].map((mm) => showTolerance(mm, survey.workUnit));
  const range = finest === coarsest ? fine : `between ${fine} and ${coarse}`;
  return `Gauge read to ${range}${byDefault(houseDefault)}. `;
}

function repeatabilityWords({ repeatability, survey }: SurveyAssessment): string {
  const { from, dof } = repeatability;
  if (from === 'house default') return 'half a division (house default)';
  const size = measuredParts(repeatability.mm, repeatability.mm / 20, 'mm').size;
  const shown =
    survey.workUnit === 'in' ? `${(repeatability.mm / 25.4).toFixed(3)} in` : `${size} mm`;
  return from === 'repeats'
    ? `${shown}, found from repeats (${dof} degrees of freedom)`
    : `${shown}, as stated`;
}

function tableRow(line: LineAssessment, all: SurveyAssessment): string[] {
  const unit = all.survey.workUnit;
  const { word } = lineWords(line, all, unit);
  const where = showLine(line.line.side, line.line.offset, unit);
  const part = line.parts > 1 ? ` ${line.part}/${line.parts}` : '';
  const name = line.line.name + part;
  if (!line.outcome.ok) return [name, where, word, '', '', String(line.readings), ''];
  const { division } = line.outcome;
  const { hollow, hump } = line.outcome.judgement;
  const size = (d: { size: number; u: number }) => {
    // What is not told from none is shown no finer than the gauge was read.
    const u = d.size < 2 * d.u ? Math.max(d.u, division / 2) : d.u;
    const parts = measuredParts(d.size, u, unit);
    return `${parts.size} ± ${parts.spread}`;
  };
  const single = measuredParts(0, line.outcome.readingUncertainty, unit).spread;
  return [
    name,
    where,
    word,
    size(hollow),
    size(hump),
    String(line.readings),
    `± ${single} ${unit}`,
  ];
}

function paragraph(line: LineAssessment, all: SurveyAssessment): string {
  const { word, where, findings, proof, blind, next } = lineWords(line, all);
  return [
    `${word}: ${where}. ${[...findings, proof, blind].filter(Boolean).join(' ')}`,
    ...next.map((step) => `  Next: ${step}`),
  ].join('\n');
}
