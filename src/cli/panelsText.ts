import type { SurveyAssessment } from '../survey/assessment.ts';
import type { PanelsAssessment } from '../survey/panels/assessPanels.ts';
import { panelWords, sidesSentence } from '../survey/panels/panelWords.ts';

/** Panels in words, a paragraph each, then port against starboard; empty where nobody laid a straightedge across. */
export function panelsText(panels: PanelsAssessment, all: SurveyAssessment): string {
  if (all.survey.across === undefined) return '';
  const unit = all.survey.workUnit;
  const paragraphs = panels.panels.map((panel) => {
    const { word, where, findings, closure, next } = panelWords(panel, all, unit);
    return [
      `${word}: ${where}. ${[...findings, closure].filter(Boolean).join(' ')}`,
      ...next.map((step) => `  Next: ${step}`),
    ].join('\n');
  });
  const sides = sidesSentence(panels, unit);
  const whole = panels.panels.some(({ side }) => side === 'both');
  const head = whole ? 'The bottom as one surface' : 'Each side as one surface';
  return [head, ...paragraphs, ...(sides === '' ? [] : [sides])].join('\n\n');
}
