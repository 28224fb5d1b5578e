import { bookOf } from '../src/book/book.ts';
import type { Entry } from '../src/book/entry.ts';
import { entryId, newKey, NO_SURVEY } from '../src/book/id.ts';
import { Sha256 } from '../src/book/sha256.ts';
import { standing } from '../src/book/standing.ts';
import { daysOf, showDay } from '../src/seasons/season.ts';
import { entriesFromSurvey } from '../src/survey/entriesFromSurvey.ts';
import { hullOf } from '../src/survey/fold/hullOf.ts';
import { draftOf, stampAll, type Draft } from '../src/survey/kinds/draft.ts';
import type { Line, Survey } from '../src/survey/survey.ts';
import { normalsOf } from '../study/noise.ts';

/** A yard that does not exist. Names follow a rule and say that they are invented; the same seed gives the same
 *  entries, to the last character. */
export interface YardPlan {
  readonly hulls: number;
  /** Of each hull, about a year apart. */
  readonly surveys: number;
  /** Of each survey, half of them port, half starboard. */
  readonly lines: number;
  /** Of each line. */
  readonly stations: number;
  readonly seed: number;
  /** No survey is later than this day, as 2026-11-01. */
  readonly until: string;
  /** Readings as rows of one import, unless each is to be an entry of its own, as if it had been typed. */
  readonly as?: 'rows' | 'single';
}

export const USUAL_PLAN: YardPlan = {
  hulls: 100,
  surveys: 5,
  lines: 4,
  stations: 12,
  seed: 20261101,
  until: '2026-11-01',
};

/** The longest line, mm: as far as a bottom is judged. */
const LENGTH = 1500;
const FIRST = ['Quiet', 'Amber', 'Long', 'Tidal', 'Grey', 'Early', 'Reed', 'Salt', 'Low', 'Far'];
const SECOND = ['Ebb', 'Plover', 'Shoal', 'Dunlin', 'Inlet', 'Sedge', 'Whimbrel', 'Reach', 'Knot'];

/** What a bottom does from survey to survey: depth of its hollow in mm (a hump where negative), in the first and added
 *  in each later one. */
const STORIES: readonly (readonly [depth: number, more: number])[] = [
  [0.2, 0],
  [0.3, 0.9],
  [2.6, 0],
  [-2.4, 0],
  [0.2, 0.1],
  [1.4, 0],
];

/** The entries of one hull of a yard, `nth` from 0: the hull, its straightedge, and for each survey what was said of it
 *  and its readings, as rows of one import.
 *  Throws RangeError on a plan that no hull can be made to. */
export function madeHull(plan: YardPlan, nth: number): readonly Entry[] {
  check(plan);
  const bytes = (about: string): Uint8Array => bytesOf(`${plan.seed} ${nth} ${about}`);
  const pick = bytes('choices');
  const hull = newKey(bytes('hull').slice(0, 8));
  const entries: Entry[] = [];
  const add = (drafts: readonly Draft[], day: number, survey: string): void => {
    const begin = day * 86_400_000 + 9 * 3_600_000;
    const ids = drafts.map(({ scope }, i) =>
      entryId({
        hull,
        survey: scope === 'hull' ? NO_SURVEY : survey,
        time: begin + i * 1000,
        random: bytes(`entry ${entries.length + i}`).slice(0, 10),
      }),
    );
    const signature = { by: 'Invented yard hand', device: 'Made yard', app: 'made' };
    const at = new Date(begin).toISOString();
    entries.push(...stampAll(drafts, { ...signature, at, ids }));
  };
  const days = surveyDays(plan, pick);
  const number = String(nth + 1).padStart(4, '0');
  add(
    [
      draftOf('hull', {
        name: `${FIRST[nth % FIRST.length]} ${SECOND[Math.floor(nth / FIRST.length) % SECOND.length]} ${number} (invented)`,
        builder: `Invented Builder ${(pick[0] % 12) + 1}`,
        hin: `INVENTED-${number}`,
        year: 1970 + (pick[1] % 45),
        invented: true,
      }),
    ],
    days[0] - 1,
    NO_SURVEY,
  );
  days.forEach((day, season) => {
    const known = hullOf(standing(bookOf(entries)).standing);
    const survey = newKey(bytes(`survey ${season}`).slice(0, 8));
    const drafts = entriesFromSurvey(madeSurvey(plan, nth, season, day, pick), {
      hull: known,
      ...(plan.as !== undefined && { as: plan.as }),
    });
    add(drafts, day, survey);
  });
  return entries;
}

function madeSurvey(
  { lines, stations, seed }: YardPlan,
  nth: number,
  season: number,
  day: number,
  pick: Uint8Array,
): Survey {
  const [depth, more] = STORIES[pick[2] % STORIES.length];
  // On one hull of eight the last survey stands on something else: it is not compared.
  const elsewhere = pick[3] % 8 === 0 && season > 0;
  return {
    date: showDay(day) ?? '',
    conditions: {},
    support: [{ what: elsewhere ? 'Trailer' : 'Keel blocks and six stands, chained' }],
    workUnit: 'mm',
    kind: 'hand',
    lines: Array.from({ length: lines }, (_, l): Line => {
      const noise = normalsOf(seed, nth, season, l);
      const side = l % 2 === 0 ? 'port' : 'starboard';
      const offset = 300 + 200 * Math.floor(l / 2);
      // One line of the hull has a story; the others are as they were built.
      const hollow = l === pick[4] % lines ? depth + more * season : 0.2;
      const name = `${side === 'port' ? 'P' : 'S'}${offset}`;
      return {
        id: name,
        name,
        side,
        offset,
        placements: [
          {
            id: `${name}/1/1`,
            name: '1',
            repeat: 1,
            held: 'resting',
            edge: 'Yard bar',
            edgeLength: LENGTH,
            division: 0.1,
            supportPeriod: 0,
            voids: [],
            later: [],
            readings: Array.from({ length: stations }, (_, i) => {
              const x = Math.round((LENGTH * i) / (stations - 1));
              const shape = hollow * Math.sin((Math.PI * x) / LENGTH) ** 2;
              const gap = Math.max(0, Math.round(10 * (3 + shape + 0.06 * noise())) / 10);
              const mm = (value: number) => ({ mm: value, text: String(value) });
              return { station: mm(x), gap: mm(gap), look: 1, source: `row ${i}` };
            }),
          },
        ],
      };
    }),
  };
}

/** Days of a hull's surveys, the last up to a year and a half before the end. */
function surveyDays({ surveys, until }: YardPlan, pick: Uint8Array): readonly number[] {
  const last = daysOf(until) - 2 * pick[5];
  return Array.from(
    { length: surveys },
    (_, season) => last - 365 * (surveys - 1 - season) + ((pick[6 + (season % 8)] % 41) - 20),
  ).map((day, season) => (season === surveys - 1 ? last : day));
}

function bytesOf(text: string): Uint8Array {
  const hash = new Sha256();
  hash.update(new TextEncoder().encode(text));
  return Uint8Array.from(hash.hex().match(/../g) ?? [], (pair) => parseInt(pair, 16));
}

function check(plan: YardPlan): void {
  for (const [name, least] of [
    ['surveys', 1],
    ['lines', 1],
    ['stations', 2],
  ] as const) {
    if (!Number.isInteger(plan[name]) || plan[name] < least) {
      throw new RangeError(`${name}: got ${plan[name]}, expected a whole number from ${least}`);
    }
  }
}
