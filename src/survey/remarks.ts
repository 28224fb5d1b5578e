import { alikeEverywhere, alikeInPairs } from './alike.ts';
import type { LineAssessment, Remark } from './assessment.ts';
import type { EdgeAssessment } from './edge/edgeAssessment.ts';
import { showTolerance } from './figures.ts';
import { slippedBlocks } from './slippedBlock.ts';
import type { Line, Placement, Survey, Tolerance } from './survey.ts';
import { houseDivision } from './usable.ts';
import { readingCount } from './usableColumns.ts';

/** An edge whose every gap is larger than this does not rest on the hull, mm. */
const OFF_THE_HULL = 5;

/** What the readings suggest beyond the verdict of one line. */
export function remarksOn(
  survey: Survey,
  lines: readonly LineAssessment[],
  tolerance: Tolerance,
  edges: readonly EdgeAssessment[],
): Remark[] {
  return [
    ...alikeRemarks(lines, tolerance, edges),
    ...afloatRemarks(survey, lines),
    ...slippedBlocks(survey),
    ...lines.flatMap((line) => aheadRemarks(line)),
    ...survey.lines.flatMap((line) => contactRemarks(survey, line)),
  ];
}

const CHECK_IT =
  'check it for a bow (scribe a line along it on a flat board, turn it over about the line and scribe again; the lines stand apart by twice its error) or lay a second edge. If the edge is true, it may be moulded in: ask the builder before anything is filled.';

/** Edge first, mould second; and of the edge, whether anybody checked it. */
function alikeWords(edges: readonly EdgeAssessment[]): string {
  const all = 'Every line shows the same departure.';
  const every = (state: EdgeAssessment['state']) =>
    edges.length > 0 && edges.every((e) => e.state === state);
  if (every('checked') && edges.every((e) => e.uncorrected.length === 0)) {
    const dates = [...new Set(edges.flatMap(({ date }) => date ?? []))].join(', ');
    const when = dates === '' ? '' : ` (${dates})`;
    return `${all} The straightedge was checked${when} and is corrected for, so suspect the mould: ask the builder before anything is filled.`;
  }
  if (edges.some((e) => e.state === 'checked')) {
    return `${all} First suspect the straightedge: it was checked, but not every reading could be corrected for it. See to what is missing, or ${CHECK_IT}`;
  }
  if (every('stated')) {
    return `${all} First suspect the straightedge, whose error is stated and not checked: ${CHECK_IT}`;
  }
  return `${all} First suspect the straightedge, which nobody has checked: ${CHECK_IT}`;
}

function alikeRemarks(
  lines: readonly LineAssessment[],
  tolerance: Tolerance,
  edges: readonly EdgeAssessment[],
): Remark[] {
  if (alikeEverywhere(lines, tolerance.gap)) {
    return [{ about: 'survey', kind: 'same departure on every line', words: alikeWords(edges) }];
  }
  if (alikeInPairs(lines, tolerance.gap)) {
    return [
      {
        about: 'survey',
        kind: 'alike port and starboard',
        words:
          'Port and starboard depart alike. Symmetry hints at design, or at how the hull was stood for long, rather than at damage: ask the builder before anything is filled.',
      },
    ];
  }
  return [];
}

/** A hull that lives on a trailer or bunks: part of what is measured ashore can go after days afloat. */
function afloatRemarks(survey: Survey, lines: readonly LineAssessment[]): Remark[] {
  const stood = [survey.conditions['support'], ...survey.support.map((s) => s.what)].join(' ');
  const departs = lines.some(
    (l) => l.outcome.ok && l.outcome.judgement.verdict.some((v) => v !== 'fair'),
  );
  if (!departs || !/trailer|bunk/i.test(stood)) return [];
  return [
    {
      about: 'survey',
      kind: 'may recover afloat',
      words:
        'The hull stood on a trailer or bunks. Part of what it shows can go after days afloat: measure again after a week in the water, or on other support, before anything is filled; filled now, it may become a hump.',
    },
  ];
}

function aheadRemarks({ line, part, parts, points }: LineAssessment): Remark[] {
  const ahead = points.filter((p) => !p.judged).length;
  if (ahead === 0) return [];
  const where = parts > 1 ? `${line.name} (part ${part} of ${parts})` : line.name;
  return [
    {
      about: 'line',
      line: line.name,
      kind: 'readings ahead of the limit',
      words: `${where}: ${ahead} reading${ahead === 1 ? '' : 's'} ahead of the limit of the straight run: drawn, not judged.`,
    },
  ];
}

function leastGap({ readings, log }: Placement): number {
  let least = Infinity;
  for (const { gap } of readings) least = Math.min(least, gap.mm);
  for (const gap of log?.series?.gap ?? []) least = Math.min(least, gap);
  return least;
}

function contactRemarks({ workUnit }: Survey, line: Line): Remark[] {
  return line.placements.flatMap((placement): Remark[] => {
    if (placement.held !== 'resting' || readingCount(placement) < 4) return [];
    const least = leastGap(placement);
    const division = placement.division ?? houseDivision(workUnit);
    if (least <= division + 1e-9) return [];
    const asked =
      least > OFF_THE_HULL
        ? 'On blocks that nobody stated?'
        : 'Touching between stations, or slipped?';
    return [
      {
        about: 'placement',
        line: line.name,
        kind: 'no contact',
        words: `${line.name}, placement ${placement.name}: no reading of 0 on a resting edge (the least is ${showTolerance(least, workUnit)}). ${asked}`,
      },
    ];
  });
}
