import { showLine, type WorkUnit } from '../../src/survey/figures.ts';
import type { HullLine } from '../../src/survey/fold/hullLinesOf.ts';
import type { Photo, StruckPhoto } from '../../src/survey/fold/photosOf.ts';

/** A photo as a page lists it. */
export interface PhotoRow {
  readonly id: string;
  /** What a reader who cannot see it is told. */
  readonly alt: string;
  /** Absent where nobody gave one. */
  readonly caption?: string;
  /** "port, 18 in from the keel, station 12 in". */
  readonly where?: string;
  readonly signed: string;
  readonly corrected?: string;
  readonly size: string;
  readonly source?: string;
  readonly ofHull: boolean;
  readonly width: number;
  readonly height: number;
}

export interface StruckRow extends PhotoRow {
  readonly why: readonly string[];
}

/** A photo as it is printed: what its caption says, with the place it shows. */
export interface PrintedPhoto {
  readonly id: string;
  readonly caption: string;
  /** When it was added, as it is printed. */
  readonly at: string;
  readonly by: string;
  readonly url: string;
  /** Of the picture, px. */
  readonly width: number;
  readonly height: number;
}

/** What a person says of a photo. */
export type PhotoWords = Pick<Photo, 'caption' | 'line' | 'station'>;

/** What a photo can be said to show. */
export type ShownLine = Pick<HullLine, 'ids' | 'side' | 'offset'>;

export function photoRow(photo: Photo, lines: readonly ShownLine[], unit: WorkUnit): PhotoRow {
  const where = whereOf(photo, lines, unit);
  const caption = captionOf(photo);
  const { kept, original, corrected } = photo;
  return {
    id: photo.id,
    alt: [caption ?? 'Photo without a caption', where]
      .filter((part) => part !== undefined)
      .join(', '),
    ...(caption !== undefined && { caption }),
    ...(where !== undefined && { where }),
    signed: `Added ${timeText(photo.at)} by ${whoText(photo.by)}`,
    ...(corrected !== undefined && {
      corrected: `Put right ${timeText(corrected.at)} by ${whoText(corrected.by)}`,
    }),
    size: `${kept.width} × ${kept.height} pixels, ${kilobytes(kept.bytes)}`,
    ...(original !== undefined && {
      source: `scaled down from ${original.width} × ${original.height} pixels, ${kilobytes(original.bytes)}${
        original.name === undefined ? '' : `, “${original.name}”`
      }`,
    }),
    ofHull: photo.ofHull,
    width: kept.width,
    height: kept.height,
  };
}

export function struckRow(
  photo: StruckPhoto,
  lines: readonly ShownLine[],
  unit: WorkUnit,
): StruckRow {
  return {
    ...photoRow(photo, lines, unit),
    why: photo.struck.map(
      ({ at, by, why }) =>
        `Struck ${timeText(at)} by ${whoText(by)}${why === undefined ? ', taken back' : `: ${why}`}`,
    ),
  };
}

/** The photos that can be printed: those whose picture is there. `urls`: their addresses by id. */
export function printedPhotos(
  photos: readonly Photo[],
  urls: ReadonlyMap<string, string>,
  lines: readonly ShownLine[],
  unit: WorkUnit,
): readonly PrintedPhoto[] {
  return photos.flatMap((photo) => {
    const url = urls.get(photo.id);
    if (url === undefined) return [];
    const { alt: caption, width, height } = photoRow(photo, lines, unit);
    const [at, by] = [timeText(photo.at), whoText(photo.by)];
    return [{ id: photo.id, caption, at, by, url, width, height }];
  });
}

function captionOf({ caption }: Photo): string | undefined {
  return caption === undefined || caption.trim() === '' ? undefined : caption.trim();
}

function whereOf(photo: Photo, lines: readonly ShownLine[], unit: WorkUnit): string | undefined {
  const line = lines.find(({ ids }) => photo.line !== undefined && ids.includes(photo.line));
  const parts = [
    ...(line === undefined ? [] : [showLine(line.side, line.offset.mm, unit)]),
    ...(photo.line !== undefined && line === undefined ? ['a line that is not here'] : []),
    ...(photo.station === undefined ? [] : [`station ${photo.station.text}`]),
  ];
  return parts.length === 0 ? undefined : parts.join(', ');
}

/** "2026-05-04, 09:30 UTC": the zone as it was stated, since the reader's is another. */
function timeText(at: string): string {
  const [, day, time, zone] = /^(\S{10})T(\d\d:\d\d)[^Z+-]*(.*)$/.exec(at) ?? [];
  if (day === undefined) return at;
  return `${day}, ${time} ${zone === 'Z' ? 'UTC' : zone}`;
}

/** What a device signs with while nobody has said who is using it. */
function whoText(by: string): string {
  return by === 'not stated' ? 'someone who is not named' : by;
}

function kilobytes(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
