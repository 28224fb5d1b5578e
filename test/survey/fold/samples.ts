import * as fc from 'fast-check';

import { bookOf } from '../../../src/book/book.ts';
import type { Entry } from '../../../src/book/entry.ts';
import { entryId } from '../../../src/book/id.ts';
import { standing } from '../../../src/book/standing.ts';
import { inOrder } from '../../../src/survey/fold/order.ts';
import { surveyOf, type SurveyState } from '../../../src/survey/fold/surveyOf.ts';
import { stampAll, type Draft } from '../../../src/survey/kinds/draft.ts';
import type {
  Placement,
  PlacementAcross,
  Side,
  Survey,
  Typed,
} from '../../../src/survey/survey.ts';

/** Invented hulls, surveys and entries for tests. */
export const HULL = '0123456789ab';
export const SURVEY = 'cdefghjkmnpq';
export const SIGNATURE = {
  at: '2026-05-04T09:30:00Z',
  by: 'Yard hand',
  device: 'Tablet 1',
  app: '0.1.0',
};

export function mm(length: number, text = String(length)): Typed {
  return { mm: length, text };
}

export function idOf(n: number, scope: 'hull' | 'survey', survey = SURVEY): string {
  const random = new Uint8Array(10);
  new DataView(random.buffer).setUint32(6, n);
  const key = scope === 'hull' ? '0' : survey;
  return entryId({ hull: HULL, survey: key, time: 1_777_777_777_000, random });
}

/** Entries of drafts. `order`: the place of each draft's id among the ids, so that what is stated first need not
 *  have the first id; without it they follow one another from `from`. */
export function entriesOf(
  drafts: readonly Draft[],
  { order, from = 0 }: { order?: readonly number[]; from?: number } = {},
): readonly Entry[] {
  const ids = drafts.map(({ scope }, place) => idOf(from + (order?.[place] ?? place), scope));
  return stampAll(drafts, { ...SIGNATURE, ids });
}

/** What stands of some entries, folded to the survey. */
export function folded(entries: readonly Entry[], key = SURVEY): SurveyState {
  const stands = standing(bookOf(entries));
  return surveyOf(stands.standing, stands.struckRows, key);
}

/** A survey in the order of folds, without the ids that differ with every fold. */
export function bare(survey: Survey): unknown {
  return inOrder(withoutIds(inOrder(survey)));
}

function withoutIds(survey: Survey): Survey {
  return {
    ...survey,
    lines: survey.lines.map((line) => ({
      ...line,
      id: '',
      placements: line.placements.map((placement) => ({
        ...placement,
        id: '',
        readings: placement.readings.map((reading) => ({ ...reading, source: '' })),
        voids: placement.voids.map((station) => ({ ...station, source: '' })),
        later: placement.later.map((station) => ({ ...station, source: '' })),
      })),
    })),
    ...(survey.across !== undefined && {
      across: survey.across.map((laying) => {
        const of = <T extends { readonly line: string }>(said: T): T => ({
          ...said,
          line: lineCalled(survey, said.line),
          source: '',
        });
        const { readings, voids, later } = laying;
        return {
          ...laying,
          id: '',
          readings: readings.map(of),
          voids: voids.map(of),
          later: later.map(of),
        };
      }),
    }),
  };
}

function lineCalled({ lines }: Survey, id: string): string {
  const line = lines.find((each) => each.id === id);
  return line === undefined ? id : `${line.side} ${line.offset} ${line.name}`;
}

const word = fc.constantFrom(
  'taper',
  'leaves',
  'north bench',
  'été 3/4"',
  '=1+1',
  '__proto__',
  '2',
);
const length = fc.integer({ min: 1, max: 96_000 }).map((thousandths) => thousandths / 32);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

/** Leaves out what is undefined: absent is not stated. */
function stated<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, field]) => field !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

/** Readings and the rest at stations that do not meet. */
const anyActs = fc
  .uniqueArray(
    fc.record({
      at: fc.integer({ min: 0, max: 60 }),
      act: fc.constantFrom('reading', 'looks', 'void', 'later'),
      gap: fc.integer({ min: -2, max: 40 }),
      division: maybe(length),
      reads: maybe(fc.constantFrom('nearest mark', 'last leaf')),
      weight: maybe(fc.integer({ min: 1, max: 9 })),
      note: maybe(word),
      extra: maybe(
        fc.dictionary(fc.constantFrom('act', 'gap', 'Seen by', 'file: x'), word, { minKeys: 1 }),
      ).map((extra) => (extra === undefined ? undefined : { ...extra })),
      reason: fc.constantFrom('strake', ''),
    }),
    { selector: ({ at }) => at, maxLength: 8 },
  )
  .map((items): Pick<Placement, 'readings' | 'voids' | 'later'> => {
    const of = (act: string) => items.filter((item) => item.act === act);
    const readings = [...of('reading'), ...of('looks')].flatMap((item) => {
      const { at, gap, division, reads, weight, note, extra } = item;
      const looks = item.act === 'looks' ? [1, 2] : [1];
      return looks.map((look) => ({
        station: mm(at * 25.4, `${String(at)} in`),
        gap: mm(gap / 4 + look, `${String(gap)}/4`),
        look,
        ...stated({ division, reads, weight, note, extra }),
        source: '',
      }));
    });
    const unread = (act: string) =>
      of(act).map(({ at, reason, note, extra }) => ({
        station: mm(at * 25.4, `${String(at)} in`),
        reason,
        ...stated({ note, extra }),
        source: '',
      }));
    return { readings, voids: unread('void'), later: unread('later') };
  });

const anyPlacement = fc
  .record({
    name: fc.constantFrom('1', '2', '10', 'aft'),
    repeat: fc.integer({ min: 1, max: 3 }),
    held: fc.constantFrom('resting', 'blocks'),
    block: maybe(length),
    blockFore: maybe(length),
    blocksAt: maybe(fc.tuple(length, length)),
    aftEnd: maybe(fc.integer({ min: -100, max: 900 })),
    aftMark: maybe(fc.constantFrom('A', 'B')),
    face: maybe(fc.constantFrom('marked', 'other')),
    edge: maybe(word),
    edgeLength: maybe(length),
    gauge: maybe(word),
    division: maybe(length),
    reads: maybe(fc.constantFrom('nearest mark', 'last leaf')),
    supportPeriod: maybe(fc.nat({ max: 1 })),
    acts: anyActs,
  })
  .map(({ acts, name, repeat, held, ...rest }): Placement => {
    return { id: '', name, repeat, held, ...stated(rest), ...acts };
  });

const anyLine = fc
  .record({
    side: fc.constantFrom('port', 'starboard', 'centre'),
    offset: fc.constantFrom(0, 300, 457.2),
    name: fc.constantFrom('P18in', 'outer', 'P300mm'),
    landmark: maybe(word),
    limit: maybe(length),
    placements: fc.uniqueArray(anyPlacement, {
      selector: ({ name, repeat }) => `${name}/${String(repeat)}`,
      minLength: 1,
      maxLength: 3,
    }),
  })
  .map(({ landmark, limit, ...rest }) => ({ id: '', ...rest, ...stated({ landmark, limit }) }));

/** How an edge was laid across, and what was read; the lines are found for it. */
const anyAcross = fc.record({
  side: fc.constantFrom('port', 'starboard'),
  direction: fc.constantFrom('athwart', 'diagonal'),
  laying: anyPlacement,
});

/** The readings of each laying shared out among the lines of its side; none where that side has no line. */
function acrossOn(
  lines: readonly { readonly id: string; readonly side: Side }[],
  layings: readonly (typeof anyAcross extends fc.Arbitrary<infer T> ? T : never)[],
): readonly PlacementAcross[] {
  return layings.flatMap(({ side, direction, laying }) => {
    const own = lines.filter((line) => line.side === side);
    if (own.length === 0) return [];
    const said = withoutEnds(laying);
    const on = <T extends { readonly station: Typed }>(list: readonly T[]) =>
      list.map((item) => ({
        ...item,
        line: own[Math.round(item.station.mm / 25.4) % own.length].id,
      }));
    const { readings, voids, later } = laying;
    return [
      { ...said, side, direction, readings: on(readings), voids: on(voids), later: on(later) },
    ];
  });
}

/** Of an edge that lies across, nobody says where its ends were along the boat. */
function withoutEnds({ aftEnd: _end, aftMark: _mark, ...said }: Placement) {
  return said;
}

/** Surveys that a person could have made. */
export const anySurvey: fc.Arbitrary<Survey> = fc
  .record({
    hull: maybe(word),
    date: maybe(fc.constantFrom('2026-05-04', 'spring')),
    conditions: fc.dictionary(fc.constantFrom('Sun', 'tolerance', 'yard', 'transom radius'), word),
    engines: fc.tuple(
      maybe(fc.constantFrom('hung', 'held', 'off')),
      maybe(fc.constantFrom('hung', 'held', 'off')),
    ),
    since: maybe(fc.constantFrom('2026-05-04T08:00:00Z', 'Monday')),
    tolerance: maybe(fc.record({ gap: length, over: length, setBy: maybe(word) })),
    limit: maybe(length),
    repeatability: maybe(fc.constantFrom(0, 0.15)),
    transomRadius: maybe(fc.constantFrom(0, 10)),
    workUnit: fc.constantFrom('mm', 'in'),
    kind: fc.constantFrom('hand', 'log'),
    lines: fc.uniqueArray(anyLine, {
      selector: ({ side, offset, name }) => JSON.stringify([side, offset, name]),
      maxLength: 3,
    }),
    layings: fc.uniqueArray(anyAcross, {
      selector: ({ side, direction, laying: { name, repeat } }) =>
        `${side} ${direction} ${name} ${String(repeat)}`,
      maxLength: 2,
    }),
  })
  .map(({ engines, since, tolerance, conditions, layings, ...given }): Survey => {
    const lines = given.lines.map((line, nth) => ({ ...line, id: `line ${nth}` }));
    const rest = { ...given, lines };
    const across = acrossOn(lines, layings);
    const support = engines.map((engine, place) => ({
      what: place === 0 ? 'trailer' : 'stands and blocks',
      ...stated({ engine, at: since, checkedBy: place === 0 ? undefined : 'Yard hand' }),
    }));
    const { hull, date, limit, repeatability, transomRadius, ...must } = rest;
    return {
      ...must,
      ...stated({ hull, date, limit, repeatability, transomRadius }),
      conditions: { ...conditions },
      ...(across.length > 0 && { across }),
      support,
      ...(tolerance !== undefined && {
        tolerance: {
          gap: tolerance.gap,
          over: tolerance.over,
          ...stated({ setBy: tolerance.setBy }),
          houseDefault: false,
        },
      }),
    };
  });
