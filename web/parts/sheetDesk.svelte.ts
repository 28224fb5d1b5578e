import type { Survey } from '../../src/survey/survey.ts';
import { surveyText } from '../views/assessOnce.ts';
import type { SheetAsked, SheetWork } from '../views/sheetWork.ts';
import { LastAsked, type WorkState } from './lastAsked.svelte.ts';

/** A survey of which a sheet is asked; `before`: the survey that the checked sheet was made from. */
export interface SheetQuestion {
  readonly survey: Survey;
  readonly asked: SheetAsked;
  readonly before?: Survey;
}

export type SheetState = WorkState<SheetWork>;

/** Whoever works sheets out. */
export interface SheetReckoner {
  /** How far the answer to a question is. */
  of(question: SheetQuestion): SheetState;
  ask(question: SheetQuestion): void;
}

type WorkOut = (survey: Survey, asked: SheetAsked, before?: Survey) => Promise<SheetWork>;

/** The work of a sheet as far as it is worked out. */
export class SheetDesk extends LastAsked<SheetQuestion, SheetWork> implements SheetReckoner {
  constructor(workOut: WorkOut) {
    super(({ survey, asked, before }) => workOut(survey, asked, before), textOf);
  }
}

function textOf({ survey, asked, before }: SheetQuestion): string {
  return [surveyText(survey), JSON.stringify(asked), before ? surveyText(before) : ''].join('\n');
}
