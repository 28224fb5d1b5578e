import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { draftOf, type Draft } from '../../../src/survey/kinds/draft.ts';
import { storeInBrowser } from '../../../web/store/inBrowser.ts';
import type { SharingSettings } from '../../../web/store/sharing/settings.ts';
import type { SharingStatus } from '../../../web/store/sharing/status.ts';
import { foldText } from '../../foldText.ts';
import { seededBelow } from '../../seeded.ts';

export interface Place {
  readonly hull: string;
  readonly survey: string;
  readonly placement: string;
}

export interface Task extends Place {
  readonly count: number;
  readonly seed: number;
  /** Between two operations, ms. */
  readonly pause: number;
}

const { yard, sharing } = storeInBrowser('0.1.0');
/** Everything that was stated here, as the database has it. */
const stated: Entry[] = [];

/** A tablet with the app's own store and sharing, and no screens: a script does what a hand would. */
const tablet = {
  ready: yard.ready,
  stated,
  share: (settings: SharingSettings): Promise<boolean> => sharing.share(settings),
  status: (): SharingStatus | undefined => sharing.current?.status,
  hulls: (): readonly string[] => yard.hulls.map(({ hull }) => hull),
  count: async (hull: string): Promise<number> => (await opened(hull)).entries.length,
  photos: async (hull: string): Promise<number> =>
    (await opened(hull)).entries.filter(({ kind }) => kind === 'photo').length,
  has: async (hull: string, id: string): Promise<boolean> =>
    (await opened(hull)).entries.some(({ _id }) => _id === id),
  fold: async ({ hull, survey }: Place): Promise<string> =>
    foldText(bookOf((await opened(hull)).entries), survey),
  begin,
  read,
  work,
  takePhotos,
};

async function opened(hull: string): Promise<ReturnType<typeof yard.open>> {
  const store = yard.open(hull);
  await store.ready;
  return store;
}

/** A hull, a line and a survey with one placement: what readings need. */
async function begin(name: string): Promise<Place> {
  const hull = await yard.newHull({ name });
  const store = await opened(hull);
  const survey = store.newSurveyKey();
  stated.push(...store.entries);
  const line = draftOf('line', {
    side: 'port',
    offset: { mm: 450, text: '450 mm' },
    name: 'P450',
  });
  const [{ _id }] = await state(hull, survey, [line]);
  const begun = draftOf('survey', { workUnit: 'mm', measured: 'hand', date: '2026-05-04' });
  await state(hull, survey, [begun]);
  const laid = draftOf('placement', { line: _id, name: '1', repeat: 1, held: 'resting' });
  const [placement] = await state(hull, survey, [laid]);
  return { hull, survey, placement: placement._id };
}

async function state(
  hull: string,
  survey: string,
  drafts: readonly Draft[],
): Promise<readonly Entry[]> {
  const entries = await (await opened(hull)).add(drafts, { survey });
  stated.push(...entries);
  return entries;
}

function reading(placement: string, station: number, gap: number): Draft {
  return draftOf('reading', {
    placement,
    station: { mm: station, text: `${station} mm` },
    gap: { mm: gap, text: `${gap}` },
    unit: 'mm',
    look: 1,
  });
}

/** Reads so many stations as one act; the ids. */
async function read({ hull, survey, placement }: Place, count: number): Promise<readonly string[]> {
  const drafts = Array.from({ length: count }, (_, n) => reading(placement, 10 * n, 1));
  return (await state(hull, survey, drafts)).map(({ _id }) => _id);
}

/** Three of four operations read a station, several hands often the same; the others strike, put right or take back what
 *  anybody has said. */
async function work({ hull, survey, placement, count, seed, pause }: Task): Promise<void> {
  const store = await opened(hull);
  const below = seededBelow(seed);
  const draft = (): Draft => reading(placement, 75 * below(21), below(40) / 10);
  for (let n = 0; n < count; n += 1) {
    const readings = store.standing.standing.filter(({ kind }) => kind === 'reading');
    const act = readings.length === 0 ? 9 : below(12);
    if (act > 2) {
      await state(hull, survey, [draft()]);
    } else {
      const { _id } = readings[below(readings.length)];
      if (act === 0) stated.push(await store.strike(_id, 'a slip of the pen'));
      else if (act === 1) stated.push(await store.fix(_id, draft()));
      else {
        const undone = await store.undo();
        if (undone !== undefined) stated.push(undone);
      }
    }
    await new Promise((resolve) => setTimeout(resolve, pause));
  }
}

/** Adds photos of so many bytes; noise, which nothing packs, in the place of pictures. */
async function takePhotos({ hull, survey }: Place, count: number, bytes: number): Promise<void> {
  const store = await opened(hull);
  for (let n = 0; n < count; n += 1) {
    const noise = new Uint8Array(bytes);
    for (let from = 0; from < bytes; from += 65_536) {
      crypto.getRandomValues(noise.subarray(from, Math.min(bytes, from + 65_536)));
    }
    const kept = {
      name: 'photo.jpg',
      type: 'image/jpeg',
      bytes,
      sha256: '0'.repeat(64),
      width: 1600,
      height: 1200,
    } as const;
    const draft = draftOf('photo', { kept }, { ref: 'photo', scope: 'survey' });
    const file = { name: kept.name, type: kept.type, data: new Blob([noise], { type: kept.type }) };
    stated.push(...(await store.add([draft], { survey, files: new Map([['photo', file]]) })));
  }
}

export type TabletPage = typeof tablet;

declare global {
  interface Window {
    tablet: TabletPage;
  }
}

window.tablet = tablet;
