import { assess } from '../../../src/survey/assess.ts';
import type { LineAssessment, SurveyAssessment } from '../../../src/survey/assessment.ts';
import { handOver } from '../../../src/survey/handOver.ts';
import { nextActs, type NextAct } from '../../../src/survey/nextActs.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import type { KeptFiles } from '../../store/keptFiles.ts';
import type { LogProgress } from '../../store/logJobs.ts';
import type { HistoryView, Season } from '../../views/exhibitHistory.ts';
import type { HistoryAsked } from '../../views/historyAsked.ts';
import {
  isAhead,
  type AheadJob,
  type JudgeAnswer,
  type JudgeJob,
  type SurveyJob,
  type WholeSurvey,
} from './jobs.ts';

/** How many surveys stay judged, and of how many lines it is kept what would decide them, for the next question. */
const SURVEYS = 12;
const LINES = 50;

type Progress = (progress: LogProgress) => void;

/** Answers what is asked of surveys, and of lines before they are read. A survey that says the same is judged once; what only some questions need is loaded
 *  when the first of them comes. */
export class Judging {
  /** By the survey's text, the one asked last at the end. */
  readonly #judged = new Map<string, SurveyAssessment>();
  /** What would decide a line, by all that it follows from: a survey changes more often than its lines. */
  readonly #acts = new Map<string, readonly NextAct[]>();
  #files: KeptFiles | undefined;
  readonly #assess: (survey: Survey) => SurveyAssessment;

  constructor(judge: (survey: Survey) => SurveyAssessment = assess) {
    this.#assess = judge;
  }

  /** Rejects where a kept file is not what was kept. */
  async answer(job: JudgeJob, progress: Progress): Promise<JudgeAnswer> {
    return isAhead(job) ? answerAhead(job) : this.#answer(job, progress);
  }

  async #answer(job: SurveyJob, progress: Progress): Promise<JudgeAnswer> {
    const judged = await this.#judge(job, progress);
    switch (job.do) {
      case 'judge':
        return handOver(judged);
      case 'acts':
        return this.#actsOf(judged.lines[job.line], judged);
      case 'sheet': {
        const before = job.before && (await this.#judge(job.before, progress));
        const { sheetWork } = await import('../../views/sheetWork.ts');
        return sheetWork(judged, job.asked, before);
      }
      case 'history':
        return this.#history(judged, job.asked, progress);
      case 'surface': {
        const { surfaceFrom } = await import('../../../src/survey/panels/surfaceFrom.ts');
        return surfaceFrom(judged, job.unit);
      }
    }
  }

  async #history(
    judged: SurveyAssessment,
    { seasons, own, repairs, unit, between }: HistoryAsked,
    progress: Progress,
  ): Promise<HistoryView> {
    const { historyView } = await import('../../views/exhibitHistory.ts');
    const found: Season[] = [];
    for (const { survey, ...season } of seasons) {
      const assessment =
        season.key === own
          ? judged
          : survey && (await this.#judge({ survey, files: [] }, progress));
      found.push({ ...season, ...(assessment && { assessment }) });
    }
    const said = new Map(between);
    return historyView({
      seasons: found,
      own,
      repairs,
      unit,
      between: (other) => said.get(other),
    });
  }

  #actsOf(line: LineAssessment, all: SurveyAssessment): readonly NextAct[] {
    const { tolerance, repeatability, survey } = all;
    const text = JSON.stringify([
      line.line,
      line.outcome.ok && [line.outcome.judgement, line.outcome.systematic],
      [tolerance, repeatability, survey.workUnit],
    ]);
    return keptIn(this.#acts, text, LINES, () => nextActs(line, all));
  }

  async #judge({ survey, files }: WholeSurvey, progress: Progress): Promise<SurveyAssessment> {
    const text = JSON.stringify(survey);
    const whole = this.#judged.has(text) ? survey : await this.#whole(survey, files, progress);
    return keptIn(this.#judged, text, SURVEYS, () => this.#assess(whole));
  }

  async #whole(survey: Survey, files: WholeSurvey['files'], progress: Progress): Promise<Survey> {
    if (files.length === 0) return survey;
    if (this.#files === undefined) {
      const { KeptFiles } = await import('../../store/keptFiles.ts');
      this.#files = new KeptFiles();
    }
    return this.#files.whole(survey, files, progress);
  }
}

async function answerAhead(job: AheadJob): Promise<JudgeAnswer> {
  if (job.do === 'prove') {
    const { canProve } = await import('../../../src/survey/canProve.ts');
    return canProve(job.line);
  }
  const { recommendedPlan } = await import('../../../src/survey/recommendedPlan.ts');
  const { uncertaintyWith } = await import('../../views/toleranceView.ts');
  const { line, aim, division, repeatability } = job;
  return recommendedPlan(line, aim, division, (other) => uncertaintyWith(other, repeatability));
}

/** What is kept under a text, or is worked out now and kept; what was asked for longest ago is let go. */
function keptIn<Found>(
  kept: Map<string, Found>,
  text: string,
  most: number,
  workOut: () => Found,
): Found {
  const found = kept.get(text) ?? workOut();
  kept.delete(text);
  kept.set(text, found);
  const [oldest] = kept.keys();
  if (kept.size > most) kept.delete(oldest);
  return found;
}
