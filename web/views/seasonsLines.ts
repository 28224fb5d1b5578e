import { levelled } from '../../src/seasons/levelled.ts';
import { touches, type Repair } from '../../src/seasons/repair.ts';
import { sameLines } from '../../src/seasons/sameLines.ts';
import { dayOf } from '../../src/seasons/season.ts';
import type { ToldComparison, ToldLine, ToldProfile } from '../../src/seasons/told.ts';
import { showLine, type WorkUnit } from '../../src/survey/figures.ts';
import { listed } from '../../src/survey/sentence.ts';
import type { Line, Survey } from '../../src/survey/survey.ts';
import type { SeasonCurve } from './seasonsDrawing.ts';

/** A survey of the hull, with what is known of its profiles by now. */
export interface SeasonShown {
  readonly key: string;
  readonly survey: Survey;
  readonly profiles?: readonly ToldProfile[];
}

/** One line over the surveys: a picture of the small multiples. */
export interface LineOverSeasons {
  readonly key: string;
  readonly title: string;
  /** "700 mm from the keel". */
  readonly where: string;
  readonly curves: readonly SeasonCurve[];
  /** Dates of surveys that have the line and no profile of it, with why. */
  readonly missing: readonly string[];
  /** What the picture shows, for those who hear it. */
  readonly summary: string;
}

/** Every line of the hull over all its surveys, laid on one another; from the keel outwards, port beside starboard.
 *  A line judged in parts is drawn in parts, each a curve. `surveys`: in order of time. */
export function linesOverSeasons(
  surveys: readonly SeasonShown[],
  {
    repairs,
    within,
    unit,
  }: {
    readonly repairs: readonly Repair[];
    readonly within: number;
    readonly unit: WorkUnit;
  },
): readonly LineOverSeasons[] {
  const followed = sameLines(
    surveys.map(({ survey }) => survey.lines),
    within,
  );
  return [...followed]
    .sort((a, b) => inOrder(a.line, b.line))
    .map(({ line, seen }) => {
      const since = repairs
        .filter((repair) => seen.some((each) => touches(repair, each.line)))
        .at(-1);
      const found = seen.flatMap(({ survey: at, line: here }) => {
        const { key, survey, profiles } = surveys[at];
        const label = dateOf(survey);
        const day = dayOf(survey.date);
        const former = since !== undefined && day !== undefined && day < since.date;
        const own = (profiles ?? []).filter((each) => each.line.id === here.id);
        return own.map((each) => ({ key: `${key}/${each.part}`, label, former, ...each }));
      });
      const drawn = found.flatMap(({ profile, ...rest }) =>
        profile === undefined ? [] : [{ ...rest, profile }],
      );
      const points = levelledOf(drawn.map(({ profile }) => profile));
      const where = showLine(line.side, line.offset, unit);
      const former = drawn.filter((each) => each.former).map(({ label }) => label);
      return {
        key: line.id,
        title: `${line.name} · ${line.side.toUpperCase()}`,
        where: where.replace(/^\w+, /, ''),
        curves: drawn.map(({ key, label, former: old }, i) => ({
          key,
          label,
          former: old,
          points: points[i],
        })),
        missing: found
          .filter(({ profile }) => profile === undefined)
          .map(({ label, n }) => `${label}: ${n} ${n === 1 ? 'station' : 'stations'}, too few`),
        summary: `Line ${line.name}, ${where}: ${drawn.length} ${drawn.length === 1 ? 'profile' : 'profiles'} on one scale, of ${listed([...new Set(drawn.map(({ label }) => label))])}.${
          former.length === 0 ? '' : ` Before the last repair: ${listed(former)}.`
        }`,
      };
    });
}

/** The two profiles of a compared line, laid on one another. Empty where one was not judged. */
export function curvesOf(
  { first, second, firstPart, part }: ToldLine,
  [one, other]: readonly [SeasonShown, SeasonShown],
): readonly SeasonCurve[] {
  const own = (shown: SeasonShown, line: Line, of: number) =>
    shown.profiles?.find((each) => each.line.id === line.id && each.part === of)?.profile;
  const [before, after] = [own(one, first, firstPart), own(other, second, part)];
  if (before === undefined || after === undefined) return [];
  const [a, b] = levelledOf([before, after]);
  return [
    { key: one.key, label: dateOf(one.survey), former: false, points: a },
    { key: other.key, label: dateOf(other.survey), former: false, points: b },
  ];
}

/** What a comparison found, in a sentence or two: first what moved. */
export function comparedSummary({ lines }: ToldComparison): string {
  const named = (word: string) => [
    ...new Set(
      lines
        .filter(({ outcome }) => (outcome.ok ? outcome.outcome : 'not compared') === word)
        .map(({ second }) => second.name),
    ),
  ];
  const [moved, still, open, not] = ['moved', 'not moved', 'cannot tell', 'not compared'].map(
    named,
  );
  const said = [
    ...(moved.length > 0 ? [`Moved: ${listed(moved)}.`] : []),
    ...(still.length > 0 ? [`Not moved, within what could have been seen: ${listed(still)}.`] : []),
    ...(open.length > 0 ? [`Cannot tell: ${listed(open)}.`] : []),
    ...(not.length > 0 ? [`Not compared: ${listed(not)}.`] : []),
  ];
  return said.length === 0 ? 'The two surveys have no line in common.' : said.join(' ');
}

export function dateOf({ date }: Survey): string {
  return dayOf(date) ?? date ?? 'no date';
}

function levelledOf(profiles: readonly SeasonCurve['points'][]): readonly SeasonCurve['points'][] {
  return profiles.length === 0 ? [] : levelled(profiles);
}

const SIDES = { centre: 0, port: 0, starboard: 1 } as const;

export function inOrder(a: Line, b: Line): number {
  return (
    Number(b.side === 'centre') - Number(a.side === 'centre') ||
    Math.round(a.offset / 25) - Math.round(b.offset / 25) ||
    SIDES[a.side] - SIDES[b.side] ||
    a.offset - b.offset
  );
}
