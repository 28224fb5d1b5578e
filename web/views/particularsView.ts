import type { Particulars } from '../../src/running/fold/particularsOf.ts';
import type { SurveyTail } from '../../src/running/tailOfSurvey.ts';
import { showAngle, showPlace, type WorkUnit } from '../../src/survey/figures.ts';
import { listed } from '../../src/survey/sentence.ts';

/** What is asked of the hull, in the order of the form. */
export const FIELDS = [
  {
    name: 'beam',
    group: 'bottom',
    kind: 'length',
    label: 'Beam between the chines',
    hint: 'Average over the part that runs wet.',
  },
  {
    name: 'deadrise',
    group: 'bottom',
    kind: 'angle',
    label: 'Deadrise',
    hint: 'Average over the same part; a range where it is not known.',
  },
  {
    name: 'straightKeel',
    group: 'bottom',
    kind: 'length',
    label: 'Straight keel, from the transom to where it rises',
    hint: 'May wait: then nobody asks whether the bow is in the water.',
  },
  {
    name: 'lcgWanted',
    group: 'bottom',
    kind: 'length',
    label: 'LCG to come back to',
    hint: 'Only where no load as designed is listed.',
  },
  { name: 'slowest', group: 'speeds', kind: 'speed', label: 'Slowest looked at', hint: '' },
  { name: 'fastest', group: 'speeds', kind: 'speed', label: 'Fastest looked at', hint: '' },
  {
    name: 'at',
    group: 'speeds',
    kind: 'speed',
    label: 'Where the complaint is',
    hint: 'The cases are compared at this speed.',
  },
  {
    name: 'hubX',
    group: 'drive',
    kind: 'length',
    label: 'Hub forward of the transom',
    hint: 'Aft of it with a minus.',
  },
  {
    name: 'hubHeight',
    group: 'drive',
    kind: 'length',
    label: 'Hub above the keel',
    hint: 'Below it with a minus.',
  },
  {
    name: 'driveTrim',
    group: 'drive',
    kind: 'angle',
    label: 'Drive trimmed against the keel',
    hint: 'Out positive, tucked in with a minus.',
  },
  { name: 'tabChord', group: 'tabs', kind: 'length', label: 'Fore and aft', hint: '' },
  {
    name: 'tabWidth',
    group: 'tabs',
    kind: 'length',
    label: 'Width, both together',
    hint: 'No more than the beam.',
  },
  { name: 'tabAngle', group: 'tabs', kind: 'angle', label: 'Set down', hint: '' },
] as const;
export type FieldName = (typeof FIELDS)[number]['name'];

export interface ParticularRow {
  readonly name: string;
  readonly says: string;
}

/** What is known of the hull, and what is taken where nobody said. */
export function particularRows(known: Particulars, unit: WorkUnit): readonly ParticularRow[] {
  const body = known.stated?.body ?? {};
  const own = (which: 'beam' | 'deadrise') => known.fromHull.includes(which);
  const beam = known.beam && 'value' in known.beam ? showPlace(known.beam.value, unit) : '';
  const rise = known.deadrise && 'value' in known.deadrise ? `${known.deadrise.value}°` : '';
  return [
    {
      name: 'Beam between the chines',
      says: body.beam?.text ?? (own('beam') ? `${beam}, from the hull’s page` : NEEDED),
    },
    {
      name: 'Deadrise',
      says:
        body.deadrise?.text ??
        (own('deadrise') ? `${rise} at the transom, from the hull’s page` : NEEDED),
    },
    { name: 'Straight keel', says: body.straightKeel?.text ?? 'not stated: bow not asked' },
    { name: 'Water', says: `${body.water ?? 'sea'}, 15 °C${body.water ? '' : ' (house default)'}` },
    {
      name: 'Propeller and drive',
      says: known.thrust
        ? `hub ${body.hubX?.text} forward of the transom, ${body.hubHeight?.text} above the keel, trimmed ${body.driveTrim?.text}`
        : `${known.partly.includes('propeller') ? 'stated in part and not taken' : 'not stated'}: thrust through the centre of gravity, parallel to the keel (house default)`,
    },
    {
      name: 'Tabs',
      says: known.tabs
        ? `${body.tabChord?.text} by ${body.tabWidth?.text}, ${body.tabAngle?.text} down`
        : known.partly.includes('tabs')
          ? 'stated in part, or wider than the beam: not taken'
          : 'none set',
    },
  ];
}

const NEEDED = 'needed before running trim can be told';

/** The measured bottom, as it comes in from a survey. */
export function tailWords(
  found: SurveyTail | undefined,
  date: string | undefined,
  unit: WorkUnit,
): string {
  if (date === undefined) {
    return 'No survey with readings: the bottom is taken as fair, and what making it fair would change is not told.';
  }
  if (found === undefined) return `The survey of ${date} is being judged…`;
  const { tail, lines, without } = found;
  if (tail === undefined) {
    return `The survey of ${date} gives no tail angle: no line is read far enough forward. The bottom is taken as fair.`;
  }
  const way =
    Math.abs(tail.angle) < 2 * tail.u
      ? 'neither up nor down, within what is sure'
      : tail.angle > 0
        ? 'turned down (like a hook or fixed tab)'
        : 'turned up (like a rocker)';
  const others = without.length === 0 ? '' : `; not told by ${listed(without)}`;
  return `Tail angle over the last ${showPlace(tail.over, unit)}, mean of ${listed(lines)}: ${showAngle(tail.angle, tail.u).replace(/^-/, '−')}, ${way}. From the survey of ${date}${others}.`;
}
