import type { Agreement } from '../../survey/causes/agreement.ts';
import { listed } from '../../survey/sentence.ts';
import type { CauseNow } from './orderCauses.ts';

/** What remains after what was tried, what to test next, and what may be said of the bottom. */
export interface Outcome {
  readonly is:
    'cause found' | 'test first' | 'help first' | 'bottom remains' | 'nothing explains it';
  readonly words: string;
  /** The next test; absent where none is left. */
  readonly next?: CauseNow;
  readonly remains: readonly string[];
}

const NOT_FOR_THIS =
  ', and the measured bottom does not explain it. Do not work on it for this: try again what was ruled out, or ask a qualified marine surveyor.';

/** `causes`: as `orderCauses` gives them. The bottom is never blamed while a cause is unchecked, or another was found. */
export function outcomeOf(causes: readonly CauseNow[], bottom: Agreement): Outcome {
  const named = (found: CauseNow['found']) =>
    causes.filter((each) => each.found === found).map(({ cause }) => cause);
  const found = named('is the cause');
  const open = named('NOT CHECKED');
  const help = named('contributes');
  const next = causes.find((each) => each.found === 'NOT CHECKED');
  if (found.length > 0) {
    return {
      is: 'cause found',
      remains: [...found, ...help],
      words: `The cause was found: ${listed(found)}. Put that right and try the boat again before anyone touches the bottom.`,
    };
  }
  if (next !== undefined) {
    return {
      is: 'test first',
      next,
      remains: [...open, ...help, 'the bottom'],
      words: `Not checked yet: ${listed(open)}. Leave the bottom alone until they are.`,
    };
  }
  if (help.length > 0) {
    return {
      is: 'help first',
      remains: [...help, 'the bottom'],
      words: `${listed(help)} ${help.length === 1 ? 'contributes' : 'contribute'}, all else is ruled out. Put that right, try the boat again, and only then judge the bottom.`,
    };
  }
  if (bottom.says === 'agrees') {
    return {
      is: 'bottom remains',
      remains: ['the bottom'],
      words:
        'Every other cause is ruled out, and the bottom agrees with the complaint: it remains.',
    };
  }
  return {
    is: 'nothing explains it',
    remains: ['the bottom'],
    words: `Every other cause is ruled out${WHAT_THEN[bottom.says]}`,
  };
}

/** What is left to do where the bottom alone remains and does not agree. */
const WHAT_THEN: Readonly<Record<Exclude<Agreement['says'], 'agrees'>, string>> = {
  'nothing measured': ': measure the bottom until it is decided.',
  'not decided': ': measure the bottom until it is decided.',
  'nothing complained of':
    '. What the boat does is not stated: say it, so that the measured bottom can be held against it.',
  opposes: NOT_FOR_THIS,
  'does not explain it': NOT_FOR_THIS,
};
