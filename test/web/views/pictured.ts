import { readFileSync } from 'node:fs';
import { assess } from '../../../src/survey/assess.ts';
import type { LineAssessment, SurveyAssessment } from '../../../src/survey/assessment.ts';
import { readCsv } from '../../../src/survey/csv/readCsv.ts';

/** A sample file's assessment, "inches-wide" or "stories/one-side". */
export function sample(name: string): SurveyAssessment {
  const file = new URL(`../../../fixtures/samples/${name}.csv`, import.meta.url);
  return fromCsv(readFileSync(file, 'utf8'));
}

export function fromCsv(text: string): SurveyAssessment {
  const read = readCsv(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return assess(read.survey);
}

export function lineNamed({ lines }: SurveyAssessment, name: string): LineAssessment {
  const found = lines.find(({ line }) => line.name === name);
  if (!found) throw new Error(`no line ${name}`);
  return found;
}

/** A line with a second look, a void, an overhanging edge and readings ahead of its limit; and one with too few. */
export const ODDITIES = `# edge length: 1500 mm
# held: resting
# read to: 0.5 mm
# limit: 1200 mm
line,side,offset_mm,aft_end_mm,station_mm,gap_mm,look,void
S450,starboard,450,-60,0,0.5,1,
S450,starboard,450,-60,100,0,1,
S450,starboard,450,-60,200,1.5,1,
S450,starboard,450,-60,300,2.5,1,
S450,starboard,450,-60,300,3,2,
S450,starboard,450,-60,400,,1,through-hull
S450,starboard,450,-60,500,2.5,1,
S450,starboard,450,-60,600,2,1,
S450,starboard,450,-60,700,1,1,
S450,starboard,450,-60,900,0.5,1,
S450,starboard,450,-60,1000,0,1,
S450,starboard,450,-60,1200,1,1,
S450,starboard,450,-60,1300,2.5,1,
S450,starboard,450,-60,1400,9,1,
P300,port,300,0,0,0,1,
P300,port,300,0,500,1,1,
P300,port,300,0,900,0.5,1,
`;
