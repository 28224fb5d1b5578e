import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bookOf } from '../src/book/book.ts';
import type { Entry } from '../src/book/entry.ts';
import { writeEntryFile } from '../src/book/writeEntryFile.ts';
import { madeHull, USUAL_PLAN } from '../tools/madeYard.ts';
import { csvCase } from './csvCase.ts';
import { damaged, TABLE_DAMAGE, TEXT_DAMAGE } from './damage.ts';
import { diceOf } from './dice.ts';
import { entryCase, forged } from './entryCase.ts';

/** One damaged file: what was done to which, and a way to try it. */
export interface Case {
  readonly made: string;
  readonly text: string;
  /** What became of it; throws where something was lost or broke. */
  readonly attempt: () => Readonly<Record<string, number>>;
}

const fixtures = fileURLToPath(new URL('../fixtures/', import.meta.url));

interface Good {
  readonly name: string;
  readonly text: string;
}

function goodTables(): readonly Good[] {
  return ['samples/', 'samples/stories/'].flatMap((folder) =>
    readdirSync(fixtures + folder)
      .filter((name) => name.endsWith('.csv'))
      .map((name) => ({ name, text: readFileSync(fixtures + folder + name, 'utf8') })),
  );
}

/** The file of version 1, and one of each fixture of kinds and of two made hulls, with a file kept beside an entry. */
function goodFiles(): readonly Good[] {
  const kinds = readdirSync(`${fixtures}book/`).filter((name) => name.startsWith('kinds-'));
  const files = kinds.map((name) => {
    const { entries } = JSON.parse(readFileSync(`${fixtures}book/${name}`, 'utf8')) as {
      readonly entries: readonly Entry[];
    };
    const kept = {
      entry: entries[0]._id,
      name: 'kept.csv',
      type: 'text/csv',
      base64: 'c3RhdGlvbixnYXAK',
    };
    return { name, text: writeEntryFile(bookOf(entries), [kept]) };
  });
  const plan = { ...USUAL_PLAN, surveys: 2 };
  const made = [0, 1].map((nth) => ({
    name: `made hull ${nth}`,
    text: writeEntryFile(bookOf(madeHull(plan, nth))),
  }));
  const version1 = readFileSync(`${fixtures}book/version-1.txt`, 'utf8');
  return [{ name: 'version-1.txt', text: version1 }, ...files, ...made];
}

/** The `nth` damaged CSV file of a seed, and the `nth` damaged entry file. */
export function casesOf(seed: number): {
  readonly csv: (nth: number) => Case;
  readonly entries: (nth: number) => Case;
} {
  const tables = goodTables();
  const files = goodFiles();
  return {
    csv: (nth) => {
      const dice = diceOf(seed, nth);
      const good = dice.of(tables);
      const { text, done } = damaged(good.text, TABLE_DAMAGE, dice);
      return {
        made: `${good.name}: ${done.join(', ')}`,
        text,
        attempt: () => ({ ...csvCase(text) }),
      };
    },
    entries: (nth) => {
      const dice = diceOf(seed + 1, nth);
      const good = dice.of(files);
      const forge = dice.once(2);
      const from = forge ? forged(good.text, dice) : good.text;
      const { text, done } =
        forge && dice.once(2) ? { text: from, done: [] } : damaged(from, TEXT_DAMAGE, dice);
      const what = [...(forge ? ['entries forged'] : []), ...done].join(', ');
      return { made: `${good.name}: ${what}`, text, attempt: () => ({ ...entryCase(text) }) };
    },
  };
}
