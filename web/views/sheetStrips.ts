import { showWorkDepth } from '../../src/fairing/workStep.ts';
import type { WorkPlan } from '../../src/fairing/plan/plan.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { inWorkUnit } from './readingText.ts';
import { isPlanned, nameOf } from './sheetFirst.ts';
import { whereWords } from './sheetLine.ts';
import { stripView, type StripMark, type StripView } from './stripView.ts';

/** A full-size strip for each worked line, from the transom to the end of its work. */
export function planStrips({ lines }: WorkPlan, unit: WorkUnit): readonly StripView[] {
  return lines.filter(isPlanned).flatMap((plan) => {
    const patches = [...plan.fill, ...plan.grind];
    if (patches.length === 0) return [];
    const to = Math.max(...patches.map((patch) => patch.to));
    const marks = plan.stations
      .filter(({ station }) => station <= to + 1 && station >= 0)
      .map((s): StripMark => {
        const at = { station: s.station, text: inWorkUnit({ mm: s.station, text: s.text }, unit) };
        if (s.is !== 'worked') {
          const words = 'reason' in s ? s.reason : s.is === 'unread' ? 'NOT READ' : 'leave';
          return { ...at, words };
        }
        const depth = (d: typeof s.fill) => `${showWorkDepth(d, unit)} ${unit}`;
        const fill = s.fill.rounded === 0 ? undefined : depth(s.fill);
        const grind = s.grind.rounded === 0 ? undefined : depth(s.grind);
        return fill === undefined && grind === undefined
          ? { ...at, words: 'leave' }
          : { ...at, ...(fill && { fill }), ...(grind && { grind }) };
      });
    const { side } = plan.line;
    return [
      stripView({ name: nameOf(plan), where: whereWords(plan, unit), side, to, marks, unit }),
    ];
  });
}
