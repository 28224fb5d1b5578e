import { exactLength } from '../exactText.ts';
import type { Survey } from '../survey.ts';
import { isKnownKey } from './conditions.ts';
import type { CommonFacts } from './measuredRow.ts';

/** The `# key: value` lines of a survey, each on one line; lengths exact and with their unit. */
export function writeConditions(
  survey: Survey,
  common: CommonFacts,
  columnsSay: 'mm' | 'in',
): readonly string[] {
  const { workUnit, tolerance } = survey;
  const lines: string[] = [];
  const say = (key: string, value: string | undefined) => {
    if (value !== undefined && value.trim() !== '')
      lines.push(`# ${oneLine(key)}: ${oneLine(value)}`);
  };
  const sayLength = (key: string, mm: number | undefined) => {
    say(key, mm === undefined ? undefined : exactLength(mm, workUnit));
  };

  say('hull', survey.hull);
  say('date', survey.date);
  if (survey.kind === 'log') say('kind', 'log');
  if (workUnit !== columnsSay) say('work unit', workUnit);
  for (const event of survey.support) {
    say('support', event.what);
    say('support since', event.at);
    say('support engine', event.engine);
    say('support checked by', event.checkedBy);
  }
  if (tolerance !== undefined) {
    const { gap, over, houseDefault, setBy } = tolerance;
    const length = `${exactLength(gap, workUnit)} over ${exactLength(over, workUnit)}`;
    say('tolerance', houseDefault ? `${length} (house default)` : length);
    say('tolerance set by', setBy);
  }
  sayLength('limit', survey.limit);
  sayLength('repeatability', survey.repeatability);
  sayLength('transom radius', survey.transomRadius);
  say('held', common.held);
  sayLength('block', common.block);
  say('blocks at', common.blocksAt && writeBlocksAt(common.blocksAt, workUnit));
  say('edge', common.edge);
  sayLength('edge length', common.edgeLength);
  sayLength('aft end', common.aftEnd);
  say('aft mark', common.aftMark);
  say('gauge', common.gauge);
  sayLength('read to', common.division);
  say('reads', common.reads);
  for (const [key, value] of Object.entries(survey.conditions)) {
    const plain = isKnownKey(key) ? `note on ${key}` : key;
    for (const line of value.split('\n')) say(plain, line);
  }
  return lines;
}

/** "100 mm and 1400 mm": what `readBlocksAt` reads back. */
export function writeBlocksAt(at: readonly [number, number], workUnit: 'mm' | 'in'): string {
  return `${exactLength(at[0], workUnit)} and ${exactLength(at[1], workUnit)}`;
}

function oneLine(text: string): string {
  return text.replace(/\s*[\r\n]+\s*/g, ' ').trim();
}
