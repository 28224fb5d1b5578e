import { assess } from '../../../src/survey/assess.ts';
import type { SurveyAssessment } from '../../../src/survey/assessment.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';
import type { PlanHull } from '../../../web/views/planView.ts';

const files = import.meta.glob<string>('../../../fixtures/samples/**/*.csv', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** Two short lines with everything that a picture may have to show besides; invented. */
const ODDITIES = `# hull: Sanderling (invented)
# edge length: 1500 mm
# held: resting
# read to: 0.5 mm
# limit: 1200 mm
line,side,offset_mm,placement,aft_end_mm,station_mm,gap_mm,look,void,note
S450,starboard,450,1,-60,0,0.5,1,,
S450,starboard,450,1,-60,100,0,1,,
S450,starboard,450,1,-60,200,1.5,1,,
S450,starboard,450,1,-60,300,2.5,1,,
S450,starboard,450,1,-60,300,3,2,,
S450,starboard,450,1,-60,400,,1,through-hull,
S450,starboard,450,1,-60,500,2.5,1,,
S450,starboard,450,1,-60,600,2,1,,
S450,starboard,450,1,-60,700,1,1,,
S450,starboard,450,1,-60,800,,1,strake,
S450,starboard,450,1,-60,900,0.5,1,,
S450,starboard,450,1,-60,1000,0,1,,
S450,starboard,450,1,-60,1200,1,1,,
S450,starboard,450,1,-60,1300,2.5,1,,
S450,starboard,450,1,-60,1400,9,1,,
P300,port,300,1,0,0,0,1,,
P300,port,300,1,0,500,1,1,,
P300,port,300,1,0,900,0.5,1,,
`;

/** A sample's assessment by its file's name; "oddities" for the invented one above. */
export const SAMPLES: Readonly<Record<string, () => SurveyAssessment>> = Object.fromEntries(
  [...Object.entries(files), ['/oddities.csv', ODDITIES] as const].map(([path, text]) => [
    path.replace(/^.*\/|\.csv$/g, ''),
    () => {
      const read = readCsv(text);
      return assess(read.ok ? read.survey : read.partial);
    },
  ]),
);

const typed = (mm: number) => ({ mm, text: `${String(mm)} mm` });

/** What is stated of a sample's hull beside the survey: for one only, so that both are seen. */
export function sampleHull(name: string): PlanHull {
  if (name !== 'inches-wide') return { features: [] };
  return {
    beamAtChine: 2200,
    features: [
      {
        id: 'strake',
        feature: 'strake',
        side: 'both',
        offsetFrom: typed(560),
        offsetTo: typed(610),
        stationFrom: typed(300),
        stationTo: typed(1600),
      },
      {
        id: 'tab',
        feature: 'tab pocket',
        side: 'both',
        offsetFrom: typed(700),
        offsetTo: typed(950),
        stationFrom: typed(0),
        stationTo: typed(40),
      },
      {
        id: 'intake',
        feature: 'through-hull',
        note: 'intake',
        side: 'starboard',
        offsetFrom: typed(260),
        offsetTo: typed(330),
        stationFrom: typed(420),
        stationTo: typed(490),
      },
    ],
  };
}
