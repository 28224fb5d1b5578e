import { compare } from '../../src/seasons/compare.ts';
import { hullTrends } from '../../src/seasons/hullTrends.ts';
import { metricsCsv } from '../../src/seasons/metricsCsv.ts';
import { toldComparison, toldProfiles, toldTrends } from '../../src/seasons/told.ts';
import { assess } from '../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { KeptFiles } from './keptFiles.ts';
import type {
  CompareAsked,
  FiguresAsked,
  SeasonGiven,
  SeasonsAnswer,
  SeasonsJob,
  TrendsAsked,
} from './seasonsJobs.ts';
import { reasonOf } from './reasonOf.ts';

/** Judges and compares the surveys of a hull off the page's own thread. What somebody looks at comes first: the two
 *  surveys that are compared, then the others from the newest back, then the trends. Between two steps it hears what
 *  is asked next, so that a new question never waits for the whole of an old one. */

const kept = new KeptFiles();
let order: readonly string[] = [];
const given = new Map<string, SeasonGiven>();
const judged = new Map<string, SurveyAssessment>();
const failed = new Set<string>();
/** What was asked last, and what of it is still to be answered: a survey that says something else asks again. */
let wanted: { compare?: CompareAsked; trends?: TrendsAsked; figures?: FiguresAsked } = {};
const due = new Set<'compare' | 'trends' | 'figures'>();
let running = false;

self.onmessage = ({ data: job }: MessageEvent<SeasonsJob>): void => {
  if (job.do === 'judge') take(job.order, job.given);
  else {
    wanted = { ...wanted, [job.do]: job };
    due.add(job.do);
  }
  if (!running) void run();
};

function say(answer: SeasonsAnswer): void {
  self.postMessage(answer);
}

function take(keys: readonly string[], fresh: readonly SeasonGiven[]): void {
  order = keys;
  for (const season of fresh) {
    given.set(season.key, season);
    judged.delete(season.key);
    failed.delete(season.key);
  }
  due.add('compare').add('trends');
}

async function run(): Promise<void> {
  running = true;
  for (let step = nextStep(); step !== undefined; step = nextStep()) {
    try {
      await step();
    } catch (error) {
      say({ is: 'failed', reason: reasonOf(error) });
    }
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  running = false;
}

function nextStep(): (() => Promise<void> | void) | undefined {
  const { compare: asked, trends, figures } = wanted;
  if (asked !== undefined && due.has('compare')) {
    const open = asked.pair.find(isOpen);
    if (open !== undefined) return () => judge(open);
    if (asked.pair.every((key) => judged.has(key))) return () => sayCompared(asked);
  }
  const open = [...order].reverse().find(isOpen);
  if (open !== undefined) return () => judge(open);
  if (trends !== undefined && due.has('trends')) return () => sayTrends(trends);
  if (figures !== undefined && due.has('figures')) return () => sayFigures(figures);
  return undefined;
}

function isOpen(key: string): boolean {
  return given.has(key) && !judged.has(key) && !failed.has(key);
}

async function judge(key: string): Promise<void> {
  const season = given.get(key);
  if (season === undefined) return;
  try {
    const assessment = assess(await kept.whole(season.survey, season.files));
    // While a file was read, the survey may have come to say something else.
    if (given.get(key) !== season) return;
    judged.set(key, assessment);
    say({ is: 'judged', key, profiles: toldProfiles(assessment) });
  } catch (error) {
    failed.add(key);
    say({ is: 'not judged', key, reason: reasonOf(error) });
  }
}

function sayCompared(asked: CompareAsked): void {
  due.delete('compare');
  const { ask, pair, options, unit } = asked;
  const [first, second] = pair.map((key) => judged.get(key));
  if (first === undefined || second === undefined) return;
  say({ is: 'compared', ask, comparison: toldComparison(compare(first, second, options), unit) });
}

function sayTrends({ ask, options, accept }: TrendsAsked): void {
  due.delete('trends');
  const keys = order.filter((key) => judged.has(key));
  const all = keys.flatMap((key) => judged.get(key) ?? []);
  if (all.length === 0) return;
  const trends = hullTrends(all, {
    ...options,
    accept: (survey) => accept[keys[all.indexOf(survey)]] ?? [],
  });
  say({ is: 'trends', ask, trends: toldTrends(trends, all) });
}

function sayFigures({ ask, within }: FiguresAsked): void {
  due.delete('figures');
  const all = order.flatMap((key) => judged.get(key) ?? []);
  say({ is: 'figures', ask, csv: metricsCsv(all, { within }) });
}
