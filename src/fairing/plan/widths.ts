import type { Line } from '../../survey/survey.ts';

/** How far a line speaks for the bottom beside it, towards the keel and away from it, mm. */
export interface Width {
  readonly inner: number;
  readonly outer: number;
  /** Whether the person stated the width. */
  readonly stated: boolean;
}

/** Widths by the line's id: half way to the lines beside it on its side, and to the centre line where there is one.
 *  The innermost and the outermost line reach as far to their open side as to the other, but not over the keel. A
 *  line alone on its side speaks for none unless a width is stated. */
export function widthsOf(
  lines: readonly Line[],
  stated: Readonly<Record<string, number>> = {},
): ReadonlyMap<string, Width> {
  const widths = new Map<string, Width>();
  const centre = lines.find(({ side }) => side === 'centre');
  for (const side of ['port', 'starboard'] as const) {
    const own = lines.filter((line) => line.side === side).sort((a, b) => a.offset - b.offset);
    own.forEach((line, i) => {
      const inward = i > 0 ? own[i - 1].offset : centre?.offset;
      const inner = inward === undefined ? undefined : (line.offset - inward) / 2;
      const outer = i + 1 < own.length ? (own[i + 1].offset - line.offset) / 2 : undefined;
      const known = inner ?? outer;
      if (known === undefined) return;
      widths.set(line.id, {
        inner: inner ?? Math.min(known, line.offset),
        outer: outer ?? known,
        stated: false,
      });
    });
  }
  if (centre !== undefined) {
    const beside = (['port', 'starboard'] as const).flatMap((side) => {
      const offsets = lines.filter((line) => line.side === side).map(({ offset }) => offset);
      return offsets.length === 0 ? [] : [Math.min(...offsets) / 2];
    });
    if (beside.length > 0) {
      widths.set(centre.id, { inner: beside[0], outer: beside[beside.length - 1], stated: false });
    }
  }
  for (const { id } of lines) {
    if (!Object.hasOwn(stated, id)) continue;
    widths.set(id, { inner: stated[id] / 2, outer: stated[id] / 2, stated: true });
  }
  return widths;
}
