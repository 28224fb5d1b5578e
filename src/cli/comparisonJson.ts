import type { Change, Comparison, LineChange, SizedChange } from '../seasons/comparison.ts';
import { rounded } from './rounded.ts';

/** A comparison as one plain object, lengths in mm, angles in degrees. */
export function comparisonJson(all: Comparison) {
  const { first, second, tolerance, least, unlike, lines, unmatched, control } = all;
  return {
    first: headOf(first.survey),
    second: headOf(second.survey),
    movementTolerance: rounded(tolerance, 4),
    least: rounded(least, 4),
    unlike: unlike.map(({ what, first: one, second: two, known, lines: on, accepted }) => ({
      what,
      ...(one !== undefined && { first: one }),
      ...(two !== undefined && { second: two }),
      known,
      ...(on !== undefined && { lines: on }),
      accepted,
    })),
    control,
    lines: lines.map(lineJson),
    unmatched: unmatched.map(({ line, in: where }) => ({
      line: line.name,
      side: line.side,
      offset: rounded(line.offset, 3),
      in: where,
    })),
  };
}

function headOf({ hull, date }: Comparison['first']['survey']) {
  return { ...(hull !== undefined && { hull }), ...(date !== undefined && { date }) };
}

function lineJson({ first, second, matchedBy, control, outcome }: LineChange) {
  const { line, part, parts } = second;
  const head = {
    line: line.name,
    side: line.side,
    offset: rounded(line.offset, 3),
    was: first.line.name,
    matchedBy,
    ...(parts > 1 && { part, parts }),
    control,
  };
  if (!outcome.ok) {
    const { reason, unlike } = outcome;
    return { ...head, outcome: 'not compared', reason, ...(reason === 'unlike' && { unlike }) };
  }
  return { ...head, ...changeJson(outcome) };
}

function changeJson(change: Change) {
  const { outcome, inward, outward, tail, threshold, visible, stillness, edge, sections } = change;
  return {
    outcome,
    inward: sizedJson(inward),
    outward: sizedJson(outward),
    ...(tail && {
      tail: {
        turned: rounded(tail.angle, 4),
        u: rounded(tail.u, 4),
        over: tail.over,
        proven: tail.proven,
      },
    }),
    threshold: rounded(threshold, 4),
    visible: rounded(visible, 4),
    stillness: rounded(stillness, 4),
    edge,
    compared: { from: rounded(change.compared[0], 1), to: rounded(change.compared[1], 1) },
    sections: sections.map(({ from, to, outcome: section, way, probability }) => ({
      from: rounded(from, 1),
      to: rounded(to, 1),
      outcome: section,
      ...(way !== undefined && { way }),
      probability: rounded(probability, 4),
    })),
    difference: change.difference.map(({ x, z, u }) => ({
      x: rounded(x, 2),
      z: rounded(z, 4),
      u: rounded(u, 4),
    })),
  };
}

function sizedJson({ way, size, u, at, from, to }: SizedChange) {
  return {
    way,
    size: rounded(size, 4),
    u: rounded(u, 4),
    at: rounded(at, 1),
    from: rounded(from, 1),
    to: rounded(to, 1),
  };
}
