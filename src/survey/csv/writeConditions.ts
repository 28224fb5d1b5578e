import { exactLength } from '../exactText.ts';
import { writeSag } from '../edge/sagText.ts';
import type { Edge, Survey } from '../survey.ts';
import { isKnownKey } from './conditions.ts';
import type { CommonFacts } from './measuredRow.ts';
import { writeHashLine } from './textCell.ts';

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
      lines.push(writeHashLine(`# ${oneLine(key)}: ${oneLine(value)}`));
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
  sayLength('fore block', common.blockFore);
  say('blocks at', common.blocksAt && writeBlocksAt(common.blocksAt, workUnit));
  say('edge', common.edge);
  sayLength('edge length', common.edgeLength);
  sayLength('aft end', common.aftEnd);
  say('aft mark', common.aftMark);
  say('edge face', common.face);
  say('gauge', common.gauge);
  sayLength('read to', common.division);
  say('reads', common.reads);
  for (const edge of survey.edges ?? []) {
    for (const [key, value] of edgeLines(edge, workUnit)) say(key, value);
  }
  for (const [key, value] of Object.entries(survey.conditions)) {
    const plain = isKnownKey(key) ? `note on ${key}` : key;
    for (const line of value.split('\n')) say(plain, line);
  }
  return lines;
}

/** What is known of a straightedge, as `EdgeLines` reads it back. */
function edgeLines(edge: Edge, unit: 'mm' | 'in'): readonly (readonly [string, string])[] {
  const length = (mm: number) => exactLength(mm, unit);
  const { name, kind, bound, sag, checks = [] } = edge;
  const lines: [string, string][] = [['edge known as', name]];
  if (edge.length !== undefined) lines.push(['edge known length', length(edge.length)]);
  if (kind !== undefined) lines.push(['edge type', kind]);
  if (bound) lines.push(['edge bound', `${length(bound.size)} over ${length(bound.over)}`]);
  if (sag !== undefined) lines.push(['edge sag', writeSag(sag, unit)]);
  for (const check of checks) {
    const { method, date, face, readTo } = check;
    lines.push(['edge check', date === undefined ? method : `${method} ${date}`]);
    if (face !== undefined) lines.push(['edge check face', face]);
    lines.push(['edge check read to', length(readTo)]);
    if (check.method === 'reversal') {
      for (const { at, apart } of check.points) {
        lines.push(['edge check at', `${length(at)}: ${length(apart)}`]);
      }
    } else {
      for (const { at, withSecond, secondWithThird, withThird } of check.points) {
        const gaps = [withSecond, secondWithThird, withThird].map(length).join('; ');
        lines.push(['edge check at', `${length(at)}: ${gaps}`]);
      }
    }
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
