import { outlook, type NewReadings } from '../fit/preposterior.ts';
import { withSystematic } from '../fit/systematic.ts';
import type { Judged, LineAssessment, SurveyAssessment } from './assessment.ts';
import { finerGauges } from './gaugeLadder.ts';
import { APART, marksBetween } from './handyMarks.ts';
import { gathered } from './gathered.ts';
import type { Typed } from './survey.ts';
import { readingUncertainty, SAME_STATION } from './usable.ts';
import { columnUncertainties } from './usableColumns.ts';

/** Something a person might do about an undecided line, and how often, by what is known now, it would decide it. */
export interface NextAct {
  readonly kind: 'stations' | 'put off' | 'lay again' | 'log again' | 'finer gauge' | 'check edge';
  /** Stations to be read beside those that were; for `lay again` as part of the new laying. */
  readonly stations: readonly Typed[];
  /** Further layings in which the whole line is read, or logged. */
  readonly layings: number;
  /** The gauge to read it with, where it is another. */
  readonly gauge?: { readonly mm: number; readonly text: string };
  readonly chance: number;
  /** About how long it takes. */
  readonly minutes: number;
}

/** House figures: what a reading, a laying and a check of an edge take, and what it takes to begin anything. */
export const MINUTES = { reading: 1, laying: 5, check: 20, start: 3 } as const;
/** Nothing is offered that decides less often than this. */
const WORTH = 0.15;
const MOST_STATIONS = 4;
/** A finer gauge that leaves more than this share of a reading's uncertainty gains nothing. */
const GAIN = 0.85;
/** Where no more than this many stand between those read, all of them together are one act. */
const FEW_GAPS = 12;

/** What would most likely decide an undecided line, the best return on its minutes first, one of a kind, at most three;
 *  empty where the line is decided, or where nothing in reach is likely to decide it. Worked out from the posterior once
 *  a line (src/fit/preposterior.ts) and kept. */
export function nextActs(line: LineAssessment, all: SurveyAssessment): readonly NextAct[] {
  const known = done.get(line);
  if (known) return known;
  const { outcome } = line;
  const acts =
    outcome.ok && outcome.judgement.verdict.includes('undecided')
      ? outcome.fitted
        ? actsFor(line, outcome, outcome.fitted, all)
        : (outcome.apart?.acts ?? [])
      : [];
  done.set(line, acts);
  return acts;
}

const done = new WeakMap<LineAssessment, readonly NextAct[]>();

/** Whether anything could be found that decides it. */
function isOpen({ judgement, fitted }: Judged): boolean {
  return judgement.verdict.includes('undecided') && fitted !== undefined;
}

/** Whether `nextActs` has its answer without working it out. */
export function actsKnown(line: LineAssessment): boolean {
  const { outcome } = line;
  return done.has(line) || !outcome.ok || !isOpen(outcome);
}

/** Keeps what was worked out elsewhere, such as in a thread of its own. */
export function rememberActs(line: LineAssessment, acts: readonly NextAct[]): void {
  done.set(line, acts);
}

function actsFor(
  { line }: LineAssessment,
  { judgement, systematic }: Judged,
  { profile, columns }: NonNullable<Judged['fitted']>,
  { tolerance, repeatability, survey }: SurveyAssessment,
): readonly NextAct[] {
  const nothing = new Float64Array(profile.basis.size);
  const view = outlook(
    profile,
    { tolerance: tolerance.gap, over: tolerance.over, limit: judgement.judged[1], tail: 0 },
    (pairs) =>
      withSystematic(
        Array.from({ length: 2 * pairs }, () => nothing),
        systematic,
        0,
      ),
  );
  const found: NextAct[] = [];
  const consider = (act: Omit<NextAct, 'chance'>, news: readonly NewReadings[], unbent = false) => {
    const { decided } = view.chances(news, unbent);
    if (decided >= WORTH) found.push({ ...act, chance: decided });
    return decided;
  };
  const checkEdge = () => {
    if (systematic.length === 0) return;
    const act = { kind: 'check edge' as const, stations: [], layings: 0 };
    consider({ ...act, minutes: MINUTES.start + MINUTES.check }, [], true);
  };

  const readings = columns.flatMap((each) => (each.readings ? [each.readings] : []));
  if (readings.length !== columns.length) {
    // A log is not read again at a few stations: it is logged again as a whole.
    const log = columns.reduce((most, each) => (each.x.length > most.x.length ? each : most));
    const once = gathered(log, columnUncertainties(log, repeatability), judgement.judged);
    const again = (layings: number) => {
      const news = { x: once.x, u: once.u.map((u) => u / Math.sqrt(layings)) };
      const minutes = MINUTES.start + layings * MINUTES.laying;
      return consider({ kind: 'log again', stations: [], layings, minutes }, [news]);
    };
    const thrice = again(3);
    if (thrice >= WORTH && again(1) < 0.5 * thrice) again(2);
    checkEdge();
    return bestOfEach(found);
  }
  const unit = survey.workUnit;
  const [from, to] = judgement.judged;
  const spans = readings.map((each) => each.map((r) => r.reading.station.mm));
  // More readings go on the laying that reaches farthest.
  const reach = (p: number) => Math.max(...spans[p]) - Math.min(...spans[p]);
  const on = spans.reduce((best, _, p) => (reach(p) > reach(best) ? p : best), 0);
  const [aft, fore] = [Math.min(...spans[on]), Math.max(...spans[on])];
  const inReach = (x: number) => x >= Math.max(from, aft) && x <= Math.min(to, fore);
  const read = [...new Set(spans.flat())].filter((x) => x <= to + SAME_STATION);
  const u = Math.max(...readings[on].map((r) => readingUncertainty(r, repeatability)));
  const added = (stations: readonly Typed[]): NewReadings => ({
    x: stations.map(({ mm }) => mm),
    u: stations.map(() => u),
    placement: on,
  });
  const minutesOf = (stations: number, layings: number) =>
    MINUTES.start + stations * MINUTES.reading + layings * MINUTES.laying;

  const placements = line.placements;
  const seen = (x: number) => read.some((each) => Math.abs(each - x) < SAME_STATION);
  const put = placements
    .flatMap(({ later }) => later.map(({ station }) => station))
    .filter(
      ({ mm }, i, list) => inReach(mm) && !seen(mm) && list.findIndex((s) => s.mm === mm) === i,
    );
  if (put.length > 0) {
    const act = { kind: 'put off' as const, stations: put, layings: 0 };
    consider({ ...act, minutes: minutesOf(put.length, 0) }, [added(put)]);
  }

  const clearOf = placements.flatMap(({ voids, later }) =>
    [...voids, ...later].map(({ station }) => station.mm),
  );
  const marks = marksBetween(read.filter(inReach), unit, clearOf).filter(({ mm }) => inReach(mm));
  const byPlace = new Map(marks.map((mark) => [mark.mm, mark]));
  const told = view
    .mostTelling([...byPlace.keys()], u, on, MOST_STATIONS, APART)
    .flatMap((x) => byPlace.get(x) ?? []);
  const few = (count: number) => told.slice(0, count).sort((a, b) => a.mm - b.mm);
  const between = (stations: readonly Typed[]) =>
    consider({ kind: 'stations', stations, layings: 0, minutes: minutesOf(stations.length, 0) }, [
      added(stations),
    ]);
  if (told.length > 0) {
    const most = between(few(MOST_STATIONS));
    if (most >= WORTH && told.length > 2) {
      const two = between(few(2));
      if (two >= 0.8 * most) between(few(1));
    }
    const halves = marksBetween(read.filter(inReach), unit, clearOf);
    if (most < 0.5 && halves.length > told.length && halves.length <= FEW_GAPS) between(halves);
  }

  const again = (layings: number, gauge?: NextAct['gauge']) => {
    const own = readings.reduce((best, each) => (each.length > best.length ? each : best));
    const once = own.filter((r) => r.reading.station.mm <= to + SAME_STATION);
    const spread = once.map((r) => {
      if (!gauge) return readingUncertainty(r, repeatability);
      const finer = { ...r, division: gauge.mm };
      return repeatability.from === 'house default'
        ? readingUncertainty(finer, { ...repeatability, mm: gauge.mm / 2 })
        : readingUncertainty(finer, repeatability);
    });
    // Where it is the laying or the hand that scatters, no gauge makes up for it.
    if (gauge && Math.max(...spread) > GAIN * u) return 0;
    // Layings over the same stations are as good as one whose readings are that much surer.
    const news = {
      x: once.map((r) => r.reading.station.mm),
      u: spread.map((each) => each / Math.sqrt(layings)),
    };
    const minutes = minutesOf(layings * once.length, layings);
    const act = { kind: gauge ? ('finer gauge' as const) : ('lay again' as const), stations: [] };
    return consider({ ...act, layings, minutes, ...(gauge && { gauge }) }, [news]);
  };
  const thrice = again(3);
  if (thrice >= WORTH) {
    const once = again(1);
    if (once < 0.5 * thrice) again(2);
  }
  const division = Math.max(...readings[on].map((r) => r.division));
  for (const gauge of finerGauges(division, unit).slice(0, 2)) if (again(1, gauge) >= 0.7) break;

  checkEdge();
  return bestOfEach(found);
}

/** One of a kind, by minutes spent for each decision got. */
function bestOfEach(found: readonly NextAct[]): readonly NextAct[] {
  const price = ({ minutes, chance }: NextAct) => minutes / chance;
  const sorted = [...found].sort((a, b) => price(a) - price(b));
  return sorted
    .filter(({ kind }, i) => sorted.findIndex((other) => other.kind === kind) === i)
    .slice(0, 3);
}
