import {
  showAngle,
  showLine,
  showMeasured,
  showPlace,
  showStretch,
  showTolerance,
  type WorkUnit,
} from '../survey/figures.ts';
import { listed } from '../survey/sentence.ts';
import { showLength } from '../survey/units.ts';
import type { Change, Comparison, LineChange, NotCompared, SizedChange } from './comparison.ts';
import type { Unlike } from './unlike.ts';

/** What one line did, in words: the word first, then what, where, how much, how sure. */
export interface ChangeWords {
  readonly word: string;
  readonly where: string;
  /** One sentence a finding. */
  readonly findings: readonly string[];
  /** What could have been seen. */
  readonly sight: string;
}

export function changeWords(
  change: LineChange,
  comparison: Comparison,
  unit: WorkUnit = comparison.second.survey.workUnit,
): ChangeWords {
  const { second, outcome, control } = change;
  const part = second.parts > 1 ? ` (part ${second.part} of ${second.parts})` : '';
  const named = `${showLine(second.line.side, second.line.offset, unit)}${part}`;
  const where = control ? `${named}, control line` : named;
  if (!outcome.ok) {
    return { word: 'Not compared', where, findings: [whyNot(outcome)], sight: '' };
  }
  const word = outcome.outcome.charAt(0).toUpperCase() + outcome.outcome.slice(1);
  return {
    word,
    where,
    findings: findingsOf(outcome, comparison, unit),
    sight: sightOf(outcome, comparison, unit),
  };
}

function whyNot({ reason, unlike }: NotCompared): string {
  if (reason === 'unlike') {
    return `The surveys differ in ${listed(unlike.map((what) => UNLIKE_NAMES[what]))}: accept that knowingly, or do not compare.`;
  }
  if (reason === 'too few readings') return 'One of the surveys has too few readings on it.';
  return 'The surveys have too little of it in common: four stations or more in each are needed on one stretch.';
}

function findingsOf(
  change: Change,
  { tolerance, least }: Comparison,
  unit: WorkUnit,
): readonly string[] {
  const said: string[] = [];
  const moved = change.sections.filter(({ outcome }) => outcome === 'moved');
  for (const { from, to, way } of moved) {
    if (way === undefined) continue;
    const deepest = [change.inward, change.outward].find(
      (each) => each.way === way && each.at >= from && each.at <= to,
    );
    const stretch = `from ${showStretch(from, to, unit)} forward of the transom`;
    said.push(
      deepest === undefined
        ? `${WORDS[way]}, ${stretch}.`
        : `${WORDS[way]} by ${showMeasured(deepest.size, deepest.u, unit)} near ${showPlace(deepest.at, unit)}, ${stretch}.`,
    );
    if (deepest !== undefined) said.push(...againstTolerance(deepest, tolerance, unit));
  }
  if (moved.length === 0) {
    const { inward, outward } = change;
    const most = inward.size >= outward.size ? inward : outward;
    const why =
      change.outcome !== 'not moved'
        ? 'not proven'
        : change.sections.some(({ way }) => way !== undefined)
          ? `not proven to be more than the ${showTolerance(least, unit)} laid to the measuring`
          : 'no more than scatter shows of a bottom that has not moved';
    said.push(
      `The largest change read is ${showMeasured(most.size, most.u, unit)} (${WORDS[most.way].toLowerCase()}), ${why}.`,
    );
  }
  const { tail } = change;
  if (tail?.proven) {
    const way = tail.angle > 0 ? 'down' : 'up';
    said.push(
      `Over the last ${showPlace(tail.over, unit)} the tail turned ${way} by ${showAngle(Math.abs(tail.angle), tail.u)}.`,
    );
  }
  return said;
}

function againstTolerance(
  { size, u }: SizedChange,
  tolerance: number,
  unit: WorkUnit,
): readonly string[] {
  const shown = showTolerance(tolerance, unit);
  if (size - 2 * u > tolerance) return [`That is more than the ${shown} that matters.`];
  if (size + 2 * u < tolerance) return [`That is less than the ${shown} that matters.`];
  return [`Whether that is more than the ${shown} that matters is not proven.`];
}

function sightOf(change: Change, { tolerance }: Comparison, unit: WorkUnit): string {
  const visible = showUpwards(change.visible, unit);
  const seen = `The smallest change that would have been seen is about ${visible}.`;
  const edge =
    change.edge === 'counts in both'
      ? ' What is not known of the straightedges counts twice: they are not known to be one and the same, laid alike.'
      : '';
  if (change.outcome !== 'cannot tell') return seen + edge;
  return `A change of ${showTolerance(tolerance, unit)} is not ruled out. ${seen}${edge}`;
}

/** To the next tenth of a millimetre or 32nd of an inch up: what could be seen is not promised too small. */
function showUpwards(mm: number, unit: WorkUnit): string {
  const step = unit === 'mm' ? 0.1 : 25.4 / 32;
  const size = Math.ceil(mm / step - 1e-9) * step;
  return `${showLength(size, unit === 'mm' ? { unit, decimals: 1 } : { unit, denominator: 32 })} ${unit}`;
}

const WORDS = {
  'hollow deeper': 'Hollow deeper',
  'hollow shallower': 'Hollow shallower',
  'hump higher': 'Hump higher',
  'hump lower': 'Hump lower',
} as const;

/** What differs, as a sentence calls it. */
export const UNLIKE_NAMES = {
  repair: 'a repair in between',
  support: 'what the hull stood on',
  engine: 'the engine, hung, held or off',
  surface: 'the surface',
  edge: 'the straightedge or how it was laid',
  'hours since haul': 'the time since the hull was hauled',
  'days afloat': 'the days afloat before',
} as const satisfies Record<Unlike['what'], string>;

/** What stands at the top of a comparison, a sentence each: what differs first, then, in one sentence, what is not
 *  known to be alike. */
export function unlikeWords(unlike: readonly Unlike[]): readonly string[] {
  const differing = unlike.filter(({ known }) => known === 'differs');
  const silent = unlike.filter(({ known }) => known === 'not stated');
  const said = differing.map(({ what, first, second, lines, accepted }) => {
    const on = lines === undefined || lines.length === 0 ? '' : ` (${lines.join(', ')})`;
    const stop = accepted
      ? 'Accepted knowingly.'
      : 'Not compared for that reason until somebody accepts it knowingly.';
    if (what === 'repair') return `Repaired in between${on}: ${second ?? first ?? ''}. ${stop}`;
    return `The surveys differ in ${UNLIKE_NAMES[what]}${on}: first “${first ?? ''}”, then “${second ?? ''}”. ${stop}`;
  });
  if (silent.length === 0) return said;
  const names = [...new Set(silent.map(({ what }) => UNLIKE_NAMES[what]))];
  return [
    ...said,
    `Not known to be alike, since one survey or both say nothing of it or not enough: ${listed(names)}.`,
  ];
}

/** What the control lines say; empty where none was read. */
export function controlWords({ control, lines }: Comparison): string {
  const names = [...new Set(lines.filter((l) => l.control).map((l) => l.second.line.name))];
  const named = `${names.length === 1 ? 'The control line' : 'The control lines'} ${listed(names)}`;
  if (control === 'steady') {
    return `${named} did not move: the set-up is the same, and what moved elsewhere is the hull.`;
  }
  if (control === 'moved') {
    return `${named} moved although nobody worked there: the set-up changed. Lay no other change to the hull before that is explained.`;
  }
  if (control === 'cannot tell') {
    return `${named} cannot tell a changed set-up from a changed hull.`;
  }
  return '';
}

/** Three lines or more, all moved the same way, and no control: what is common to them comes before the hull. */
export function alikeEverywhereWords({ lines, control }: Comparison): string {
  const compared = lines.flatMap(({ outcome }) => (outcome.ok ? outcome : []));
  const ways = new Set(
    compared.map(({ outcome, sections }) =>
      outcome === 'moved' ? sections.find((s) => s.outcome === 'moved')?.way : undefined,
    ),
  );
  const alike = compared.length >= 3 && ways.size === 1 && !ways.has(undefined);
  if (!alike || control !== 'none read') return '';
  return 'Every line shows a change of the same kind: check the straightedge and the support before the hull is blamed.';
}

/** On a trailer or bunks, what lessens by itself was partly the support's; empty where that is not so. */
export function relaxedWords({ first, second, lines, unlike }: Comparison): string {
  const onBunks = [first, second].some(({ survey }) =>
    survey.support.some(({ what }) => /\b(?:trailer|bunks?)\b/i.test(what)),
  );
  const repaired = unlike.some(({ what }) => what === 'repair');
  const ways = lines.flatMap(({ outcome }) =>
    outcome.ok ? outcome.sections.flatMap((s) => (s.outcome === 'moved' ? (s.way ?? []) : [])) : [],
  );
  const lessened = ways.every((way) => way === 'hollow shallower' || way === 'hump lower');
  if (!onBunks || repaired || ways.length === 0 || !lessened) return '';
  return 'What shows has become less with nobody working on it: on a trailer or bunks part of it is the support’s doing and goes afloat. Wait and measure again before anything is filled; filled now, it may become a hump.';
}
