import type { EdgeCheck } from '../survey.ts';
import { tidyMm } from './tidyMm.ts';

/** An edge's error at a point, mm from its end A: positive proud, with its standard uncertainty; up to a straight
 *  line. */
export interface ErrorPoint {
  readonly u: number;
  readonly e: number;
  readonly uncertainty: number;
}

export type CheckPoints =
  | { readonly ok: true; readonly points: readonly ErrorPoint[] }
  | {
      readonly ok: false;
      readonly reason: 'too few points' | 'contradictory' | 'impossible';
      /** The reason with its place, as a sentence. */
      readonly words: string;
      readonly n?: number;
      readonly needed?: number;
      /** Place among the check's points, from 0. */
      readonly point?: number;
    };

/** Fewest points along an edge that a check can rest on. */
export const POINTS_NEEDED = 5;

/** Why so many. */
export const POINTS_NEEDED_WORDS = `At least ${POINTS_NEEDED} points along the edge are needed: two are used up by the straight line that no check can tell, and three show a bow and tell it from an S or from a slip.`;

/** Points nearer than this are one, mm: a pencil mark. */
const SAME_POINT = 1;
/** House default: no edge is believed to be out by more than this part of its length. */
const MOST_OF_LENGTH = 1 / 50;

/** The edge's error from what a check read.
 *  - Reversal: the lines stand apart by twice the error, e = apart / 2 (Evans, Hocken and Estler 1996, CIRP Annals
 *    45(2), 617: M = (I1 − I2)/2).
 *  - Three edges in pairs: a gap is minus the sum of two errors, so e of the first is −(g12 + g31 − g23)/2 (the
 *    three-plate principle, derived for gaps).
 *  Each figure is uncertain by its division/√12 (GUM F.2.2.1) and by half a division for repeating it (house default).
 *  `length`: of the edge, mm, where it is known. */
export function checkPoints(check: EdgeCheck, length?: number): CheckPoints {
  const figure = Math.hypot(check.readTo / Math.sqrt(12), check.readTo / 2);
  const found = check.method === 'reversal' ? reversed(check, figure) : paired(check, figure);
  const strange = impossible(check, found, length);
  if (strange) return strange;
  const order = found.map((_, i) => i).sort((a, b) => found[a].u - found[b].u);
  const points: ErrorPoint[] = [];
  for (const i of order) {
    const point = found[i];
    const before = points.at(-1);
    if (before !== undefined && point.u - before.u < SAME_POINT) {
      if (Math.abs(point.e - before.e) > 5 * Math.SQRT2 * point.uncertainty) {
        return {
          ok: false,
          reason: 'contradictory',
          point: i,
          words: `At ${tidyMm(point.u)} mm from end A the check says two things that cannot both be: ${said(before.e)} and ${said(point.e)}.`,
        };
      }
      points.push({ ...point, u: before.u });
    } else points.push(point);
  }
  const n = new Set(points.map(({ u }) => u)).size;
  if (n < POINTS_NEEDED) {
    return {
      ok: false,
      reason: 'too few points',
      n,
      needed: POINTS_NEEDED,
      words: `The check has ${n} ${n === 1 ? 'point' : 'points'}. ${POINTS_NEEDED_WORDS}`,
    };
  }
  return { ok: true, points };
}

function said(e: number): string {
  return `${tidyMm(Math.abs(e))} mm ${e < 0 ? 'hollow' : 'proud'}`;
}

function reversed(
  { points }: Extract<EdgeCheck, { method: 'reversal' }>,
  figure: number,
): readonly ErrorPoint[] {
  return points.map(({ at, apart }) => ({ u: at, e: apart / 2, uncertainty: figure / 2 }));
}

function paired(
  { points }: Extract<EdgeCheck, { method: 'three edges' }>,
  figure: number,
): readonly ErrorPoint[] {
  return points.map(({ at, withSecond, secondWithThird, withThird }) => ({
    u: at,
    e: -(withSecond + withThird - secondWithThird) / 2,
    uncertainty: (Math.sqrt(3) / 2) * figure,
  }));
}

function impossible(
  check: EdgeCheck,
  found: readonly ErrorPoint[],
  length: number | undefined,
): Extract<CheckPoints, { ok: false }> | undefined {
  const refuse = (words: string, point?: number) =>
    ({ ok: false, reason: 'impossible', words, ...(point !== undefined && { point }) }) as const;
  if (!(check.readTo > 0 && check.readTo < Infinity)) {
    return refuse('The check does not say what it was read to: more than 0 is expected.');
  }
  for (const [i, { u, e }] of found.entries()) {
    const place = `Point ${i + 1}`;
    if (!Number.isFinite(u) || !Number.isFinite(e)) {
      return refuse(`${place}: numbers are expected.`, i);
    }
    if (u < 0) return refuse(`${place}: ${tidyMm(u)} mm from end A lies before the end.`, i);
    if (length !== undefined && u > length + SAME_POINT) {
      return refuse(
        `${place}: ${tidyMm(u)} mm from end A lies past the end of an edge ${tidyMm(length)} mm long.`,
        i,
      );
    }
    const reach = length ?? Math.max(...found.map((p) => p.u));
    if (Math.abs(e) > reach * MOST_OF_LENGTH) {
      return refuse(
        `${place}: an edge ${tidyMm(reach)} mm long that is out by ${tidyMm(Math.abs(e))} mm is no straightedge.`,
        i,
      );
    }
  }
  if (check.method === 'three edges') {
    for (const [i, { withSecond, secondWithThird, withThird }] of check.points.entries()) {
      if (Math.min(withSecond, secondWithThird, withThird) < 0) {
        return refuse(
          `Point ${i + 1}: a gap between two edges is 0 or more; they do not sink into each other.`,
          i,
        );
      }
    }
  }
  return undefined;
}
