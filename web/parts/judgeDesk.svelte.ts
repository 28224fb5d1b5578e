/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import { untrack } from 'svelte';
import type { LineAssessment, SurveyAssessment } from '../../src/survey/assessment.ts';
import { takeOver } from '../../src/survey/handOver.ts';
import type { CanProve, PlannedLine } from '../../src/survey/canProve.ts';
import { actsKnown, rememberActs } from '../../src/survey/nextActs.ts';
import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';
import type { RecommendedPlan } from '../../src/survey/recommendedPlan.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { Cancelled } from '../store/cancelled.ts';
import type { PlanAsked, WholeSurvey } from './judging/jobs.ts';
import { JudgeClient } from './judging/judgeClient.ts';
import { logFilesOf } from '../store/logFiles.ts';
import { reasonOf } from '../store/reasonOf.ts';
import {
  assessOnce,
  knownAssessment,
  rememberAssessment,
  surveyText,
} from '../views/assessOnce.ts';
import type { HistoryView } from '../views/exhibitHistory.ts';
import type { HistoryAsked } from '../views/historyAsked.ts';
import type { SheetAsked, SheetWork } from '../views/sheetWork.ts';

export type JudgeState =
  /** `all`: rows of logs that are to be read first; none of most surveys. */
  | { readonly is: 'judging'; readonly rows: number; readonly all: number }
  | { readonly is: 'ready'; readonly assessment: SurveyAssessment }
  | { readonly is: 'stopped' }
  | { readonly is: 'failed'; readonly reason: string };

/** Of what would decide a line. */
export type ActsState = 'known' | 'working' | 'failed';

/** How many surveys are remembered by what became of judging them. */
const KEPT = 24;

/** What is judged of a hull's surveys, in a thread of its own. Of a survey that is asked for, `of` says how far it is;
 *  surveys that say the same are judged once. */
export class JudgeDesk {
  /** By the survey's text. */
  #states = $state.raw<ReadonlyMap<string, JudgeState>>(new Map());
  /** Lines of which it could not be found what would decide them; replaced too when one was found. */
  #failed = $state.raw<ReadonlySet<LineAssessment>>(new Set());

  readonly #client: JudgeClient;
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  readonly #asked = new WeakSet<LineAssessment>();
  #closed = false;

  /** `file`: a kept file of the hull, by the entry that keeps it and its name. */
  constructor(file: (entry: string, name: string) => Promise<Blob>, client = new JudgeClient()) {
    this.#file = file;
    this.#client = client;
  }

  of(survey: Survey): JudgeState {
    const state = this.#states.get(surveyText(survey));
    if (state !== undefined) return state;
    const known = isEmpty(survey) ? assessOnce(survey) : knownAssessment(survey);
    return known === undefined
      ? { is: 'judging', rows: 0, all: rowsOf(survey) }
      : { is: 'ready', assessment: known };
  }

  /** The verdict of a survey, where it is there. */
  assessment(survey: Survey): SurveyAssessment | undefined {
    const state = this.of(survey);
    return state.is === 'ready' ? state.assessment : undefined;
  }

  /** Of whoever asks in an effect, the effect does not follow what comes of it. */
  ask(survey: Survey): Promise<void> {
    return untrack(() => this.#ask(survey));
  }

  async #ask(survey: Survey): Promise<void> {
    if (this.#states.has(surveyText(survey)) || this.of(survey).is === 'ready') return;
    const all = rowsOf(survey);
    this.#say(survey, { is: 'judging', rows: 0, all });
    try {
      const whole = await this.#whole(survey);
      const answer = await this.#client.ask({ do: 'judge', ...whole }, ({ rows }) =>
        this.#say(survey, { is: 'judging', rows, all }),
      );
      const assessment = rememberAssessment(survey, takeOver(answer));
      this.#say(survey, { is: 'ready', assessment });
    } catch (error) {
      this.#say(
        survey,
        error instanceof Cancelled ? { is: 'stopped' } : { is: 'failed', reason: reasonOf(error) },
      );
    }
  }

  /** Tries again after it was stopped or failed. */
  again(survey: Survey): void {
    this.#states = new Map([...this.#states].filter(([text]) => text !== surveyText(survey)));
    void this.ask(survey);
  }

  /** Whether it is known what would decide a line. */
  acts(line: LineAssessment): ActsState {
    // Read first, so that whoever asks hears of it.
    const failed = this.#failed.has(line);
    return actsKnown(line) ? 'known' : failed ? 'failed' : 'working';
  }

  /** Finds what would decide the lines, where that is not known; they are of this survey's assessment. */
  wantActs(survey: Survey, lines: readonly LineAssessment[]): Promise<void> {
    return untrack(() => this.#wantActs(survey, lines));
  }

  async #wantActs(survey: Survey, lines: readonly LineAssessment[]): Promise<void> {
    const all = this.assessment(survey)?.lines ?? [];
    for (const line of lines) {
      const place = all.indexOf(line);
      if (place < 0 || actsKnown(line) || this.#asked.has(line)) continue;
      this.#asked.add(line);
      try {
        const whole = await this.#whole(survey);
        rememberActs(line, await this.#client.ask({ do: 'acts', line: place, ...whole }));
        this.#failed = new Set(this.#failed);
      } catch {
        this.#failed = new Set([...this.#failed, line]);
      }
    }
  }

  /** The work that a sheet asks for. `before`: the survey that the checked sheet was made from. */
  async sheet(survey: Survey, asked: SheetAsked, before?: Survey): Promise<SheetWork> {
    const whole = await this.#whole(survey);
    const earlier = before && (await this.#whole(before));
    return this.#client.ask({
      do: 'sheet',
      asked,
      ...whole,
      ...(earlier && { before: earlier }),
    });
  }

  /** What the hull's other surveys say beside this one. */
  async history(survey: Survey, asked: HistoryAsked): Promise<HistoryView> {
    return this.#client.ask({ do: 'history', asked, ...(await this.#whole(survey)) });
  }

  /** What stations and a gauge can prove before anything is read. */
  prove(line: PlannedLine): Promise<CanProve> {
    return this.#client.ask({ do: 'prove', line });
  }

  /** The stations that reach an aim in the fewest minutes. */
  plan(asked: PlanAsked): Promise<RecommendedPlan> {
    return this.#client.ask({ do: 'plan', ...asked });
  }

  /** Each side of a bottom as one surface. */
  async surface(survey: Survey, unit: Survey['workUnit']): Promise<SurfaceFound> {
    return this.#client.ask({ do: 'surface', unit, ...(await this.#whole(survey)) });
  }

  stop(): void {
    this.#client.stop();
  }

  /** The page is left. */
  close(): void {
    this.#closed = true;
    this.#client.stop();
  }

  async #whole(survey: Survey): Promise<WholeSurvey> {
    return { survey, files: await logFilesOf(survey, this.#file) };
  }

  #say(survey: Survey, state: JudgeState): void {
    if (this.#closed) return;
    const text = surveyText(survey);
    const others = [...this.#states].filter(([other]) => other !== text);
    this.#states = new Map([...others, [text, state] as const].slice(-KEPT));
  }
}

/** Nothing to judge: then it takes no time. */
function isEmpty({ lines }: Survey): boolean {
  return lines.every(({ placements }) => placements.length === 0);
}

/** Rows of the logs in kept files. */
function rowsOf({ lines }: Survey): number {
  return lines
    .flatMap(({ placements }) => placements)
    .reduce((sum, { log }) => sum + (log?.kept === undefined ? 0 : log.count), 0);
}
