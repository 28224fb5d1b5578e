import { canonical } from '../book/canonical.ts';
import { exactLength } from './exactText.ts';
import { edgeFacts } from './fold/edgesUsed.ts';
import type { HullState } from './fold/hullOf.ts';
import { importDrafts, type Acts, type FileFacts } from './importDrafts.ts';
import { CONDITION } from './kinds/condition.ts';
import { uncheckedDraft, type Draft } from './kinds/draft.ts';
import { readBody } from './kinds/readBody.ts';
import { edgeKnown } from './edge/edgeKnown.ts';
import type { Edge, EdgeCheck, Line, Placement, Survey, Typed } from './survey.ts';

export interface FromSurveyOptions extends FileFacts {
  /** `rows`: readings as rows of imports; `single`: each an entry of its own, as if it had been typed. */
  readonly as?: 'rows' | 'single';
  /** What the hull already has: a line of the same side, offset and name, a straightedge or a gauge that says the
   *  same, is used again rather than stated twice. */
  readonly hull?: Pick<HullState, 'lines' | 'straightedges' | 'gauges'>;
}

/** The drafts of entries that say what a survey says: stamped and folded they give the survey back, apart from the
 *  ids, and in the order of `inOrder`. A tolerance that is only the house default is nobody's statement and is not
 *  written. More readings than one import holds make several imports.
 *  Throws RangeError on a survey that no entries may state; `whyNoEntries` says so beforehand. */
export function entriesFromSurvey(
  survey: Survey,
  options: FromSurveyOptions = {},
): readonly Draft[] {
  const drafts = draftsOf(survey, options);
  const reason = firstRefusal(drafts);
  if (reason !== undefined) throw new RangeError(reason);
  return drafts;
}

/** Why no entries may state a survey, in words for a person: a hull in slings, for one. Undefined where they may. */
export function whyNoEntries(survey: Survey): string | undefined {
  const logged = survey.lines.some((line) => line.placements.some(({ log }) => log !== undefined));
  const kept = { name: 'log', sha256: '0'.repeat(64), given: {} };
  return firstRefusal(draftsOf(survey, logged ? { kept } : {}));
}

function firstRefusal(drafts: readonly Draft[]): string | undefined {
  for (const { kind, body } of drafts) {
    const read = readBody(kind, body);
    if (!read.ok) return `${kind}: ${read.reason}`;
  }
  return undefined;
}

function draftsOf(survey: Survey, options: FromSurveyOptions): readonly Draft[] {
  const drafts: Draft[] = [
    uncheckedDraft('survey', {
      ...(survey.date !== undefined && { date: survey.date }),
      ...(survey.hull !== undefined && { hull: survey.hull }),
      workUnit: survey.workUnit,
      measured: survey.kind,
    }),
    ...conditionDrafts(survey),
    ...survey.support.map((event, place) =>
      uncheckedDraft('support', { ...event, nth: place + 1 }, { ref: `support:${place}` }),
    ),
  ];
  const refs = new Map<string, string>();
  const once: Once = (key, known, make) => {
    const former = refs.get(key) ?? known;
    if (former !== undefined) return former;
    const ref = `thing:${refs.size}`;
    refs.set(key, ref);
    drafts.push(...make(ref));
    return ref;
  };
  const acts: Acts[] = [];
  const lines = new Map<string, string>();
  survey.lines.forEach((line, place) => {
    const lineRef = lineOf(line, `line:${place}`, options, drafts);
    lines.set(line.id, lineRef);
    line.placements.forEach((placement, at) => {
      const ref = `placement:${place}:${at}`;
      const instruments = {
        ...edgeOf(placement, survey, options, once),
        ...gaugeOf(placement, options, once),
      };
      drafts.push(placementDraft(placement, lineRef, instruments, ref));
      acts.push({ placement: ref, of: placement });
    });
  });
  (survey.across ?? []).forEach((laying, place) => {
    const ref = `across:${place}`;
    const { side, direction } = laying;
    const own = {
      side,
      direction,
      ...layingBody(laying),
      ...edgeOf(laying, survey, options, once),
    };
    const body = { ...own, ...gaugeOf(laying, options, once) };
    drafts.push(uncheckedDraft('placement across', body, { ref }));
    acts.push({ placement: ref, of: laying, lines });
  });
  drafts.push(
    ...(options.as === 'single' ? acts.flatMap(singleDrafts) : importDrafts(acts, options)),
  );
  return drafts;
}

type Once = (
  key: string,
  known: string | undefined,
  make: (ref: string) => readonly Draft[],
) => string;

function conditionDrafts(survey: Survey): readonly Draft[] {
  const { tolerance, limit, repeatability, transomRadius } = survey;
  const figures: Record<string, Record<string, unknown>> = {
    ...(tolerance !== undefined &&
      !tolerance.houseDefault && {
        [CONDITION.tolerance]: {
          gap: length(tolerance.gap),
          over: length(tolerance.over),
          ...(tolerance.setBy !== undefined && { setBy: tolerance.setBy }),
        },
      }),
    ...(limit !== undefined && { [CONDITION.limit]: { length: length(limit) } }),
    ...(repeatability !== undefined && {
      [CONDITION.repeatability]: { length: length(repeatability) },
    }),
    ...(transomRadius !== undefined && {
      [CONDITION.transomRadius]: { length: length(transomRadius) },
    }),
  };
  const abouts = new Set([...Object.keys(survey.conditions), ...Object.keys(figures)]);
  return [...abouts].map((about) => {
    const said = survey.conditions[about];
    return uncheckedDraft('condition', {
      about,
      ...(said !== undefined && { said }),
      ...figures[about],
    });
  });
}

function lineOf(line: Line, ref: string, { hull }: FromSurveyOptions, drafts: Draft[]): string {
  const known = hull?.lines.find(
    ({ side, offset, name }) =>
      side === line.side && offset.mm === line.offset && name === line.name,
  );
  if (known !== undefined) return known.id;
  drafts.push(
    uncheckedDraft(
      'line',
      {
        side: line.side,
        offset: length(line.offset),
        name: line.name,
        ...(line.landmark !== undefined && { landmark: line.landmark }),
        ...(line.limit !== undefined && { limit: length(line.limit) }),
      },
      { ref },
    ),
  );
  return ref;
}

/** A straightedge with a name is a thing of the hull; without one, its length is the placement's. What is known of it
 *  goes with it, its checks as entries of their own. */
function edgeOf(
  placement: Omit<Placement, 'readings' | 'voids' | 'later'>,
  survey: Survey,
  { hull }: FromSurveyOptions,
  once: Once,
): object {
  const { edge: name, edgeLength } = placement;
  const stated = edgeLength === undefined ? undefined : length(edgeLength);
  if (name === undefined) return stated === undefined ? {} : { edgeLength: stated };
  const facts = beyondName(edgeKnown(survey.edges, placement));
  const known = hull?.straightedges.find(
    (edge) =>
      edge.name === name &&
      edge.length?.mm === edgeLength &&
      (Object.keys(facts).length === 0 || canonical(facts) === canonical(edgeFacts(edge))),
  );
  const edge = once(JSON.stringify(['edge', name, edgeLength]), known?.id, (ref) => [
    uncheckedDraft(
      'straightedge',
      { name, ...(stated !== undefined && { length: stated }), ...factsOf(facts) },
      { ref },
    ),
    ...(facts.checks ?? []).map((check) => checkDraft(check, ref)),
  ]);
  return { edge };
}

function beyondName({ kind, bound, checks, sag }: Edge): Omit<Edge, 'name' | 'length'> {
  return {
    ...(kind !== undefined && { kind }),
    ...(bound !== undefined && { bound }),
    ...(checks !== undefined && { checks }),
    ...(sag !== undefined && { sag }),
  };
}

function factsOf({ kind, bound, sag }: Omit<Edge, 'name'>) {
  return {
    ...(kind !== undefined && { type: kind }),
    ...(bound !== undefined && {
      bound: { size: length(bound.size), over: length(bound.over) },
    }),
    ...(sag !== undefined && { sag }),
  };
}

function checkDraft(check: EdgeCheck, edge: string): Draft {
  const { date, face, readTo } = check;
  const points =
    check.method === 'reversal'
      ? check.points.map(({ at, apart }) => ({ at: length(at), apart: length(apart) }))
      : check.points.map(({ at, withSecond, secondWithThird, withThird }) => ({
          at: length(at),
          withSecond: length(withSecond),
          secondWithThird: length(secondWithThird),
          withThird: length(withThird),
        }));
  return uncheckedDraft('edge check', {
    edge,
    method: check.method,
    ...(date !== undefined && { date }),
    ...(face !== undefined && { face }),
    readTo: length(readTo),
    points,
  });
}

/** A gauge with a name is a thing of the hull; without one, what is known of it is the placement's. */
function gaugeOf(
  placement: Omit<Placement, 'readings' | 'voids' | 'later'>,
  { hull }: FromSurveyOptions,
  once: Once,
): object {
  const { gauge: name, division, reads } = placement;
  const stated = {
    ...(division !== undefined && { division: length(division) }),
    ...(reads !== undefined && { reads }),
  };
  if (name === undefined) return stated;
  const known = hull?.gauges.find(
    (gauge) => gauge.name === name && gauge.division?.mm === division && gauge.reads === reads,
  );
  const gauge = once(JSON.stringify(['gauge', name, division, reads]), known?.id, (ref) => [
    uncheckedDraft('gauge', { name, ...stated }, { ref }),
  ]);
  return { gauge };
}

function placementDraft(
  placement: Placement,
  line: string,
  instruments: object,
  ref: string,
): Draft {
  const { aftEnd, aftMark } = placement;
  return uncheckedDraft(
    'placement',
    {
      line,
      ...layingBody(placement),
      ...(aftEnd !== undefined && { aftEnd: length(aftEnd) }),
      ...(aftMark !== undefined && { aftMark }),
      ...instruments,
    },
    { ref },
  );
}

/** What is said of a laying along a line and of one across lines alike. */
function layingBody({
  name,
  repeat,
  held,
  block,
  blockFore,
  blocksAt,
  face,
  supportPeriod,
}: Omit<Placement, 'readings' | 'voids' | 'later'>) {
  return {
    name,
    repeat,
    held,
    ...(block !== undefined && { block: length(block) }),
    ...(blockFore !== undefined && { blockFore: length(blockFore) }),
    ...(blocksAt !== undefined && {
      blocksAt: [length(blocksAt[0]), length(blocksAt[1])] satisfies [Typed, Typed],
    }),
    ...(face !== undefined && { face }),
    ...(supportPeriod !== undefined && { support: `support:${supportPeriod}` }),
  };
}

function singleDrafts({ placement, of, lines }: Acts): readonly Draft[] {
  // The line's id becomes the ref of the entry that states it.
  const lineIn = (said: object): { readonly line?: string } => {
    const line = 'line' in said ? lines?.get(String(said.line)) : undefined;
    return line === undefined ? {} : { line };
  };
  return [
    ...of.readings.map(({ source: _source, division, ...reading }) =>
      uncheckedDraft('reading', {
        placement,
        ...reading,
        ...lineIn(reading),
        ...(division !== undefined && { division: length(division) }),
      }),
    ),
    ...of.voids.map(({ source: _source, ...station }) =>
      uncheckedDraft('void', { placement, ...station, ...lineIn(station) }),
    ),
    ...of.later.map(({ source: _source, ...station }) =>
      uncheckedDraft('later', { placement, ...station, ...lineIn(station) }),
    ),
  ];
}

/** Figures of a survey in memory have lost their text; mm says the same, and inches where only those are round. */
function length(mm: number): Typed {
  const steps = mm * 20;
  const round = Math.abs(steps - Math.round(steps)) < 1e-6;
  return { mm, text: round ? `${mm} mm` : exactLength(mm, 'in') };
}
