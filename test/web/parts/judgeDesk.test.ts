import { describe, expect, it, vi } from 'vitest';
import { assess } from '../../../src/survey/assess.ts';
import { nextActs } from '../../../src/survey/nextActs.ts';
import { handOver } from '../../../src/survey/handOver.ts';
import type { Survey } from '../../../src/survey/survey.ts';
import { JudgeDesk } from '../../../web/parts/judgeDesk.svelte.ts';
import { SheetDesk, type SheetQuestion } from '../../../web/parts/sheetDesk.svelte.ts';
import { Cancelled } from '../../../web/store/cancelled.ts';
import type { SurveyJob } from '../../../web/parts/judging/jobs.ts';
import type { JudgeClient } from '../../../web/parts/judging/judgeClient.ts';
import type { SheetWork } from '../../../web/views/sheetWork.ts';
import { sampleSurvey } from '../sheets/samples.ts';

const noFile = () => Promise.reject(new Error('no file'));

/** A desk whose questions a test answers. */
function deskOf(answer: (job: SurveyJob) => unknown) {
  const ask = vi.fn((job: SurveyJob) => Promise.resolve().then(() => answer(job)));
  const client = { ask, stop: vi.fn() };
  return { desk: new JudgeDesk(noFile, client as unknown as JudgeClient), ask };
}

const judged = (job: SurveyJob) => structuredClone(handOver(assess(job.survey)));

/** A survey that no test before has judged. */
let days = 0;
function fresh(): Survey {
  days += 1;
  return { ...sampleSurvey('stories/one-side'), place: `Slip ${days}` } as Survey;
}

describe('a survey on the desk', () => {
  it('is judged once for what it says, and its verdict kept for every copy that says the same', async () => {
    const { desk, ask } = deskOf(judged);
    const survey = fresh();
    expect(desk.of(survey)).toEqual({ is: 'judging', rows: 0, all: 0 });
    await desk.ask(survey);
    const state = desk.of(survey);
    expect(state.is).toBe('ready');
    const copy = structuredClone(survey);
    await desk.ask(copy);
    expect(desk.assessment(copy)).toBe(desk.assessment(survey));
    expect(ask).toHaveBeenCalledTimes(1);
    // Another page of the same survey asks nothing again.
    const other = deskOf(judged);
    await other.desk.ask(structuredClone(survey));
    expect(other.ask).not.toHaveBeenCalled();
  });

  it('without a placement is ready at once', () => {
    const { desk, ask } = deskOf(judged);
    expect(desk.of({ ...fresh(), lines: [] }).is).toBe('ready');
    expect(ask).not.toHaveBeenCalled();
  });

  it('says that it was stopped, or why it failed, until it is tried again', async () => {
    let answer: (job: SurveyJob) => unknown = () => {
      throw new Cancelled();
    };
    const { desk } = deskOf((job) => answer(job));
    const survey = fresh();
    await desk.ask(survey);
    expect(desk.of(survey)).toEqual({ is: 'stopped' });
    answer = () => {
      throw new Error('the kept file is not what it was');
    };
    desk.again(survey);
    await expect
      .poll(() => desk.of(survey))
      .toEqual({ is: 'failed', reason: 'the kept file is not what it was' });
    answer = judged;
    desk.again(survey);
    await expect.poll(() => desk.of(survey).is).toBe('ready');
  });

  it('finds what would decide its open lines when that is asked for, each once', async () => {
    const { desk, ask } = deskOf((job) => {
      const all = assess(job.survey);
      return job.do === 'acts' ? nextActs(all.lines[job.line], all) : judged(job);
    });
    const survey = fresh();
    await desk.ask(survey);
    const lines = desk.assessment(survey)?.lines ?? [];
    const states = () => lines.map((line) => desk.acts(line));
    expect(states()).toContain('working');
    await Promise.all([desk.wantActs(survey, lines), desk.wantActs(survey, lines)]);
    expect(new Set(states())).toEqual(new Set(['known']));
    const open = lines.filter(
      ({ outcome }) => outcome.ok && outcome.judgement.verdict.includes('undecided'),
    );
    expect(ask.mock.calls.filter(([job]) => job.do === 'acts')).toHaveLength(open.length);
  });

  it('says of a line that it could not be found what would decide it', async () => {
    const { desk } = deskOf((job) => {
      if (job.do === 'acts') throw new Error('broken');
      return judged(job);
    });
    const survey = fresh();
    await desk.ask(survey);
    const lines = desk.assessment(survey)?.lines ?? [];
    await desk.wantActs(survey, lines);
    expect(lines.map((line) => desk.acts(line))).toContain('failed');
  });
});

describe('a sheet on the desk', () => {
  const survey = fresh();
  const question = (grindLimit: number): SheetQuestion => ({
    survey,
    asked: { options: { way: 'least work', grindLimit, unit: 'in' } },
  });

  it('of several questions that come while one is answered, answers the last', async () => {
    const answers: (() => void)[] = [];
    const asked: number[] = [];
    const desk = new SheetDesk((_, { options }) => {
      asked.push(options.grindLimit as number);
      return new Promise((resolve) => {
        answers.push(() => resolve({ plan: options } as unknown as SheetWork));
      });
    });
    for (const limit of [1, 2, 3, 1, 4]) desk.ask(question(limit));
    expect(asked).toEqual([1]);
    answers[0]();
    await expect.poll(() => asked).toEqual([1, 4]);
    expect(desk.of(question(4))).toEqual({ is: 'working' });
    answers[1]();
    await expect.poll(() => desk.of(question(4)).is).toBe('ready');
    // What is known is not asked again, and what was asked before is no answer to another question.
    desk.ask(question(4));
    expect(asked).toEqual([1, 4]);
    expect(desk.of(question(1))).toEqual({ is: 'working' });
  });

  it('says why it could not be worked out', async () => {
    const desk = new SheetDesk(() => Promise.reject(new Error('a grind limit expected')));
    desk.ask(question(1));
    await expect
      .poll(() => desk.of(question(1)))
      .toEqual({ is: 'failed', reason: 'a grind limit expected' });
  });
});
