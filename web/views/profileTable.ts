import { bisector } from 'd3';
import type { Judgement } from '../../src/fit/judge.ts';
import type { LineAssessment, ReadingPoint } from '../../src/survey/assessment.ts';
import { measuredParts, type WorkUnit } from '../../src/survey/figures.ts';
import type { Placement } from '../../src/survey/survey.ts';
import { UNITS, showLength } from '../../src/survey/units.ts';
import { LETTERS, sectionAt } from './sectionMarks.ts';
import { thinnedTo } from './thinned.ts';

/** A height beside the straight line, never finer than it is known: "3/32", "1/64", and which way it lies. */
export interface Height {
  readonly size: string;
  readonly spread: string;
  readonly way: 'proud' | 'hollow' | 'level';
}

export interface ProfileRow {
  readonly key: string;
  /** mm forward of the transom, and in the person's unit. */
  readonly station: number;
  readonly stationText: string;
  readonly state: 'read' | 'void' | 'later';
  /** As typed. */
  readonly gapText?: string;
  /** "look 2", "placement 2", "ahead of the limit, not judged"; the reason of a void. */
  readonly remark: string;
  /** Where the reading puts the surface, and where the fit does; ± is twice the standard uncertainty. */
  readonly read?: Height;
  readonly surface?: Height;
  readonly section?: { readonly letter: string; readonly word: string };
}

export interface ProfileTable {
  readonly unit: WorkUnit;
  readonly rows: readonly ProfileRow[];
}

/** Rows of a log's table: its extremes. */
const LOG_ROWS = 60;

/** The figures that the profile is drawn from, a row a reading, a void or a station put off, from aft forward.
 *  Of a log the lowest and the highest reading of each thirtieth of it.
 *  Heights are against the best straight line through the judged stretch, absent where nothing could be fitted. */
export function profileTable(line: LineAssessment, unit: WorkUnit): ProfileTable {
  const judgement = line.outcome.ok ? line.outcome.judgement : undefined;
  const placements = placementsIn(line);
  const names = new Map(placements.map((p) => [p.id, placementName(p)]));
  const told = line.logged === undefined ? line.points : thinnedTo(line.points, LOG_ROWS / 2);
  const read = told.map((point, i): ProfileRow => {
    const remarks = [
      ...(placements.length > 1 ? [names.get(point.placement) ?? ''] : []),
      ...(point.look > 1 ? [`look ${point.look}`] : []),
      ...(point.judged ? [] : ['ahead of the limit, not judged']),
    ];
    return {
      key: `${point.source}/${i}`,
      station: point.station,
      stationText: stationText(point.station, unit),
      state: 'read',
      gapText: point.gapText,
      remark: remarks.join(', '),
      ...(point.z !== undefined && { read: height(point.z, point.u, unit) }),
      ...judgedAt(judgement, point, unit),
    };
  });
  const unread = placements.flatMap(({ id, voids, later }) =>
    [
      ...voids.map((each) => ({ ...each, state: 'void' as const, said: 'void' })),
      ...later.map((each) => ({ ...each, state: 'later' as const, said: 'come back later' })),
    ].map(({ station, reason, source, state, said }): ProfileRow => ({
      key: `${source}/${id}/${station.mm}`,
      station: station.mm,
      stationText: stationText(station.mm, unit),
      state,
      remark: [
        ...(placements.length > 1 ? [names.get(id) ?? ''] : []),
        reason === '' ? said : `${said}: ${reason}`,
      ].join(', '),
    })),
  );
  return { unit, rows: [...read, ...unread].sort((a, b) => a.station - b.station) };
}

/** The placements that a part of a line was judged from: all of them where it is the only part. */
export function placementsIn({ line, parts, points }: LineAssessment): readonly Placement[] {
  if (parts === 1) return line.placements;
  const used = new Set(points.map((p) => p.placement));
  return line.placements.filter(({ id }) => used.has(id));
}

/** A station as a person reads it off a tape: to a sixteenth of an inch or a tenth of a mm, zeros dropped. */
export function stationText(mm: number, unit: WorkUnit): string {
  if (unit === 'in') return showLength(mm, { unit, denominator: 16 });
  return String(Number(showLength(mm, { unit, decimals: 1 })));
}

/** A height in words: "3/32 in hollow, ± 1/64 in". */
export function heightWords({ size, spread, way }: Height, unit: WorkUnit): string {
  const name = UNITS[unit].names[0];
  return `${size} ${name} ${way === 'level' ? 'off the straight line' : way}, ± ${spread} ${name}`;
}

/** Height of the fitted surface at a station; undefined outside what was judged. */
export function surfaceAt(
  profile: Judgement['profile'],
  station: number,
): { readonly z: number; readonly u: number } | undefined {
  const first = profile[0];
  const last = profile[profile.length - 1];
  if (!first || !last || station < first.x - 1e-6 || station > last.x + 1e-6) return undefined;
  const right = Math.min(Math.max(byX.left(profile, station), 1), profile.length - 1);
  const [a, b] = [profile[right - 1], profile[right]];
  const share = (station - a.x) / (b.x - a.x);
  return { z: a.z + share * (b.z - a.z), u: a.u + share * (b.u - a.u) };
}

const byX = bisector((p: Judgement['profile'][number]) => p.x);

function judgedAt(
  judgement: Judgement | undefined,
  { station, judged }: ReadingPoint,
  unit: WorkUnit,
): Pick<ProfileRow, 'surface' | 'section'> {
  if (judgement === undefined || !judged) return {};
  const surface = surfaceAt(judgement.profile, station);
  const section = sectionAt(judgement.sections, station);
  return {
    ...(surface && { surface: height(surface.z, surface.u, unit) }),
    ...(section && { section: { letter: LETTERS[section.class], word: section.class } }),
  };
}

function height(z: number, u: number, unit: WorkUnit): Height {
  const { size, spread } = measuredParts(Math.abs(z), u, unit);
  const level = /^0(\.0+)?$/.test(size);
  return { size, spread, way: level ? 'level' : z > 0 ? 'proud' : 'hollow' };
}

function placementName({ name, repeat }: Placement): string {
  return `placement ${name}${repeat > 1 ? `, laid again (${repeat})` : ''}`;
}
