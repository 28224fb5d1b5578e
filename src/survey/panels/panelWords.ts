import type { Area } from '../../fit/surface/areas.ts';
import type { PanelRefusal } from '../../fit/surface/fitPanel.ts';
import type { SurveyAssessment } from '../assessment.ts';
import {
  showAngle,
  showMeasured,
  showPlace,
  showStretch,
  showTolerance,
  type WorkUnit,
} from '../figures.ts';
import { capital, listed } from '../sentence.ts';
import type { PanelAssessment, PanelJudged, PanelsAssessment } from './assessPanels.ts';
import { nextPlacement, nextSentence } from './nextPlacement.ts';

/** A panel's finding in words: the word first, then what, where, how much, how sure; whether the placements close; and
 *  what to lay next. */
export interface PanelWords {
  readonly word: string;
  readonly where: string;
  readonly findings: readonly string[];
  readonly closure: string;
  readonly next: readonly string[];
}

export function panelWords(
  panel: PanelAssessment,
  all: SurveyAssessment,
  unit: WorkUnit = all.survey.workUnit,
): PanelWords {
  const { side, lines, outcome } = panel;
  const names = listed(lines.map(({ name }) => name));
  const where = `${side === 'both' ? 'both sides' : side}, lines ${names}`;
  if (!outcome.ok) {
    return {
      word: 'Not one surface',
      where,
      findings: [refused(outcome, lines.length)],
      closure: '',
      next: [...toTie(outcome, lines.length), ...toTieKeel(panel)],
    };
  }
  const tolerance = all.tolerance.gap;
  return {
    word: wordOf(outcome),
    where,
    findings: [
      twistSentence(outcome, panel, tolerance, unit),
      ...areaSentences(panel, outcome, tolerance, unit),
      ...neighbourSentences(panel, outcome, unit),
    ],
    closure: closureSentence(outcome),
    next: [...nextSentences(outcome, panel, unit), ...toTieKeel(panel)],
  };
}

/** "Twisted", "Twisted, hollow", "Fair", "Undecided". */
function wordOf({ twist, areas }: PanelJudged): string {
  const proven = [
    ...(twist?.verdict === 'twisted' ? ['twisted'] : []),
    ...(areas.verdict === 'fair' || areas.verdict === 'undecided' ? [] : [areas.verdict]),
  ];
  if (proven.length > 0) return capital(proven.join(', '));
  if (areas.verdict === 'fair' && twist?.verdict === 'not twisted') return 'Fair';
  if (areas.verdict === 'fair' && twist === undefined)
    return 'Fair but for a twist nobody looked for';
  return 'Undecided';
}

function refused({ reason }: PanelRefusal, lines: number): string {
  const each =
    'each line floats at a height and tilt of its own, and only what each shows by itself can be said';
  if (reason === 'not crossed') return `No straightedge was laid across these lines: ${each}.`;
  if (reason === 'too few lines') {
    return `A straightedge across ${lines === 2 ? 'two lines' : 'one line'} fits them whatever they are: three are needed to say anything, and ${each}.`;
  }
  if (reason === 'too few readings') return `A line has too few stations of its own: ${each}.`;
  return `The straightedges across do not settle every line's height and tilt: ${each}.`;
}

function toTie({ reason }: PanelRefusal, lines: number): readonly string[] {
  if (lines < 3)
    return ['Read a third line on this side, then lay a straightedge across all three.'];
  if (reason === 'too few readings') return ['Read that line at four stations or more.'];
  return [
    'Lay the straightedge athwart at two stations or more, far apart, over at least three lines, and on one diagonal over at least three: that is the least that shows a twist.',
  ];
}

/** "the outer line … against the inner one". */
function turningLines({ side, lines }: PanelAssessment): readonly [string, string] {
  if (side !== 'both') return ['the outer line', 'the inner one'];
  const [port, starboard] = [lines[0].name, lines[lines.length - 1].name];
  return [`${starboard}, the outermost line to starboard,`, `${port}, the outermost to port`];
}

function twistSentence(
  { twist }: PanelJudged,
  panel: PanelAssessment,
  tolerance: number,
  unit: WorkUnit,
): string {
  if (twist === undefined) {
    return 'Whether the panel is twisted cannot be said: a straightedge laid fore and aft or athwart lies flat on a panel that is only twisted, and none was laid on a diagonal. Heights are told beside any twist.';
  }
  const size = showMeasured(Math.abs(twist.corner), twist.cornerU, unit);
  const over = showPlace(twist.over, unit);
  const against = showTolerance(tolerance, unit);
  if (twist.verdict === 'not twisted') {
    return `Not twisted: over ${over} the fourth corner lies within ${against} of the plane of the other three (${size}).`;
  }
  const way = twist.corner > 0 ? 'towards the water' : 'away from the water';
  const turned = showAngle(Math.abs(twist.angle), twist.u);
  const [outer, inner] = turningLines(panel);
  const what = `${outer} turns ${way} going forward by ${turned} against ${inner}, which puts the fourth corner off the plane of the other three by ${size} over ${over}`;
  if (twist.verdict === 'twisted') {
    const on =
      panel.side === 'both' ? 'As a whole the bottom is twisted:' : `On the ${panel.side} side`;
    return `${on} ${what}. Proven beyond the ${against} allowed.`;
  }
  if (Math.abs(twist.corner) < 2 * twist.cornerU) {
    return `Whether it is twisted is not proven either way: the fourth corner is off the plane of the other three by ${size} over ${over}; ${against} is allowed.`;
  }
  return `Perhaps twisted, not proven either way: ${what}; ${against} is allowed.`;
}

function areaSentences(
  { lines }: PanelAssessment,
  { areas, judged }: PanelJudged,
  tolerance: number,
  unit: WorkUnit,
): readonly string[] {
  if (areas.areas.length === 0) {
    const stretch = showStretch(judged[0], judged[1], unit);
    const held = `no straightedge laid fore and aft or athwart, from ${stretch} forward of the transom, would show more than ${showTolerance(tolerance, unit)}`;
    return [
      areas.verdict === 'fair' ? `${capital(held)}. Proven.` : `Most likely ${held}; not proven.`,
    ];
  }
  return areas.areas.map((area) => areaSentence(area, lines, unit));
}

function areaSentence(area: Area, lines: PanelAssessment['lines'], unit: WorkUnit): string {
  const on = area.lines.map((i) => lines[i].name);
  const place = `near ${showPlace(area.at.x, unit)} on ${lines[area.at.line].name}`;
  const size = showMeasured(area.size, area.u, unit);
  const stretch = `from ${showStretch(area.x[0], area.x[1], unit)} forward of the transom on ${on.length === 1 ? 'line' : 'lines'} ${listed(on)}`;
  const kind = area.kind === 'hollow' ? 'Hollow' : 'Hump';
  const how = area.kind === 'hollow' ? 'deep' : 'high';
  const said = `${size} ${how} ${place}, under a straightedge laid ${area.shown}; ${stretch}`;
  return area.proven
    ? `${kind} ${said}. Proven.`
    : `Perhaps a ${kind.toLowerCase()}, not proven: ${said}.`;
}

function neighbourSentences(
  { lines }: PanelAssessment,
  { neighbours }: PanelJudged,
  unit: WorkUnit,
): readonly string[] {
  const unlike = neighbours.filter(({ verdict }) => verdict === 'unlike');
  if (unlike.length === 0) {
    return neighbours.every(({ verdict }) => verdict === 'alike')
      ? ['Neighbouring lines have the same shape.']
      : [];
  }
  return unlike.map(({ inner, outer, size, u, at }) => {
    const apart = showMeasured(Math.abs(size), u, unit);
    return `${lines[inner].name} and ${lines[outer].name} differ in shape by ${apart} near ${showPlace(at, unit)}: what one shows does not go on to the other.`;
  });
}

function closureSentence({ misclosure, placements }: PanelJudged): string {
  const { dof, closes, outlier, chiSquare } = misclosure;
  if (dof === 0) {
    return 'Nothing checks the placements across against one another: they are the least that ties the lines.';
  }
  const checks = `${dof} independent check${dof === 1 ? '' : 's'}`;
  if (closes)
    return `The placements close: ${checks} agree within what the readings' uncertainty explains.`;
  const times = Math.sqrt(chiSquare / dof).toFixed(1);
  const amiss = `The placements do not close: ${checks} differ by ${times} times what the readings' uncertainty explains`;
  if (outlier === undefined)
    return `${amiss}, and no single placement accounts for it. Lay them again.`;
  const { name } = placements[outlier];
  const own = placements[outlier];
  const called = 'direction' in own ? `placement ${name}, ${own.direction},` : `placement ${name}`;
  return `${amiss}; without ${called} the rest close. Lay it again; it stays in until a person strikes it.`;
}

function nextSentences(
  outcome: PanelJudged,
  { side, lines }: PanelAssessment,
  unit: WorkUnit,
): readonly string[] {
  if (outcome.twist?.verdict === 'twisted') return side === 'both' ? WHOLE_TWISTED : UNDER_A_TWIST;
  const next = nextPlacement(outcome);
  const ends =
    side === 'both' ? ([lines[0].name, lines[lines.length - 1].name] as const) : undefined;
  if (next !== undefined) return [nextSentence(next, unit, ends)];
  return outcome.panel.datum === 'plane'
    ? []
    : ['Lay the straightedge on a diagonal over all lines: nothing else shows a twist.'];
}

function toTieKeel({ keelOpen }: PanelAssessment): readonly string[] {
  return keelOpen === true
    ? [
        'What was laid right across the keel does not tie the two sides to one another: lay the straightedge across it athwart at two stations or more, far apart, and on a diagonal, each over two lines or more of either side.',
      ]
    : [];
}

const STANDS =
  'Fill nothing yet: one stand too high or too low twists a bottom that is not twisted. See how the hull stands, level it, note the support, and lay the straightedge along and across again.';

/** Common practice, no source. */
const WHOLE_TWISTED = [
  STANDS,
  'If it is still there: no line shows it, so filling line by line does not take it out. Ask the builder, and a qualified marine surveyor whether the structure is sound.',
] as const;

/** Common practice, no source. */
const UNDER_A_TWIST = [
  STANDS,
  'If it is still there: no line shows it, so filling line by line does not take it out. Compare port with starboard, ask the builder, and a qualified marine surveyor whether the structure is sound.',
] as const;

/** On a vee no straightedge lies along both panels, so that nothing ties their planes: see docs/surface.md. */
const NOT_TIED_ACROSS =
  'Nothing ties the two sides to one another, since no straightedge lies along both panels of a vee: whether one as a whole stands lower, or at another angle fore and aft, than the other is not told.';

/** Port against starboard, and what that does not tell; empty where there is nothing to compare. */
export function sidesSentence({ sides }: PanelsAssessment, unit: WorkUnit): string {
  return sides === undefined ? '' : `${comparedSides(sides, unit)} ${planesSentence(sides)}`;
}

/** How the sides lie to one another as a whole, or that nothing tells it. */
function planesSentence({
  planes,
  isOne,
  keelOpen,
}: NonNullable<PanelsAssessment['sides']>): string {
  if (planes === undefined) {
    if (isOne === true)
      return 'At which angle they lie to one another is not told: none was laid on a diagonal.';
    return keelOpen === true ? KEEL_OPEN : NOT_TIED_ACROSS;
  }
  const { along, athwart } = planes;
  const forward = along.angle > 0 ? 'towards the water' : 'away from the water';
  const bent = athwart.angle > 0 ? 'open towards the water' : 'fall away from the water';
  return `Straightedges right across the keel tie them: as a whole starboard turns ${forward} going forward by ${showAngle(Math.abs(along.angle), along.u)} against port, and across the keel the two ${bent} by ${showAngle(Math.abs(athwart.angle), athwart.u)}.`;
}

const KEEL_OPEN =
  'What was laid right across the keel does not tie the two sides to one another: whether one as a whole stands lower, or at another angle fore and aft, than the other is not told.';

function comparedSides(sides: NonNullable<PanelsAssessment['sides']>, unit: WorkUnit): string {
  const size = showMeasured(Math.abs(sides.size), sides.u, unit);
  if (sides.verdict === 'alike') return 'Port and starboard are alike within the tolerance.';
  const pair = sides.line === undefined ? undefined : sides.lines[sides.line];
  const on = pair === undefined ? '' : ` on ${pair[0].name} and ${pair[1].name}`;
  const more = sides.size > 0 ? 'starboard stands farther out' : 'port stands farther out';
  const said = `${more} by ${size} near ${showPlace(sides.at, unit)}${on}`;
  return sides.verdict === 'unlike'
    ? `Port and starboard differ: ${said}, each taken from its own best plane. Proven beyond the tolerance.`
    : `Whether port and starboard are alike is not proven: ${said}, each taken from its own best plane.`;
}
