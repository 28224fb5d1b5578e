import type { Entry } from '../../src/book/entry.ts';
import { correctionOf } from '../../src/survey/fold/correctionOf.ts';
import { surveyKeyOf, type HullState } from '../../src/survey/fold/hullOf.ts';
import { draftOf, uncheckedDraft, type Draft } from '../../src/survey/kinds/draft.ts';
import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { readBody } from '../../src/survey/kinds/readBody.ts';
import { readLength } from '../../src/survey/readingText.ts';
import { startingLines } from '../../src/survey/startingLines.ts';
import { startingStations } from '../../src/survey/startingStations.ts';
import type { Face, Typed } from '../../src/survey/survey.ts';
import { readUnit, toMm } from '../../src/survey/units.ts';

/** What a survey asks before its first reading, as typed. Empty: not answered. */
export interface SetupAnswers {
  /** Asked anew every time, never remembered. */
  readonly stands: '' | 'supports' | 'slings';
  readonly what: string;
  /** Who measures; asked once on a device, where nobody has said. */
  readonly person: string;
  readonly checkedBy: string;
  /** Id of a line, or the name of a proposed one. */
  readonly line: string;
  /** Id of a straightedge; empty for a new one of `edgeLength`. */
  readonly edge: string;
  readonly edgeLength: string;
  readonly held: 'resting' | 'blocks';
  readonly block: string;
  readonly aftEnd: string;
  /** Which of its ends is aft and which face is towards the hull; empty where it is not marked. */
  readonly aftMark: '' | 'A' | 'B';
  readonly face: '' | Face;
  /** Id of a gauge; empty for a new one of `division`. */
  readonly gauge: string;
  readonly division: string;
  readonly reads: 'nearest mark' | 'last leaf';
  readonly firstStation: string;
}

export const DIVISIONS = {
  in: ['1/64 in', '1/32 in', '1/16 in', '0.5 mm', '0.1 mm', '0.05 mm'],
  mm: ['1 mm', '0.5 mm', '0.1 mm', '0.05 mm', '1/64 in', '1/32 in'],
} as const;

/** Answers that are the same from one hull to the next, and so remembered on the device. */
const REMEMBERED = [
  'what',
  'checkedBy',
  'edgeLength',
  'held',
  'block',
  'aftEnd',
  'division',
  'reads',
  'firstStation',
] as const;

export function toRemember(answers: SetupAnswers): Readonly<Record<string, string>> {
  return Object.fromEntries(REMEMBERED.map((name) => [`setup ${name}`, answers[name]]));
}

export interface SetupFrom {
  readonly hull: HullState;
  readonly unit: 'mm' | 'in';
  readonly person: string;
  /** The device's last answers. */
  readonly remembered: Readonly<Record<string, string>>;
  /** Id of the line to begin on; the first of the hull where absent. */
  readonly line?: string | undefined;
}

/** What the questions start from: what the hull has, then what was answered last, then what is usual. */
export function setupDefaults({ hull, unit, person, remembered, line }: SetupFrom): SetupAnswers {
  const last = (name: (typeof REMEMBERED)[number], usual: string) =>
    remembered[`setup ${name}`] ?? usual;
  const [first] = linesToChoose(hull, unit);
  return {
    stands: '',
    what: last('what', ''),
    person: person.trim(),
    checkedBy: person.trim() || last('checkedBy', ''),
    line: line ?? first?.value ?? '',
    edge: hull.straightedges.at(-1)?.id ?? '',
    edgeLength: last('edgeLength', unit === 'in' ? '60 in' : '1500 mm'),
    held: last('held', 'resting') === 'blocks' ? 'blocks' : 'resting',
    block: last('block', ''),
    aftEnd: last('aftEnd', `0 ${unit}`),
    aftMark: '',
    face: '',
    gauge: hull.gauges.at(-1)?.id ?? '',
    division: last('division', unit === 'in' ? '1/32 in' : '0.5 mm'),
    reads: last('reads', 'nearest mark') === 'last leaf' ? 'last leaf' : 'nearest mark',
    firstStation: last('firstStation', `0 ${unit}`),
  };
}

/** Lines to begin on: the hull's; where it has none, a set to start from. */
export function linesToChoose(
  hull: HullState,
  unit: 'mm' | 'in',
): readonly { readonly value: string; readonly name: string }[] {
  if (hull.lines.length > 0) return hull.lines.map(({ id, name }) => ({ value: id, name }));
  return proposedLines(hull, unit).map(({ name }) => ({ value: name, name }));
}

function proposedLines(hull: HullState, unit: 'mm' | 'in') {
  const beam = hull.hull?.beamAtChine?.mm;
  return startingLines(beam !== undefined && beam > 400 ? beam : undefined, unit);
}

export interface SetupIn {
  readonly hull: HullState;
  readonly standing: readonly Entry[];
  readonly survey: string;
  readonly unit: 'mm' | 'in';
  /** How far forward lines are judged, mm. */
  readonly limit: number;
  /** Of the device's clock, as a date. */
  readonly today: string;
  readonly by: string;
}

export type SetupRead =
  | { readonly ok: true; readonly drafts: readonly Draft[] }
  | {
      readonly ok: false;
      readonly problems: Readonly<Partial<Record<keyof SetupAnswers, string>>>;
    };

/** The drafts that the answers make up, as one act: the supports, the lines, edge and gauge where they are new, the
 *  survey's plan, and the first laying. A hull in slings is refused. */
export function setupDrafts(answers: SetupAnswers, setting: SetupIn): SetupRead {
  const { hull, standing, survey, unit } = setting;
  const problems: Partial<Record<keyof SetupAnswers, string>> = {};
  const length = (name: 'edgeLength' | 'block' | 'aftEnd' | 'firstStation'): Typed | undefined => {
    const read = readLength(answers[name], { unit });
    if (!read.ok) {
      problems[name] =
        read.reason === 'absent'
          ? `Expected ${read.expected}.`
          : `Found “${read.found}”, expected ${read.expected}.`;
      return undefined;
    }
    return { mm: read.mm, text: read.stated ? read.text : `${read.text} ${read.unit}` };
  };
  const support = {
    nth: 1,
    what: answers.what.trim(),
    ...(answers.checkedBy.trim() !== '' && { checkedBy: answers.checkedBy.trim() }),
  };
  if (answers.stands === '') problems.stands = 'Say how the hull stands.';
  if (answers.stands === 'slings') {
    const read = readBody('support', { ...support, what: 'slings', slings: true });
    problems.stands = read.ok ? 'refused' : sentence(read.reason);
  } else {
    const read = readBody('support', support);
    if (!read.ok) problems.what = sentence(read.reason);
  }
  if (answers.checkedBy.trim() === '') problems.checkedBy = 'Say who checked the supports.';

  const drafts: Draft[] = [uncheckedDraft('support', support, { ref: 'support' })];
  let line = answers.line;
  if (hull.lines.length === 0) {
    for (const { side, offset, name } of proposedLines(hull, unit)) {
      drafts.push(draftOf('line', { side, offset, name }, { ref: `line:${name}` }));
    }
    line = `line:${answers.line}`;
  } else if (!hull.lines.some(({ id }) => id === line)) problems.line = 'Choose a line.';

  let edge = answers.edge;
  if (edge === '') {
    const long = length('edgeLength');
    if (long !== undefined && !(long.mm > 0)) problems.edgeLength = 'Expected a length above 0.';
    else if (long !== undefined) {
      edge = 'edge';
      drafts.push(
        draftOf('straightedge', { name: `${long.text} straightedge`, length: long }, { ref: edge }),
      );
    }
  }
  let gauge = answers.gauge;
  if (gauge === '') {
    const made = gaugeBody(answers.division, answers.reads);
    if (made === undefined) problems.division = 'Expected a division such as 1/32 in or 0.5 mm.';
    else {
      gauge = 'gauge';
      drafts.push(draftOf('gauge', made, { ref: gauge }));
    }
  }
  const block = answers.held === 'blocks' ? length('block') : undefined;
  if (block !== undefined && !(block.mm > 0)) problems.block = 'Expected a height above 0.';
  const aftEnd = length('aftEnd');
  const first = length('firstStation');
  if (Object.keys(problems).length > 0 || aftEnd === undefined || first === undefined) {
    return { ok: false, problems };
  }

  drafts.push(surveyDraft({ edge, gauge, first }, answers, setting));
  drafts.push(
    draftOf(
      'placement',
      {
        line,
        name: '1',
        repeat: 1,
        held: answers.held,
        edge,
        gauge,
        aftEnd,
        support: 'support',
        ...(block !== undefined && { block }),
        ...(answers.aftMark !== '' && { aftMark: answers.aftMark }),
        ...(answers.face !== '' && { face: answers.face }),
      },
      { ref: 'lay' },
    ),
  );
  return {
    ok: true,
    drafts: replacingSupport(drafts, standing, survey),
  };
}

/** Where supports were stated already, as with conditions that a file brought, what is answered now is what stands. */
function replacingSupport(
  drafts: readonly Draft[],
  standing: readonly Entry[],
  survey: string,
): readonly Draft[] {
  const former = standing
    .filter((entry) => entry.kind === 'support' && surveyKeyOf(entry._id) === survey)
    .map((entry) => ({ entry: entry._id }));
  if (former.length === 0) return drafts;
  return drafts.map((draft) => (draft.kind === 'support' ? { ...draft, strikes: former } : draft));
}

function surveyDraft(
  { edge, gauge, first }: { edge: string; gauge: string; first: Typed },
  answers: SetupAnswers,
  { standing, survey, unit, limit, today, by }: SetupIn,
): Draft {
  const former = standing.filter(
    (entry) => entry.kind === 'survey' && surveyKeyOf(entry._id) === survey,
  );
  const read = former.length === 0 ? undefined : readBody('survey', former[former.length - 1].body);
  const known: Partial<BodyOf<'survey'>> = read?.ok === true ? read.body : {};
  const body: BodyOf<'survey'> = {
    date: today,
    ...(by.trim() !== '' && { by: by.trim() }),
    workUnit: unit,
    measured: 'hand',
    ...known,
    stations: known.stations ?? [...plannedStations(first, limit, unit)],
    edge,
    gauge,
    held: answers.held,
  };
  return former.length === 0
    ? draftOf('survey', body)
    : correctionOf(
        standing,
        former.map(({ _id }) => _id),
        'survey',
        body,
      );
}

/** The usual stations, from the first that can be read. */
export function plannedStations(first: Typed, limit: number, unit: 'mm' | 'in'): readonly Typed[] {
  return [first, ...startingStations(limit, unit).filter(({ mm }) => mm > first.mm + 1e-6)];
}

/** A gauge of a division as written, "1/32 in" or "0.5 mm"; undefined where that is none. */
export function gaugeBody(
  division: string,
  reads: 'nearest mark' | 'last leaf',
): BodyOf<'gauge'> | undefined {
  const name = `${reads === 'last leaf' ? 'leaves' : 'scale'}, ${division}`;
  const counted = readUnit(division);
  if (counted?.denominator !== undefined) {
    const { unit, denominator } = counted;
    if (unit !== 'in') return undefined;
    return {
      name,
      division: { mm: toMm(1, unit, denominator), text: division },
      reads,
      unit,
      denominator,
    };
  }
  const read = readLength(division);
  if (!read.ok || !(read.mm > 0) || (read.unit !== 'mm' && read.unit !== 'in')) return undefined;
  return { name, division: { mm: read.mm, text: division }, reads, unit: read.unit };
}

/** "what: expected …" as a sentence for the field itself. */
function sentence(reason: string): string {
  const words = reason.replace(/^\w+: /, '');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
