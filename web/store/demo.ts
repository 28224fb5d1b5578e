import type { Entry } from '../../src/book/entry.ts';
import { entryId } from '../../src/book/id.ts';
import { readCsv } from '../../src/survey/csv/readCsv.ts';
import { entriesFromSurvey } from '../../src/survey/entriesFromSurvey.ts';
import { draftOf, stampAll } from '../../src/survey/kinds/draft.ts';
import text from './demo.csv?raw';
import { DEMO_HULL, DEMO_SURVEY } from './demoHull.ts';
import { demoWeights } from './demoWeights.ts';

const AT = Date.UTC(2026, 2, 14, 9, 0, 0);

/** The entries of the demo: a scenario of our own about a boat that does not exist, as if its survey had been typed. */
export function demoEntries(): readonly Entry[] {
  const read = readCsv(text);
  if (!read.ok) throw new Error('the demo cannot be read');
  const { hull: name = 'Invented hull', ...measured } = read.survey;
  const survey = {
    ...measured,
    date: '2026-03-14',
    support: [
      {
        what: 'Keel blocks and six stands, chained',
        at: '2026-03-14',
        engine: 'hung',
        checkedBy: 'Invented yard hand',
      } as const,
    ],
  };
  const drafts = [
    draftOf('hull', {
      name,
      invented: true,
      year: 1988,
      length: { mm: 24 * 304.8, text: '24 ft' },
      beamAtChine: { mm: 90 * 25.4, text: '90 in' },
      deadrise: { degrees: 20, text: '20' },
      propulsion:
        'Two outboards on a bracket, heavier than the ones it was built for. Porpoises at speed since.',
      notes: 'An invented boat, to try things on. Remove it whenever you like.',
    }),
    draftOf('feature', {
      feature: 'strake',
      side: 'both',
      offsetFrom: { mm: 11 * 25.4, text: '11 in' },
      offsetTo: { mm: 13 * 25.4, text: '13 in' },
      stationFrom: { mm: 0, text: '0 in' },
      stationTo: { mm: 72 * 25.4, text: '72 in' },
    }),
    draftOf('straightedge', {
      name: 'Yard bar, 60 in',
      length: { mm: 1524, text: '60 in' },
      type: 'bar',
      endsMarked: true,
    }),
    draftOf('gauge', {
      name: 'Steel rule, 1/32 in',
      division: { mm: 25.4 / 32, text: '1/32 in' },
      reads: 'nearest mark',
      unit: 'in',
      denominator: 32,
    }),
    ...entriesFromSurvey(survey, { as: 'single' }),
    ...demoWeights(),
  ];
  const ids = drafts.map(({ scope }, place) =>
    entryId({
      hull: DEMO_HULL,
      survey: scope === 'hull' ? '0' : DEMO_SURVEY,
      time: AT + place * 1000,
      random: new Uint8Array(10),
    }),
  );
  return stampAll(drafts, {
    ids,
    at: new Date(AT).toISOString(),
    by: 'Invented yard hand',
    device: 'Demo',
    app: 'demo',
  });
}
