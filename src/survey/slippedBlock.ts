import type { Remark } from './assessment.ts';
import { showPlace, showTolerance } from './figures.ts';
import { blockUnder } from './edge/blockUnder.ts';
import type { LogSeries } from './log/logReadings.ts';
import type { Placement, Survey } from './survey.ts';
import { houseDivision } from './usable.ts';
import { showLength } from './units.ts';

/** House default: readings at a block may differ from its height by 1 mm or four divisions. */
const SLACK = 1;
const DIVISIONS = 4;
/** Readings farther than this from a block say nothing of it, mm. */
const NEAR = 200;

/** Blocks whose readings disagree with their height: one may have slipped, or the height is wrong. */
export function slippedBlocks(survey: Survey): Remark[] {
  const unit = survey.workUnit;
  return survey.lines.flatMap((line) =>
    line.placements.flatMap((placement) => {
      const { blocksAt } = placement;
      if (blocksAt === undefined) return [];
      const division = placement.division ?? houseDivision(survey.workUnit);
      const allowed = Math.max(SLACK, DIVISIONS * division);
      return blocksAt.flatMap((at): Remark[] => {
        const gap = gapAt(placement, at);
        const block = blockUnder(placement, at);
        if (gap === undefined || block === undefined) return [];
        if (Math.abs(gap - block) <= allowed) return [];
        const said = showLength(
          gap,
          unit === 'mm' ? { unit, decimals: 1 } : { unit, denominator: 32 },
        );
        return [
          {
            about: 'placement',
            line: line.name,
            kind: 'slipped block',
            words: `${line.name}, placement ${placement.name}: at the block at ${showPlace(at, unit)} the readings say ${said} ${unit}, the block is ${showTolerance(block, unit)}. A block that slipped, or its height mistyped?`,
          },
        ];
      });
    }),
  );
}

/** The gap at a place, between its two neighbouring readings. */
function gapAt(placement: Placement, at: number): number | undefined {
  const { log } = placement;
  const near =
    log?.series === undefined
      ? placement.readings
          .filter((r) => Math.abs(r.station.mm - at) <= NEAR)
          .map((r) => ({ x: r.station.mm, gap: r.gap.mm }))
      : besideIn(log.series, at);
  const aft = near.filter(({ x }) => x <= at).sort((a, b) => b.x - a.x)[0];
  const fore = near.filter(({ x }) => x >= at).sort((a, b) => a.x - b.x)[0];
  if (!aft || !fore) return undefined;
  if (aft.x === fore.x) return aft.gap;
  const share = (at - aft.x) / (fore.x - aft.x);
  return aft.gap + share * (fore.gap - aft.gap);
}

/** A log's last reading up to a place and the first from it, where they are near. */
function besideIn({ x, gap }: LogSeries, at: number): readonly { x: number; gap: number }[] {
  let low = 0;
  let high = x.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (x[middle] < at) low = middle + 1;
    else high = middle;
  }
  return [low - 1, low].flatMap((i) =>
    i >= 0 && i < x.length && Math.abs(x[i] - at) <= NEAR ? [{ x: x[i], gap: gap[i] }] : [],
  );
}
