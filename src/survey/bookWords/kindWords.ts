import type { KindName } from '../kinds/kinds.ts';
import { featureWords, hullWords, lineWords } from './hullWords.ts';
import { importWords } from './importWords.ts';
import { edgeCheckWords, gaugeWords, straightedgeWords } from './instrumentWords.ts';
import { noteWords } from './noteWords.ts';
import { photoWords } from './photoWords.ts';
import {
  laterWords,
  placementAcrossWords,
  placementWords,
  readingWords,
  voidWords,
} from './readingWords.ts';
import { acceptanceWords, controlLineWords } from './seasonWords.ts';
import { runningParticularsWords, weightItemWords } from './weightWords.ts';
import { signatureWords } from './signatureWords.ts';
import { conditionWords, supportWords, surveyWords } from './surveyWords.ts';
import {
  causeWords,
  complaintWords,
  decisionWords,
  gateWords,
  repairWords,
  sheetWords,
} from './workWords.ts';
import { seaTrialWords, trialPairWords } from './trialWords.ts';
import type { Wording } from './wording.ts';

/** How each kind is put in words. A kind that has none here is put field by field, and a test says so. */
export const KIND_WORDS: { readonly [K in KindName]?: Wording<K> } = {
  acceptance: acceptanceWords,
  cause: causeWords,
  complaint: complaintWords,
  condition: conditionWords,
  'control line': controlLineWords,
  decision: decisionWords,
  'edge check': edgeCheckWords,
  feature: featureWords,
  gate: gateWords,
  gauge: gaugeWords,
  hull: hullWords,
  import: importWords,
  later: laterWords,
  line: lineWords,
  note: noteWords,
  photo: photoWords,
  placement: placementWords,
  'placement across': placementAcrossWords,
  reading: readingWords,
  repair: repairWords,
  'running particulars': runningParticularsWords,
  'sea trial': seaTrialWords,
  sheet: sheetWords,
  signature: signatureWords,
  straightedge: straightedgeWords,
  support: supportWords,
  survey: surveyWords,
  'trial pair': trialPairWords,
  void: voidWords,
  'weight item': weightItemWords,
};
