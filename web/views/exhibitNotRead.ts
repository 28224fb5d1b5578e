import { withUnit } from '../../src/survey/withUnit.ts';
import type { Gates } from '../../src/fairing/gates.ts';
import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { showPlace, showTolerance, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import { listed } from '../../src/survey/sentence.ts';
import { stillMissing } from '../../src/survey/stillMissing.ts';
import type { Line, Typed, VoidStation } from '../../src/survey/survey.ts';
import { readingCount } from '../../src/survey/usableColumns.ts';
import { stationKey } from './readingsView.ts';

/** What was not inspected or read, under one heading. */
export interface NotRead {
  readonly what: string;
  readonly items: readonly string[];
}

export interface NotReadFrom {
  readonly assessment: SurveyAssessment;
  readonly unit: WorkUnit;
  /** Stations that were meant to be read, where there was a plan. */
  readonly planned?: readonly Typed[];
  /** All lines of the hull, where they are known. */
  readonly hullLines?: readonly HullLine[];
}

/** Everything of the bottom and of the haul-out that this survey leaves open; headings with nothing under them are
 *  left out. A station that was read on another laying of its line is not listed. */
export function notRead(from: NotReadFrom): readonly NotRead[] {
  const { assessment, unit, planned = [], hullLines = [] } = from;
  const { survey, limit, tolerance } = assessment;
  const eachLine = (items: (line: Line) => readonly string[]) =>
    survey.lines.flatMap((line) => {
      const said = items(line);
      return said.length === 0 ? [] : [`${line.name}: ${said.join('; ')}.`];
    });
  const surveyed = new Set(
    survey.lines.filter(({ placements }) => placements.some(hasReadings)).map(({ id }) => id),
  );
  const open = hullLines.filter(({ id }) => !surveyed.has(id)).map(({ name }) => name);
  const tooFew = assessment.lines.filter(({ outcome }) => !outcome.ok).map(({ line }) => line.name);
  const everywhere = [
    `Forward of the limit of the straight run (${showTolerance(limit.mm, unit)} from the transom${limit.houseDefault ? ', a house default' : ''}) nothing is judged: there the bottom may curve by design.`,
    `Between the lines, beyond their outermost readings, topsides, keel, chines, strakes and anything above the bottom: not measured.`,
    ...shortRuns(assessment, tolerance.over, unit),
  ];
  const asked = stillMissing(survey).filter(({ about }) => about !== 'station put off');
  return [
    { what: 'Beyond what was read', items: everywhere },
    {
      what: 'Stations that cannot be read (void), and why',
      items: eachLine((line) =>
        leftOpen(line, 'voids').map(
          ({ station, reason, note }) =>
            `${withUnit(station, unit)} ${reason}${note === undefined || note === '' ? '' : ` (${note})`}`,
        ),
      ),
    },
    {
      what: 'Stations put off and never read',
      items: eachLine((line) =>
        leftOpen(line, 'later').map(
          ({ station, reason }) => `${withUnit(station, unit)} ${reason}`,
        ),
      ),
    },
    {
      what: 'Stations that were planned and not read',
      items: eachLine((line) => {
        if (!surveyed.has(line.id) || survey.kind === 'log') return [];
        const seen = new Set(line.placements.flatMap(stationsOf));
        const left = planned.filter(({ mm }) => !seen.has(stationKey(mm)));
        return left.length === 0 ? [] : [left.map((at) => withUnit(at, unit)).join(', ')];
      }),
    },
    {
      what: 'Lines of this hull that were not surveyed',
      items: open.length === 0 ? [] : [`${listed(open)}.`],
    },
    {
      what: 'Lines with too few readings to say anything',
      items: tooFew.length === 0 ? [] : [`${listed([...new Set(tooFew)])}.`],
    },
    {
      what: 'Asked of the haul-out, and not answered',
      items: asked.length === 0 ? [] : [asked.map(({ ask }) => ask).join(' ')],
    },
  ].filter(({ items }) => items.length > 0);
}

/** What was looked at beside the measuring, and the sentence that stands over it. */
export function lookedAt({ gates }: Gates): {
  readonly words: string;
  readonly rows: readonly { readonly asks: string; readonly answer: string }[];
} {
  const answered = gates.filter(({ answer }) => answer !== 'NOT CHECKED');
  return {
    words:
      answered.length === 0
        ? 'Structure, moisture and laminate were not examined.'
        : 'Structure, moisture and laminate were not measured. What somebody stated of them is answered here; the rest was not examined.',
    rows: gates.map(({ asks, answer, by }) => ({
      asks,
      answer:
        answer === 'NOT CHECKED' ? 'not checked' : by === undefined ? answer : `${answer} (${by})`,
    })),
  };
}

/** Void, or put off, and read on no other laying; what was put off may have been found void since. */
function leftOpen({ placements }: Line, is: 'voids' | 'later'): readonly VoidStation[] {
  const done = placements.flatMap(({ readings, voids }): readonly { station: Typed }[] =>
    is === 'later' ? [...readings, ...voids] : readings,
  );
  const keys = new Set(done.map(({ station }) => stationKey(station.mm)));
  const each = new Map(
    placements.flatMap((placement) => placement[is]).map((at) => [stationKey(at.station.mm), at]),
  );
  return [...each]
    .filter(([key]) => !keys.has(key))
    .sort(([a], [b]) => a - b)
    .map(([, at]) => at);
}

function stationsOf({ readings, voids, later }: Line['placements'][number]): readonly number[] {
  return [...readings, ...voids, ...later].map(({ station }) => stationKey(station.mm));
}

function hasReadings(placement: Line['placements'][number]): boolean {
  return readingCount(placement) > 0;
}

/** Lines read over less than a straightedge of the tolerance's length would span. */
function shortRuns(
  { lines, limit }: SurveyAssessment,
  over: number,
  unit: WorkUnit,
): readonly string[] {
  return lines.flatMap(({ line, outcome }) => {
    if (!outcome.ok) return [];
    const [from, to] = outcome.judgement.judged;
    const whole = Math.min(over, line.limit ?? limit.mm);
    if (to - from >= 0.9 * whole) return [];
    return [`${line.name} was read over ${showPlace(to - from, unit)} only.`];
  });
}
