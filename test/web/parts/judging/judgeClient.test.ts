import { describe, expect, it } from 'vitest';
import type { JudgeAsked, JudgeJob, JudgeSaid } from '../../../../web/parts/judging/jobs.ts';
import { Cancelled } from '../../../../web/store/cancelled.ts';
import { JudgeClient } from '../../../../web/parts/judging/judgeClient.ts';
import { sampleSurvey } from '../../sheets/samples.ts';

const survey = sampleSurvey('stories/one-side');
const job: JudgeJob & { do: 'judge' } = { do: 'judge', survey, files: [] };
const logged = {
  ...job,
  files: [{ entry: 'an entry', data: new Blob([]), sha256: '', given: {} }],
};

/** A thread that a test answers for. */
class Thread {
  readonly asked: JudgeAsked[] = [];
  closed = false;
  readonly said: (said: JudgeSaid) => void;
  readonly broken: (reason: string) => void;

  constructor(said: (said: JudgeSaid) => void, broken: (reason: string) => void) {
    this.said = said;
    this.broken = broken;
  }

  post(asked: JudgeAsked): void {
    this.asked.push(asked);
  }

  close(): void {
    this.closed = true;
  }

  answer(answer: unknown): void {
    const last = this.asked[this.asked.length - 1];
    this.said({ ask: last.ask, is: 'answer', answer: answer as never });
  }
}

function made() {
  const threads: Thread[] = [];
  const client = new JudgeClient((said, broken) => {
    const thread = new Thread(said, broken);
    threads.push(thread);
    return thread;
  });
  return { client, threads };
}

describe('questions to the thread that judges', () => {
  it('are put one after another, and the thread begins with the first', async () => {
    const { client, threads } = made();
    expect(threads).toHaveLength(0);
    const first = client.ask(job);
    const second = client.ask({ ...job, do: 'acts', line: 0 });
    const [thread] = threads;
    expect(thread.asked).toHaveLength(1);
    thread.answer('first');
    await expect(first).resolves.toBe('first');
    expect(thread.asked).toHaveLength(2);
    thread.answer('second');
    await expect(second).resolves.toBe('second');
    expect(threads).toHaveLength(1);
  });

  it('hear how far it is, and why it cannot be answered; the next is put all the same', async () => {
    const { client, threads } = made();
    const rows: number[] = [];
    const first = client.ask(logged, (progress) => rows.push(progress.rows));
    const second = client.ask(job);
    const [{ said, asked }] = threads;
    said({ ask: asked[0].ask, is: 'progress', progress: { rows: 100, share: 0.5 } });
    said({ ask: asked[0].ask, is: 'failed', reason: 'the kept file is not what it was' });
    await expect(first).rejects.toThrow('the kept file is not what it was');
    expect(rows).toEqual([100]);
    threads[0].answer('second');
    await expect(second).resolves.toBe('second');
  });

  it('are all cancelled when it is stopped, and a later one begins a new thread', async () => {
    const { client, threads } = made();
    const asked = [client.ask(job), client.ask(job)];
    client.stop();
    for (const each of asked) await expect(each).rejects.toThrow(Cancelled);
    expect(threads[0].closed).toBe(true);
    const later = client.ask(job);
    // A word of the ended thread is not heard.
    threads[0].answer('old');
    threads[1].answer('new');
    await expect(later).resolves.toBe('new');
  });

  it('are answered on the page where no thread can be had', async () => {
    const client = new JudgeClient(() => {
      throw new Error('no module workers here');
    });
    const { assessment } = await client.ask(job);
    expect(assessment.lines).toHaveLength(survey.lines.length);
  });

  it('are answered on the page once the thread has broken down; a log is refused, with the reason', async () => {
    const { client, threads } = made();
    const [log, typed] = [client.ask(logged), client.ask(job)];
    threads[0].broken('out of memory');
    await expect(log).rejects.toThrow('out of memory');
    expect((await typed).assessment.survey).toEqual(survey);
    await expect(client.ask(logged)).rejects.toThrow('no thread can be had for a log');
    expect(threads).toHaveLength(1);
  });
});
