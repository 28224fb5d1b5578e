import { bookOf } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { entryId } from '../../src/book/id.ts';
import { standing } from '../../src/book/standing.ts';
import { writeEntryFile } from '../../src/book/writeEntryFile.ts';
import { entriesFromSurvey } from '../../src/survey/entriesFromSurvey.ts';
import { hullOf } from '../../src/survey/fold/hullOf.ts';
import { draftOf, stampAll, type Draft } from '../../src/survey/kinds/draft.ts';
import type { Survey } from '../../src/survey/survey.ts';

export const HULL = 'seas0nshv111';

/** The entry file of one invented hull with these surveys, each an import of one entry of rows, as if each had been
 *  taken in from its file. */
export function seasonsFile(surveys: readonly Survey[], name: string): string {
  const entries: Entry[] = [];
  let count = 0;
  const stamp = (drafts: readonly Draft[], survey: string) => {
    const at = Date.UTC(2026, 5, 1) + count * 1000;
    const ids = drafts.map(({ scope }) => {
      const random = new Uint8Array(10);
      new DataView(random.buffer).setUint32(6, (count += 1));
      return entryId({ hull: HULL, survey: scope === 'hull' ? '0' : survey, time: at, random });
    });
    const signature = { by: 'A. Tester', device: 'Tablet', app: 'test' };
    entries.push(...stampAll(drafts, { ids, at: new Date(at).toISOString(), ...signature }));
  };
  stamp([draftOf('hull', { name, invented: true })], '0');
  surveys.forEach((survey, i) => {
    const hull = hullOf(standing(bookOf(entries)).standing);
    const key = `svrvey${String(i).padStart(6, '0')}`;
    stamp(entriesFromSurvey({ ...survey, hull: name }, { hull }), key);
  });
  return writeEntryFile(bookOf(entries));
}
