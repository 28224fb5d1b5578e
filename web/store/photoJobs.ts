import type { BodyOf } from '../../src/survey/kinds/kinds.ts';

type PhotoBody = BodyOf<'photo'>;

/** A picture as it will be kept, with what its entry says of it. */
export interface ScaledPicture {
  readonly data: Blob;
  readonly kept: PhotoBody['kept'];
  readonly original: NonNullable<PhotoBody['original']>;
}

export interface Refused {
  readonly found: string;
  readonly expected: string;
}

/** `check`: holds a kept picture against what its entry says of it. */
export type PhotoJob =
  | { readonly do: 'scale'; readonly file: File }
  | { readonly do: 'check'; readonly data: Blob; readonly kept: PhotoBody['kept'] };

export type PhotoAnswer =
  | { readonly is: 'as it was' }
  | { readonly is: 'scaled'; readonly picture: ScaledPicture }
  | ({ readonly is: 'refused' } & Refused)
  | { readonly is: 'failed'; readonly reason: string };
