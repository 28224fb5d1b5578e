import type { Side, Typed } from '../survey.ts';
import { lineOrder } from './order.ts';
import { pickTyped } from './pickTyped.ts';
import type { Stated } from './readStanding.ts';
import type { Disagreement } from './report.ts';
import { firstStated, thingsOf } from './thingsOf.ts';

/** A line of the hull, whether or not it has been measured. */
export interface HullLine {
  /** Id by which new placements refer to it. */
  readonly id: string;
  /** Every id by which placements may refer to it. */
  readonly ids: readonly string[];
  readonly name: string;
  readonly side: Side;
  readonly offset: Typed;
  readonly landmark?: string;
  readonly limit?: Typed;
  readonly notes?: string;
}

const LETTER: Readonly<Record<Side, string>> = { port: 'P', starboard: 'S', centre: 'C' };

/** The lines that entries state, port, centre, starboard, each from the keel outwards. Two tablets that state a line
 *  of the same side, offset and name speak of one line: their placements meet on it. A line that nobody named is
 *  called after its side and offset, "P450mm". `stated`: in the order of their ids. */
export function hullLinesOf(stated: readonly Stated<'line'>[]): {
  readonly lines: readonly HullLine[];
  readonly disagreements: readonly Disagreement[];
} {
  const things = thingsOf(stated, firstStated, ({ body }) => `the line ${lineName(body)}`);
  const places = new Map<string, HullLine[]>();
  for (const [id, thing] of things.find) {
    const { body } = thing.shown;
    const line: HullLine = {
      id: thing.id,
      ids: [id],
      name: lineName(body),
      side: body.side,
      offset: pickTyped(body.offset),
      ...(body.landmark !== undefined && { landmark: body.landmark }),
      ...(body.limit !== undefined && { limit: pickTyped(body.limit) }),
      ...(body.notes !== undefined && { notes: body.notes }),
    };
    const place = JSON.stringify([line.side, line.offset.mm, line.name]);
    const here = places.get(place);
    if (here === undefined) places.set(place, [line]);
    else here.push(line);
  }
  const lines: HullLine[] = [];
  const disagreements = [...things.disagreements];
  for (const here of places.values()) {
    here.sort((a, b) => (a.id < b.id ? -1 : 1));
    const first = here[0];
    lines.push({ ...first, ids: here.flatMap((line) => line.ids).sort() });
    const ids = [...new Set(here.map((line) => line.id))];
    const said = new Set(here.map(({ landmark, limit }) => JSON.stringify([landmark, limit?.mm])));
    if (said.size > 1) {
      disagreements.push({
        about: `the landmark or limit of the line ${first.name}`,
        entries: ids,
      });
    }
  }
  return { lines: lines.sort(lineOrder), disagreements };
}

/** What a line is called: its name, else its side and offset as written. */
export function lineName(body: {
  readonly name?: string;
  readonly side: Side;
  readonly offset: Typed;
}): string {
  return body.name ?? LETTER[body.side] + body.offset.text.replaceAll(/\s/g, '');
}
