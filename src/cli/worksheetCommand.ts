import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { assess, type AssessOptions } from '../survey/assess.ts';
import { GAP_BOUNDS } from '../survey/bounds.ts';
import { stillMissing } from '../survey/stillMissing.ts';
import { FIRST_CHOICES, type Paper, type SheetChoices } from '../../web/views/sheetChoices.ts';
import { sheetView } from '../../web/views/sheetView.ts';
import { ASSESS_OPTIONS, assessOptionsOf, lengthArgument } from './assessOptions.ts';
import { renderSheets } from './renderSheet.ts';
import { complain, readSurveyFile, reasonOf } from './surveyFile.ts';

interface Asked {
  readonly file: string;
  readonly out: string;
  readonly options: AssessOptions;
  readonly choices: SheetChoices;
}

type Read =
  { readonly ok: true; readonly asked: Asked } | { readonly ok: false; readonly message: string };

const refused = (message: string): Read => ({ ok: false, message });

/** `aftrun worksheet FILE.csv --out sheet.html`: the sheet that the app prints, as one file for a browser.
 *  Exit status: 0 written, 1 the file could not be used or written, 2 wrong arguments. */
export async function worksheetCommand(args: readonly string[]): Promise<number> {
  const read = readArguments(args);
  if (!read.ok) {
    complain(`aftrun worksheet: ${read.message}`);
    return 2;
  }
  const { file, out, options, choices } = read.asked;
  const found = readSurveyFile(file);
  if (!found) return 1;
  const { survey } = found;
  const view = sheetView({
    assessment: assess(survey, options),
    choices,
    unit: survey.workUnit,
  });
  // A file may say little of the haul-out; the app would hold the sheet back, here it is said instead.
  for (const { ask } of stillMissing(survey)) complain(`not stated in ${file}: ${ask}`);
  const html = await renderSheets(`Worksheet, ${view.hull}, ${view.date}`, [
    { sheet: 'worksheet', props: { view, missing: [] } },
  ]);
  try {
    writeFileSync(out, html);
  } catch (error) {
    complain(`${out}: ${reasonOf(error)}`);
    return 1;
  }
  return 0;
}

function readArguments(args: readonly string[]): Read {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        ...ASSESS_OPTIONS,
        out: { type: 'string' },
        paper: { type: 'string' },
        'grind-limit': { type: 'string' },
      },
    });
  } catch (error) {
    return refused(error instanceof Error ? error.message : String(error));
  }
  const { values, positionals } = parsed;
  const [file, ...more] = positionals;
  if (file === undefined) return refused('a file is expected: worksheet FILE.csv --out sheet.html');
  if (more.length > 0) return refused(`one file is expected, found also ${more.join(', ')}`);
  const { out, paper, 'grind-limit': grind } = values;
  if (out === undefined) return refused('--out: expected the file to write, like --out sheet.html');
  if (paper !== undefined && !isPaper(paper)) {
    return refused(`--paper: found '${paper}', expected A4 or Letter`);
  }
  const read = assessOptionsOf(values);
  if (!read.ok) return read;
  const limit = grind === undefined ? undefined : lengthArgument('grind-limit', grind, GAP_BOUNDS);
  if (limit && !limit.ok) return limit;
  const choices: SheetChoices = {
    ...FIRST_CHOICES,
    ...(paper !== undefined && { paper }),
    ...(limit && { reference: 'best straight line', grindLimit: limit.mm }),
  };
  return { ok: true, asked: { file, out, options: read.options, choices } };
}

function isPaper(text: string): text is Paper {
  return text === 'A4' || text === 'Letter';
}
