import { assess, type AssessOptions } from '../survey/assess.ts';
import { GAP_BOUNDS, LENGTH_BOUNDS } from '../survey/bounds.ts';
import { WAYS } from '../survey/kinds/sheet.ts';
import { tiedPanels } from '../survey/panels/tiedPanels.ts';
import { stillMissing } from '../survey/stillMissing.ts';
import { gatesOf, NO_STATEMENTS } from '../fairing/gates.ts';
import { PANEL_TARGETS } from '../fairing/panel/panelProgramme.ts';
import { workPlan } from '../fairing/plan/workPlan.ts';
import { outcomeWords } from '../../web/views/causesView.ts';
import { FIRST_CHOICES, type Paper, type SheetChoices } from '../../web/views/sheetChoices.ts';
import { planStrips } from '../../web/views/sheetStrips.ts';
import { sheetView } from '../../web/views/sheetView.ts';
import { ASSESS_OPTIONS, assessOptionsOf, lengthArgument } from './assessOptions.ts';
import { oneFile, parsedArguments, refused, type Refused } from './parsedArguments.ts';
import { renderSheets } from './renderSheet.ts';
import { complain, readSurveyFile } from './surveyFile.ts';
import { writeOut } from './writeOut.ts';

interface Asked {
  readonly file: string;
  readonly out: string;
  readonly options: AssessOptions;
  readonly choices: SheetChoices;
  readonly strips: boolean;
}

type Read = { readonly ok: true; readonly asked: Asked } | Refused;

/** `aftrun worksheet FILE.csv --out sheet.html`: the sheet that the app prints, as one file for a browser.
 *  Exit status: 0 written, 1 the file could not be used or written, 2 wrong arguments. */
export async function worksheetCommand(args: readonly string[]): Promise<number> {
  const read = readArguments(args);
  if (!read.ok) {
    complain(`aftrun worksheet: ${read.message}`);
    return 2;
  }
  const { file, out, options, choices, strips } = read.asked;
  const found = readSurveyFile(file);
  if (!found) return 1;
  const { survey } = found;
  const assessment = assess(survey, options);
  const unit = survey.workUnit;
  const { panel } = choices;
  const plan = workPlan(assessment, {
    ...choices.plan,
    unit,
    ...(panel && { panel: { target: panel, tied: tiedPanels(assessment, options) } }),
  });
  const missing = stillMissing(survey);
  // The app holds the sheet back until all is stated; here the sheet says STOP and asks.
  for (const { ask } of missing) complain(`not stated in ${file}: ${ask}`);
  const gates = gatesOf(assessment, NO_STATEMENTS);
  const outcome = outcomeWords(assessment, undefined, NO_STATEMENTS.causes);
  const view = sheetView({ assessment, plan, gates, choices, unit, missing, outcome });
  const { hull, date } = view;
  const html = await renderSheets(`Worksheet, ${hull}, ${date}`, [
    { sheet: 'worksheet', props: { view, missing: [] } },
    ...(strips
      ? [
          {
            sheet: 'strips',
            props: { paper: choices.paper, hull, date, strips: planStrips(plan, unit) },
          } as const,
        ]
      : []),
  ]);
  return writeOut(out, html, [file]) ? 0 : 1;
}

function readArguments(args: readonly string[]): Read {
  const parsed = parsedArguments(args, {
    ...ASSESS_OPTIONS,
    out: { type: 'string' },
    paper: { type: 'string' },
    way: { type: 'string' },
    'per-panel': { type: 'string' },
    'grind-limit': { type: 'string' },
    'fill-limit': { type: 'string' },
    forward: { type: 'string' },
    strips: { type: 'boolean' },
    material: { type: 'boolean' },
  });
  if (!parsed.ok) return parsed;
  const { values } = parsed;
  const found = oneFile(parsed.files, 'worksheet FILE.csv --out sheet.html');
  if (!found.ok) return found;
  const { file } = found;
  const { out, paper, way } = values;
  if (out === undefined) return refused('--out: expected the file to write, like --out sheet.html');
  if (paper !== undefined && !isPaper(paper)) {
    return refused(`--paper: found '${paper}', expected A4 or Letter`);
  }
  const chosen = WAYS.find((each) => each.replace(' ', '-') === way);
  if (way !== undefined && chosen === undefined) {
    return refused(`--way: found '${way}', expected fill-only, grind-only or least-work`);
  }
  const perPanel = values['per-panel'];
  const panel = PANEL_TARGETS.find((each) => each.replace(' ', '-') === perPanel);
  if (perPanel !== undefined && panel === undefined) {
    return refused(`--per-panel: found '${perPanel}', expected one-plane or straight-buttocks`);
  }
  const read = assessOptionsOf(values);
  if (!read.ok) return read;
  const lengths: { grindLimit?: number; fillLimit?: number; forward?: number } = {};
  for (const [name, key, bounds] of [
    ['grind-limit', 'grindLimit', GAP_BOUNDS],
    ['fill-limit', 'fillLimit', GAP_BOUNDS],
    ['forward', 'forward', LENGTH_BOUNDS],
  ] as const) {
    const text = values[name];
    if (text === undefined) continue;
    const length = lengthArgument(name, text, bounds);
    if (!length.ok) return length;
    lengths[key] = length.mm;
  }
  const choices: SheetChoices = {
    ...FIRST_CHOICES,
    ...(paper !== undefined && { paper }),
    ...(panel && { panel }),
    withMaterial: values.material === true,
    plan: {
      way: chosen ?? (lengths.grindLimit === undefined ? 'fill only' : 'least work'),
      ...lengths,
    },
  };
  const strips = values.strips === true;
  return { ok: true, asked: { file, out, options: read.options, choices, strips } };
}

function isPaper(text: string): text is Paper {
  return text === 'A4' || text === 'Letter';
}
