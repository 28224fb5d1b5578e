import { CONDITION } from '../survey/kinds/condition.ts';
import type { Survey } from '../survey/survey.ts';
import type { MatchedLine } from './matchLines.ts';
import { touches, type Repair } from './repair.ts';
import { dayOf, daysOf } from './season.ts';
import type { AlikeWhat, Unlike } from './unlike.ts';

/** Hours or days that differ by no more than this factor are alike; a house default, no source: creep and recovery go
 *  by the logarithm of time. */
const ALIKE_FACTOR = 2;

/** Keys under which a file may write what the screens ask for under CONDITION. */
const HOURS = 'hours since haul';

/** In what two surveys are not alike, or not known to be. `matched`: the lines that are to be compared; `repairs`: all
 *  that is known of the hull; `accept`: what somebody accepts knowingly. */
export function unlikeBetween(
  first: Survey,
  second: Survey,
  {
    matched,
    repairs,
    accept,
  }: {
    readonly matched: readonly MatchedLine[];
    readonly repairs: readonly Repair[];
    readonly accept: readonly AlikeWhat[];
  },
): readonly Unlike[] {
  const stated = (
    what: AlikeWhat,
    of: (survey: Survey) => string | undefined,
    alike: (a: string, b: string) => boolean = sameWords,
  ): readonly Unlike[] => {
    const [one, other] = [of(first), of(second)];
    const known = one !== undefined && other !== undefined;
    if (known && alike(one, other)) return [];
    return [
      {
        what,
        ...(one !== undefined && { first: one }),
        ...(other !== undefined && { second: other }),
        known: known ? 'differs' : 'not stated',
        accepted: accept.includes(what),
      },
    ];
  };
  return [
    ...repairsBetween(first, second, matched, repairs, accept.includes('repair')),
    ...stated('support', supportOf),
    ...stated('engine', engineOf),
    ...stated('surface', ({ conditions }) => conditions[CONDITION.surface]),
    ...edgesOf(matched, accept.includes('edge')),
    ...stated('hours since haul', hoursOf, nearly),
    ...stated('days afloat', ({ conditions }) => conditions[CONDITION.daysAfloat], nearly),
  ];
}

function repairsBetween(
  first: Survey,
  second: Survey,
  matched: readonly MatchedLine[],
  repairs: readonly Repair[],
  accepted: boolean,
): readonly Unlike[] {
  const days = [first, second].map(({ date }) => dayOf(date));
  const [a, b] = days;
  if (a === undefined || b === undefined) return [];
  const [earlier, later] = [a, b].sort();
  return repairs
    .filter(({ date }) => {
      const day = dayOf(date);
      return day !== undefined && day > earlier && day <= later;
    })
    .map((repair): Unlike => {
      const words = `${repair.what}, ${repair.date}`;
      const worked = matched.filter((m) => touches(repair, m.first) || touches(repair, m.second));
      return {
        what: 'repair',
        ...(a < b ? { second: words } : { first: words }),
        known: 'differs',
        ...(repair.lines !== undefined && {
          lines: [...new Set(worked.flatMap((m) => [m.first.name, m.second.name]))],
        }),
        accepted,
      };
    });
}

/** Edges are alike line by line: which was laid, its length, and which end lay aft. */
function edgesOf(matched: readonly MatchedLine[], accepted: boolean): readonly Unlike[] {
  const differing: Unlike[] = [];
  for (const pair of matched) {
    const [one, other] = [edgeWords(pair.first), edgeWords(pair.second)];
    const known = sameEdge(pair);
    if (known === 'same') continue;
    differing.push({
      what: 'edge',
      ...(one !== undefined && { first: one }),
      ...(other !== undefined && { second: other }),
      known: known === 'differs' ? 'differs' : 'not stated',
      lines: [...new Set([pair.first.name, pair.second.name])],
      accepted,
    });
  }
  const groups = new Map<string, Unlike[]>();
  for (const each of differing) {
    const key = JSON.stringify([each.first, each.second, each.known]);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].map((group) => {
    const { lines, ...rest } = group[0];
    if (group.length === matched.length) return rest;
    return {
      ...rest,
      lines: [...new Set([...(lines ?? []), ...group.flatMap((g) => g.lines ?? [])])],
    };
  });
}

/** Whether the readings of a line were taken under one and the same edge, laid the same way about. An edge that nobody
 *  named is not known to be the same, though of another length it is known to be another. */
export function sameEdge({ first, second }: Pick<MatchedLine, 'first' | 'second'>) {
  const laid = [first, second].map(({ placements }) =>
    placements.filter((p) => p.readings.length > 0),
  );
  const [one, other] = laid.map((placements) => ({
    names: new Set(placements.map((p) => plain(p.edge))),
    lengths: new Set(placements.map((p) => p.edgeLength)),
    aft: new Set(placements.map((p) => p.aftMark)),
  }));
  if (bothKnown(one.lengths, other.lengths) && !sameSet(one.lengths, other.lengths)) {
    return 'differs';
  }
  if (!bothKnown(one.names, other.names)) return 'not stated';
  const turned = bothKnown(one.aft, other.aft) && !sameSet(one.aft, other.aft);
  return sameSet(one.names, other.names) && !turned ? 'same' : 'differs';
}

function edgeWords({ placements }: MatchedLine['first']): string | undefined {
  const laid = placements.filter((p) => p.readings.length > 0);
  const words = laid.map(({ edge, edgeLength, aftMark }) =>
    [
      edge ?? (edgeLength === undefined ? '' : 'not named'),
      edgeLength === undefined ? '' : `${Number(edgeLength.toFixed(1))} mm`,
      aftMark === undefined ? '' : `end ${aftMark} aft`,
    ]
      .filter((part) => part !== '')
      .join(', '),
  );
  const said = [...new Set(words)].filter((text) => text !== '').sort();
  return said.length === 0 ? undefined : said.join('; ');
}

function bothKnown(a: ReadonlySet<unknown>, b: ReadonlySet<unknown>): boolean {
  return ![a, b].some((set) => set.size === 0 || set.has(undefined));
}

function sameSet<T>(a: ReadonlySet<T>, b: ReadonlySet<T>): boolean {
  return a.size === b.size && [...a].every((value) => b.has(value));
}

function supportOf({ support }: Survey): string | undefined {
  const said = [...new Set(support.map(({ what }) => what.trim()))];
  return said.length === 0 ? undefined : said.join('; then ');
}

function engineOf({ support }: Survey): string | undefined {
  const said = [...new Set(support.flatMap(({ engine }) => engine ?? []))];
  return said.length === 0 ? undefined : said.join('; then ');
}

function hoursOf({ conditions, date }: Survey): string | undefined {
  const stated = conditions[HOURS];
  if (stated !== undefined) return stated;
  const hauled = dayOf(conditions[CONDITION.hauled]);
  const day = dayOf(date);
  if (hauled === undefined || day === undefined) return undefined;
  const days = daysOf(day) - daysOf(hauled);
  return days < 0 ? undefined : days === 0 ? 'the same day' : `${days} day${days === 1 ? '' : 's'}`;
}

/** Numbers of one unit within the factor; whatever else is written, word for word. */
function nearly(a: string, b: string): boolean {
  const [one, other] = [a, b].map((text) => /^(\d+(?:[.,]\d+)?)\s*(\D*)$/.exec(text.trim()));
  if (!one || !other || plain(one[2])?.replace(/s$/, '') !== plain(other[2])?.replace(/s$/, '')) {
    return sameWords(a, b);
  }
  const [low, high] = [one, other]
    .map((match) => Number(match[1].replace(',', '.')))
    .sort((p, q) => p - q);
  return high <= ALIKE_FACTOR * low || high === low;
}

function sameWords(a: string, b: string): boolean {
  return plain(a) === plain(b);
}

function plain(text: string | undefined): string | undefined {
  return text?.trim().toLowerCase().replaceAll(/\s+/g, ' ');
}
