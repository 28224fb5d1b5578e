import type { ProfilePoint } from '../fit/judge.ts';
import type { SurveyAssessment } from '../survey/assessment.ts';
import type { WorkUnit } from '../survey/figures.ts';
import { showLine } from '../survey/figures.ts';
import type { Line } from '../survey/survey.ts';
import {
  alikeEverywhereWords,
  changeWords,
  controlWords,
  relaxedWords,
  type ChangeWords,
} from './changeWords.ts';
import type { Comparison, LineChange } from './comparison.ts';
import { placeAthwart } from '../survey/panels/placeAthwart.ts';
import type { PanelSurface } from '../survey/panels/surfaceFrom.ts';
import { panelChanges, panelChangeWords, type PanelChange } from './panelChange.ts';
import type { HullTrends, TrendSubject } from './hullTrends.ts';
import type { AlikeWhat } from './unlike.ts';

/** Seasons as they can be handed from one thread to another: plain, without readings, with their words. */

/** One line of a survey, judged: what a picture of it needs. */
export interface ToldProfile {
  /** Without its placements. */
  readonly line: Line;
  readonly part: number;
  readonly parts: number;
  /** Absent where there are too few readings. */
  readonly profile?: readonly ProfilePoint[];
  readonly n: number;
}

export interface ToldLine extends Pick<LineChange, 'matchedBy' | 'control' | 'outcome'> {
  readonly first: Line;
  readonly second: Line;
  /** Of each survey's line. */
  readonly firstPart: number;
  readonly part: number;
  readonly parts: number;
  readonly words: ChangeWords;
}

export interface ToldComparison extends Pick<Comparison, 'tolerance' | 'least' | 'control'> {
  /** What stands over the lines, a sentence each, besides what is not alike. */
  readonly top: readonly string[];
  readonly lines: readonly ToldLine[];
  /** Sides that both surveys tied into one surface, each with its map of what changed. */
  readonly panels: readonly ToldPanelChange[];
  /** Lines that one survey alone has, a sentence each. */
  readonly unmatched: readonly string[];
}

/** As much of a panel's surface as a map of it needs, heights being what changed, and what is said of it. */
export interface ToldPanelChange extends Pick<PanelSurface, 'side' | 'lines' | 'grids' | 'datum'> {
  readonly words: { readonly word: string };
}

export interface ToldTrends extends Pick<HullTrends, 'lines' | 'pairs' | 'tolerance' | 'least'> {
  /** Days of the surveys that count, in order of time. */
  readonly dates: readonly string[];
  readonly undated: number;
  readonly leftOut: readonly {
    /** Place of the survey among those that were asked for. */
    readonly survey: number;
    /** Names of the lines that leave it out. */
    readonly lines: readonly string[];
    /** In what it is not alike with the last survey. */
    readonly what: readonly AlikeWhat[];
  }[];
}

export function toldProfiles({ lines }: SurveyAssessment): readonly ToldProfile[] {
  return lines.map(({ line, part, parts, outcome, stations }) => ({
    line: bare(line),
    part,
    parts,
    ...(outcome.ok && { profile: outcome.judgement.profile }),
    n: stations,
  }));
}

export function toldComparison(comparison: Comparison, unit: WorkUnit): ToldComparison {
  const { tolerance, least, control, lines, unmatched } = comparison;
  const panels = panelChanges(comparison);
  return {
    tolerance,
    least,
    control,
    top: [
      controlWords(comparison),
      relaxedWords(comparison),
      alikeEverywhereWords(comparison),
      ...panels.map((change) => panelChangeWords(change, comparison, unit)),
    ].filter((said) => said !== ''),
    lines: lines.map((change) => ({
      first: bare(change.first.line),
      second: bare(change.second.line),
      firstPart: change.first.part,
      part: change.second.part,
      parts: change.second.parts,
      matchedBy: change.matchedBy,
      control: change.control,
      outcome: change.outcome,
      words: changeWords(change, comparison, unit),
    })),
    panels: panels.map(toldPanel),
    unmatched: unmatched.map(
      ({ line, in: where }) =>
        `${line.name} (${showLine(line.side, line.offset, unit)}) stands in the ${where} survey only.`,
    ),
  };
}

export function toldPanel({ side, lines, outcome, map }: PanelChange): ToldPanelChange {
  const { x, y, z, u, blank, datum } = map();
  return {
    side,
    lines: lines.map((line) => ({ name: line.name, place: placeAthwart(side, line) })),
    datum,
    grids: [{ x, y, z, u, blank }],
    words: { word: outcome },
  };
}

/** `surveys`: as the trends were asked for. */
export function toldTrends(
  { surveys, undated, lines, pairs, leftOut, tolerance, least }: HullTrends,
  asked: readonly SurveyAssessment[],
): ToldTrends {
  const plain = (subject: TrendSubject): TrendSubject => ({
    ...subject,
    line: bare(subject.line),
    ...(subject.starboard && { starboard: bare(subject.starboard) }),
  });
  return {
    tolerance,
    least,
    dates: surveys.map(({ survey }) => String(survey.date)),
    undated: undated.length,
    lines: lines.map(plain),
    pairs: pairs.map(plain),
    leftOut: [...new Set(leftOut.map(({ survey }) => survey))].map((survey) => {
      const of = leftOut.filter((each) => each.survey === survey);
      return {
        survey: asked.indexOf(survey),
        lines: [...new Set(of.map(({ line }) => line.name))],
        what: [...new Set(of.flatMap(({ unlike }) => unlike.map(({ what }) => what)))],
      };
    }),
  };
}

function bare(line: Line): Line {
  return { ...line, placements: [] };
}
