import type { Entry } from '../../src/book/entry.ts';
import { bodyOnce } from '../../src/survey/fold/bodyOnce.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import { surveyKeyOf } from '../../src/survey/fold/hullOf.ts';
import type { Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

/** One of the readings of a station that two people took for the same look. */
export interface Twin {
  readonly id: string;
  /** As typed, with its unit where it was typed. */
  readonly text: string;
  readonly by: string;
  readonly device: string;
}

/** A station of a laying that has several readings of one look, none of which strikes another: as when two people type
 *  into one survey on two devices. All stand until somebody says which counts, or that they are looks. */
export interface ReadTwice {
  readonly placement: string;
  /** Id of the line, where the placement lies across lines. */
  readonly line?: string;
  /** As typed. */
  readonly station: string;
  readonly look: number;
  /** In the order of their ids. */
  readonly twins: readonly Twin[];
}

/** The stations of a survey that were read twice, as typed entries; rows of imports are told in the field book. */
export function readTwice(standing: readonly Entry[], survey: string): readonly ReadTwice[] {
  const places = new Map<string, { entry: Entry; body: BodyOf<'reading'> }[]>();
  for (const entry of standing) {
    const body = readingOf(entry);
    if (body === undefined || surveyKeyOf(entry._id) !== survey) continue;
    // As the fold has it: less than a micrometre apart is one station.
    const key = `${body.placement} ${body.line ?? ''} ${Math.round(body.station.mm * 1000)} ${body.look}`;
    const list = places.get(key);
    if (list === undefined) places.set(key, [{ entry, body }]);
    else list.push({ entry, body });
  }
  return [...places.values()]
    .filter(({ length }) => length > 1)
    .map((list) => {
      const inOrder = list.toSorted((a, b) => (a.entry._id < b.entry._id ? -1 : 1));
      const [{ body }] = inOrder;
      return {
        placement: body.placement,
        ...(body.line !== undefined && { line: body.line }),
        station: body.station.text,
        look: body.look,
        twins: inOrder.map(({ entry: { _id: id, by, device }, body: { gap } }) => ({
          id,
          text: gap.text,
          by,
          device,
        })),
      };
    });
}

/** States all but the first anew, each as a look of its own. */
export function asLooks(
  standing: readonly Entry[],
  { placement, line, twins }: ReadTwice,
): readonly Draft[] {
  const bodies = new Map(standing.map((entry) => [entry._id, readingOf(entry)]));
  const station = bodies.get(twins[0].id)?.station.mm;
  const looks = [...bodies.values()].flatMap((body) =>
    body?.placement === placement &&
    body.line === line &&
    Math.abs(body.station.mm - (station ?? NaN)) < 1e-3
      ? [body.look]
      : [],
  );
  const last = Math.max(...looks);
  return twins.slice(1).flatMap(({ id }, nth) => {
    const body = bodies.get(id);
    if (body === undefined) return [];
    const look = last + 1 + nth;
    return [correctionOf(standing, [id], 'reading', { ...body, look }, 'a look of its own')];
  });
}

function readingOf(entry: Entry): BodyOf<'reading'> | undefined {
  if (entry.kind !== 'reading') return undefined;
  const read = bodyOnce(entry);
  return read?.ok === true ? (read.body as BodyOf<'reading'>) : undefined;
}
