import { gatesOf, NO_STATEMENTS } from '../fairing/gates.ts';
import { repairsStated } from '../seasons/repairsStated.ts';
import { assess, type AssessOptions } from '../survey/assess.ts';
import { historyView } from '../../web/views/exhibitHistory.ts';
import { exhibitView } from '../../web/views/exhibitView.ts';
import type { Paper } from '../../web/views/sheetChoices.ts';
import { ASSESS_OPTIONS, assessOptionsOf } from './assessOptions.ts';
import { parsedArguments, refused, type Refused } from './parsedArguments.ts';
import { renderSheets } from './renderSheet.ts';
import { complain, complainOfHulls, readSurveyFile } from './surveyFile.ts';
import { writeOut } from './writeOut.ts';

interface Asked {
  readonly files: readonly string[];
  readonly out: string;
  readonly paper: Paper;
  readonly options: AssessOptions;
}

/** `aftrun exhibit FILE.csv [OTHER.csv …] --out exhibit.html`: the record that goes to the owner, of the first file, as
 *  one file for a browser; the others are surveys of the same hull, for its history. It has lines to sign on paper.
 *  Exit status: 0 written, 1 a file could not be used or written, 2 wrong arguments. */
export async function exhibitCommand(args: readonly string[]): Promise<number> {
  const read = readArguments(args);
  if (!read.ok) {
    complain(`aftrun exhibit: ${read.message}`);
    return 2;
  }
  const { files, out, paper, options } = read.asked;
  const surveys = files.flatMap((file) => readSurveyFile(file)?.survey ?? []);
  if (surveys.length < files.length) return 1;
  complainOfHulls(surveys);
  const assessments = surveys.map((survey) => assess(survey, options));
  const [assessment] = assessments;
  const { repairs, unreadable } = repairsStated(surveys);
  for (const text of unreadable) {
    complain(`repair: found '${text}', expected "2026-03-14; P450, P700; what was done"; not used`);
  }
  const view = exhibitView({
    assessment,
    unit: assessment.survey.workUnit,
    paper,
    gates: gatesOf(assessment, NO_STATEMENTS),
    history: historyView({
      own: '0',
      seasons: assessments.map((each, i) => ({
        key: String(i),
        ...(each.survey.date !== undefined && { date: each.survey.date }),
        assessment: each,
      })),
      repairs: repairs.map((repair) => ({
        ...repair,
        ...(repair.lines !== undefined && { names: repair.lines }),
      })),
      unit: assessment.survey.workUnit,
    }),
    signatures: [],
    says: () => '',
  });
  const html = await renderSheets(`Measurement exhibit, ${view.hull}, ${view.date}`, [
    { sheet: 'exhibit', props: { view, photos: [] } },
  ]);
  return writeOut(out, html, files) ? 0 : 1;
}

function readArguments(
  args: readonly string[],
): { readonly ok: true; readonly asked: Asked } | Refused {
  const parsed = parsedArguments(args, {
    ...ASSESS_OPTIONS,
    out: { type: 'string' },
    paper: { type: 'string' },
  });
  if (!parsed.ok) return parsed;
  const { files, values } = parsed;
  const { out, paper = 'A4' } = values;
  if (files.length === 0) {
    return refused('a file is expected: exhibit FILE.csv [OTHER.csv …] --out exhibit.html');
  }
  if (out === undefined) {
    return refused('--out: expected the file to write, like --out exhibit.html');
  }
  if (paper !== 'A4' && paper !== 'Letter') {
    return refused(`--paper: found '${paper}', expected A4 or Letter`);
  }
  const read = assessOptionsOf(values);
  if (!read.ok) return read;
  return { ok: true, asked: { files, out, paper, options: read.options } };
}
