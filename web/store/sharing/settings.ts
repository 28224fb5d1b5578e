import * as v from 'valibot';

import { isKey } from '../../../src/book/id.ts';
import { SHARING_STORED_AT } from './door.svelte.ts';

/** What of a yard this device carries. */
export type Carry =
  | { readonly what: 'all' }
  /** These hulls and, with `season`, every hull of which anything was entered this year. */
  | { readonly what: 'chosen'; readonly hulls: readonly string[]; readonly season: boolean };

/** A hull that was removed from this device while it shared: it stays away, though the others have it. */
export interface Without {
  readonly hull: string;
  readonly name: string;
}

/** With which server this device shares its record, and as whom. Kept on the device only: nothing here is ever an
 *  entry, nor in an export, nor in a message. */
export interface SharingSettings {
  readonly server: string;
  readonly database: string;
  readonly user: string;
  readonly password: string;
  readonly carry: Carry;
  readonly without?: readonly Without[];
}

const text = v.pipe(v.string(), v.maxLength(500));
const schema = v.object({
  server: text,
  database: text,
  user: text,
  password: text,
  carry: v.variant('what', [
    v.object({ what: v.literal('all') }),
    v.object({
      what: v.literal('chosen'),
      hulls: v.array(v.pipe(v.string(), v.check(isKey))),
      season: v.boolean(),
    }),
  ]),
  without: v.exactOptional(
    v.array(v.object({ hull: v.pipe(v.string(), v.check(isKey)), name: text })),
  ),
});

type Place = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** The settings that stand; absent where nothing is shared, or what is kept cannot be read. */
export function readSharing(place: Place | undefined): SharingSettings | undefined {
  try {
    const stored = place?.getItem(SHARING_STORED_AT);
    if (stored === null || stored === undefined) return undefined;
    const read = v.safeParse(schema, JSON.parse(stored));
    return read.success ? read.output : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps settings, or with none forgets them; whether the browser did. */
export function keepSharing(
  place: Place | undefined,
  settings: SharingSettings | undefined,
): boolean {
  try {
    if (settings === undefined) place?.removeItem(SHARING_STORED_AT);
    else place?.setItem(SHARING_STORED_AT, JSON.stringify(settings));
    return place !== undefined;
  } catch {
    return false;
  }
}

/** Whether this device takes a hull that is not on it, of which something was entered at a time (ms). `year`: this
 *  season's. */
export function carries(
  { carry, without = [] }: Pick<SharingSettings, 'carry' | 'without'>,
  hull: string,
  time: number,
  year: number,
): boolean {
  if (without.some((each) => each.hull === hull)) return false;
  if (carry.what === 'all' || carry.hulls.includes(hull)) return true;
  return carry.season && new Date(time).getUTCFullYear() === year;
}

/** These settings once a hull was removed from this device. */
export function withoutHull(settings: SharingSettings, removed: Without): SharingSettings {
  const others = (settings.without ?? []).filter(({ hull }) => hull !== removed.hull);
  return { ...settings, without: [...others, removed] };
}

/** These settings once a hull that was removed is to be carried again. */
export function carriedAgain(settings: SharingSettings, hull: string): SharingSettings {
  const { without = [], carry, ...others } = settings;
  return {
    ...others,
    without: without.filter((each) => each.hull !== hull),
    carry:
      carry.what === 'all'
        ? carry
        : { ...carry, hulls: [...carry.hulls.filter((each) => each !== hull), hull] },
  };
}
