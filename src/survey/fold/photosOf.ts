import type { Entry } from '../../book/entry.ts';
import { NO_SURVEY } from '../../book/id.ts';
import type { Standing } from '../../book/standing.ts';
import type { BodyOf } from '../kinds/kinds.ts';
import { surveyKeyOf } from './hullOf.ts';
import { readStanding, type Stated } from './readStanding.ts';
import type { Disagreement, Unused } from './report.ts';
import { firstStated, thingsOf } from './thingsOf.ts';

type PhotoBody = BodyOf<'photo'>;

interface Signed {
  readonly at: string;
  readonly by: string;
}

/** A picture, and what is said of it now. */
export interface Photo extends Signed, Pick<PhotoBody, 'caption' | 'line' | 'station'> {
  /** Of the entry that brought the picture, and so of its attachment. When and by whom is of that entry too. */
  readonly id: string;
  /** Whether it belongs to the hull rather than to one survey. */
  readonly ofHull: boolean;
  readonly kept: PhotoBody['kept'];
  readonly original?: PhotoBody['original'];
  /** Where what is said of it was put right since. */
  readonly corrected?: Signed;
}

/** A photo that was struck, with who did, and why. */
export interface StruckPhoto extends Photo {
  readonly struck: readonly (Signed & { readonly why?: string })[];
}

export interface PhotoList {
  /** The hull's, then the survey's, each as they were taken in. */
  readonly photos: readonly Photo[];
  readonly struck: readonly StruckPhoto[];
  readonly disagreements: readonly Disagreement[];
  readonly setAside: readonly Unused[];
}

/** The photos of a survey and of its hull. The picture is always that of the entry that first stated the photo: a
 *  correction changes what is said of it. Throws RangeError on an entry whose id has no such form. */
export function photosOf({ standing, struck }: Standing, survey: string): PhotoList {
  const ours = (entry: Entry): boolean =>
    entry.kind === 'photo' && [survey, NO_SURVEY].includes(surveyKeyOf(entry._id));
  const read = readStanding(standing.filter(ours));
  const former = readStanding(struck.map(({ entry }) => entry).filter(ours)).of('photo');
  const stated = read.of('photo');
  const brought = new Map([...stated, ...former].map((statement) => [statement.id, statement]));
  const things = thingsOf(stated, firstStated, ({ body }) => nameOf(body));

  const photos: Photo[] = [];
  const setAside = [...read.setAside];
  for (const { id, shown } of things.list) {
    const first = brought.get(id);
    if (first === undefined) {
      const reason = 'the entry that brought its picture has not arrived, or cannot be read';
      setAside.push({ id: shown.id, kind: 'photo', reason });
    } else photos.push(photoOf(first, shown));
  }

  const known = new Set(things.list.map(({ id }) => id));
  const gone = thingsOf(
    former.filter((statement) => !known.has(firstStated(statement))),
    firstStated,
    ({ body }) => nameOf(body),
  );
  const byId = new Map(standing.map((entry) => [entry._id, entry]));
  const struckBy = new Map(struck.map(({ entry, by }) => [entry._id, by]));
  const struckPhotos = gone.list.flatMap(({ id, shown }): readonly StruckPhoto[] => {
    const first = brought.get(id);
    if (first === undefined) return [];
    const strikes = (struckBy.get(shown.id) ?? []).flatMap((by) => {
      const entry = byId.get(by);
      if (entry === undefined) return [];
      const { at, by: who, why } = entry;
      return [{ at, by: who, ...(why !== undefined && { why }) }];
    });
    return [{ ...photoOf(first, shown), struck: strikes }];
  });
  return { photos, struck: struckPhotos, disagreements: things.disagreements, setAside };
}

function photoOf(first: Stated<'photo'>, shown: Stated<'photo'>): Photo {
  const { caption, line, station } = shown.body;
  const { kept, original } = first.body;
  return {
    id: first.id,
    ofHull: surveyKeyOf(first.id) === NO_SURVEY,
    at: first.at,
    by: first.by,
    ...(caption !== undefined && { caption }),
    ...(line !== undefined && { line }),
    ...(station !== undefined && { station }),
    kept,
    ...(original !== undefined && { original }),
    ...(shown.id !== first.id && { corrected: { at: shown.at, by: shown.by } }),
  };
}

function nameOf({ caption }: PhotoBody): string {
  return caption === undefined || caption === '' ? 'a photo' : `the photo “${caption}”`;
}
