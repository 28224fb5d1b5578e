import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Entry } from '../../src/book/entry.ts';
import { madeHull, USUAL_PLAN } from '../../tools/madeYard.ts';

/** A made hull of some surveys, and every kind of entry that there is, of that hull and its last survey. */
export function everyKind(surveys = 2): {
  readonly hull: string;
  readonly survey: string;
  readonly entries: readonly Entry[];
} {
  const made = madeHull({ ...USUAL_PLAN, surveys }, 0);
  const last = made.findLast(({ kind }) => kind === 'survey');
  const [hull, survey] = (last?._id ?? '').split(':');
  const folder = fileURLToPath(new URL('../../fixtures/book/', import.meta.url));
  const kinds = readdirSync(folder)
    .filter((name) => name.startsWith('kinds-'))
    .flatMap((name) => {
      const { entries } = JSON.parse(readFileSync(folder + name, 'utf8')) as {
        readonly entries: readonly Entry[];
      };
      return entries.filter(({ kind }) => !['hull', 'survey', 'import', 'log'].includes(kind));
    })
    .map((entry) => {
      const [, scope, own] = entry._id.split(':');
      return { ...entry, _id: [hull, scope === '0' ? '0' : survey, own].join(':') };
    });
  return { hull, survey, entries: [...made, ...kinds] };
}
