import { describe, expect, it, vi } from 'vitest';
import { workPlan } from '../../../../src/fairing/plan/workPlan.ts';
import { assess } from '../../../../src/survey/assess.ts';
import { takeOver, type HandedOver } from '../../../../src/survey/handOver.ts';
import { canProve } from '../../../../src/survey/canProve.ts';
import { nextActs } from '../../../../src/survey/nextActs.ts';
import { recommendedPlan } from '../../../../src/survey/recommendedPlan.ts';
import { tiedPanels } from '../../../../src/survey/panels/tiedPanels.ts';
import { surfaceFrom } from '../../../../src/survey/panels/surfaceFrom.ts';
import type { JudgeJob } from '../../../../web/parts/judging/jobs.ts';
import { Judging } from '../../../../web/parts/judging/judging.ts';
import { historyView } from '../../../../web/views/exhibitHistory.ts';
import type { SheetWork } from '../../../../web/views/sheetWork.ts';
import { uncertaintyWith } from '../../../../web/views/toleranceView.ts';
import { tiedOnPaper } from '../../../../web/views/surfaceOnPaper.ts';
import { sampleSurvey } from '../../sheets/samples.ts';

const survey = sampleSurvey('stories/one-side');
const whole = { survey, files: [] };
const quiet = () => undefined;

/** As it comes out of the other thread. */
async function answered(judging: Judging, job: JudgeJob): Promise<unknown> {
  return structuredClone(await judging.answer(structuredClone(job), quiet));
}

describe('what is asked of a survey', () => {
  const judge = vi.fn(assess);
  const judging = new Judging((of) => judge(of));
  const there = assess(survey);

  it('is answered as the page would answer it, in plain data, and the survey judged once', async () => {
    const judged = takeOver((await answered(judging, { do: 'judge', ...whole })) as HandedOver);
    expect(judged.lines.map(({ points }) => points)).toEqual(
      there.lines.map(({ points }) => points),
    );
    const line = there.lines.findIndex(
      ({ outcome }) => outcome.ok && outcome.judgement.verdict.includes('undecided'),
    );
    expect(await answered(judging, { do: 'acts', line, ...whole })).toEqual(
      nextActs(there.lines[line], there),
    );
    const options = { way: 'fill only', unit: 'in' } as const;
    expect(await answered(judging, { do: 'sheet', asked: { options }, ...whole })).toEqual({
      plan: workPlan(there, options),
      surfaces: [],
    });
    expect(judge).toHaveBeenCalledTimes(1);
  });

  it('is set beside the hull’s other surveys as on the page, a long log of them left out', async () => {
    const other = { ...survey, date: '2020-03-01' };
    const asked = { own: 'b', repairs: [], unit: 'in', between: [] } as const;
    const dated = { key: 'b', date: '2026-03-01' };
    const far = { key: 'c', date: '2024-03-01' };
    const seasons = [{ key: 'a', date: other.date, survey: other }, { ...dated, survey }, far];
    const job: JudgeJob = { do: 'history', asked: { ...asked, seasons }, ...whole };
    expect(await answered(judging, job)).toEqual(
      historyView({
        ...asked,
        seasons: [
          { key: 'a', date: other.date, assessment: assess(other) },
          { ...dated, assessment: there },
          far,
        ],
        between: () => undefined,
      }),
    );
  });

  it('is judged anew once it says something else', async () => {
    const before = judge.mock.calls.length;
    const changed = { ...survey, tolerance: { gap: 2, over: 1500, houseDefault: false } };
    await answered(judging, { do: 'judge', survey: changed, files: [] });
    expect(judge).toHaveBeenCalledTimes(before + 1);
  });

  it('that changed and left a line as it was keeps what would decide that line', async () => {
    const line = there.lines.findIndex(
      ({ outcome }) => outcome.ok && outcome.judgement.verdict.includes('undecided'),
    );
    const acts = (of: typeof survey) =>
      judging.answer({ do: 'acts', line, survey: of, files: [] }, quiet);
    const first = await acts(survey);
    expect(await acts({ ...survey, conditions: { weather: 'dry' } })).toBe(first);
    expect(await acts({ ...survey, repeatability: 0.4 })).not.toBe(first);
  });

  it('is drawn as one surface, from the same judgement', async () => {
    const before = judge.mock.calls.length;
    const found = await answered(judging, { do: 'surface', unit: 'in', ...whole });
    expect(judge).toHaveBeenCalledTimes(before);
    expect(found).toEqual(structuredClone(surfaceFrom(there, 'in')));
  });
});

describe('a sheet of whole panels', () => {
  it('comes back without the panels that straightedges across tie', async () => {
    const panels = sampleSurvey('stories/twisted-panel');
    const options = { way: 'fill only', unit: panels.workUnit } as const;
    const asked = { options, panel: 'one plane' } as const;
    const { plan, surfaces } = (await answered(new Judging(), {
      do: 'sheet',
      survey: panels,
      files: [],
      asked,
    })) as SheetWork;
    expect(plan.options.panel).toEqual({ target: 'one plane', tied: [] });
    expect(surfaces).toEqual(
      structuredClone(tiedOnPaper(tiedPanels(assess(panels)), panels.workUnit)),
    );
    expect(surfaces).not.toHaveLength(0);
    expect(plan.houseDefaults[0]).toContain('brought to one plane');
  });
});

describe('what is asked of a line before it is read', () => {
  const line = {
    stations: [0, 75, 150, 300, 450, 600, 900, 1200, 1500],
    u: 0.25,
    tolerance: 1.5,
    over: 1500,
    limit: 1500,
    unit: 'mm',
  } as const;
  const judge = vi.fn(assess);
  const judging = new Judging((of) => judge(of));

  it('is answered as the page would answer it, and no survey judged for it', async () => {
    expect(await answered(judging, { do: 'prove', line })).toEqual(canProve(line));
    const asked = {
      line,
      aim: { hook: 2.25 },
      division: 0.5,
      repeatability: { mm: 0.25, from: 'house default' },
    } as const;
    const uWith = (division: number) => uncertaintyWith(division, asked.repeatability);
    expect(await answered(judging, { do: 'plan', ...asked })).toEqual(
      recommendedPlan(line, asked.aim, 0.5, uWith),
    );
    expect(judge).not.toHaveBeenCalled();
  });
});
