import type { Entry } from '../../src/book/entry.ts';
import { checkWork, type WorkCheck } from '../../src/fairing/checkWork.ts';
import type { PlanOptions } from '../../src/fairing/plan/options.ts';
import type { WorkPlan } from '../../src/fairing/plan/plan.ts';
import { workPlan } from '../../src/fairing/plan/workPlan.ts';
import { showWorkDepth } from '../../src/fairing/workStep.ts';
import { compare } from '../../src/seasons/compare.ts';
import { ALIKE } from '../../src/seasons/unlike.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { readStanding, type Stated } from '../../src/survey/fold/readStanding.ts';
import { inWorkUnit } from './readingText.ts';

/** The sheet of that id, where it stands. */
export function sheetOf(standing: readonly Entry[], id: string): Stated<'sheet'> | undefined {
  const found = standing.find(({ _id }) => _id === id);
  return found === undefined ? undefined : readStanding([found]).of('sheet')[0];
}

/** The plan of what is left, asked as the sheet was, on the lines that the sheet worked and that are not proven fair. */
export function remainderPlan(
  sheet: Stated<'sheet'>,
  now: SurveyAssessment,
  options: PlanOptions,
): WorkPlan {
  const worked = new Set(sheet.body.figures.map(({ line }) => line));
  const lines = now.lines.filter(({ line }) => worked.has(line.id));
  const open = lines.filter(
    ({ outcome }) => outcome.ok && !outcome.judgement.verdict.includes('fair'),
  );
  const { grindLimit, fillLimit, forward, camber } = sheet.body;
  return workPlan(
    { ...now, lines },
    {
      ...options,
      way: sheet.body.way,
      ...(grindLimit && { grindLimit: grindLimit.mm }),
      ...(fillLimit && { fillLimit: fillLimit.mm }),
      ...(forward && { forward: forward.mm }),
      ...(camber && { camber: { shape: camber.shape, height: camber.height.mm } }),
      also: open.map(({ line }) => line.id),
    },
  );
}

/** The check of the work: the control line by comparison with the survey before, whatever else is unlike, since a
 *  change of set-up is what it is there to show. */
export function workCheck(
  sheet: Stated<'sheet'>,
  before: SurveyAssessment,
  now: SurveyAssessment,
  remainder: WorkPlan,
): WorkCheck {
  const worked = new Set(sheet.body.figures.map(({ line }) => line));
  const untouched = (of: SurveyAssessment): SurveyAssessment => ({
    ...of,
    survey: { ...of.survey, lines: of.survey.lines.filter(({ id }) => !worked.has(id)) },
    lines: of.lines.filter(({ line }) => !worked.has(line.id)),
  });
  const first = untouched(before);
  const control = first.survey.lines.map(({ name }) => name);
  const { control: says } = compare(first, untouched(now), { control, accept: ALIKE });
  return checkWork(sheet.body, now, remainder, says);
}

export interface CheckTable {
  readonly name: string;
  readonly word: string;
  readonly rows: readonly {
    readonly station: string;
    readonly asked: string;
    readonly now: string;
  }[];
}

/** Station by station, what the sheet asked and what is left. */
export function checkTables({ lines }: WorkCheck, unit: WorkUnit): readonly CheckTable[] {
  return lines.map(({ name, word, stations }) => ({
    name,
    word,
    rows: stations.map((check) => {
      const { station, fill, grind } = check;
      const asked = [
        ...(fill.mm > 0 ? [`fill ${fill.text} ${unit}`] : []),
        ...(grind.mm > 0 ? [`grind ${grind.text} ${unit}`] : []),
      ];
      return {
        station: inWorkUnit(station, unit),
        asked: asked.length === 0 ? 'leave' : asked.join(', '),
        now:
          check.is === 'left'
            ? leftWords(check, unit)
            : check.is === 'in'
              ? 'nothing left'
              : check.is,
      };
    }),
  }));
}

function leftWords(
  { fillLeft, grindLeft }: Extract<WorkCheck['lines'][number]['stations'][number], { is: 'left' }>,
  unit: WorkUnit,
): string {
  return [
    ...(fillLeft.rounded > 0 ? [`fill ${showWorkDepth(fillLeft, unit)} ${unit} more`] : []),
    ...(grindLeft.rounded > 0 ? [`grind ${showWorkDepth(grindLeft, unit)} ${unit} more`] : []),
  ].join(', ');
}
