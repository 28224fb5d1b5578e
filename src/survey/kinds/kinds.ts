import type * as v from 'valibot';

import { acceptanceKind } from './acceptance.ts';
import { causeKind } from './cause.ts';
import { complaintKind } from './complaint.ts';
import { conditionKind } from './condition.ts';
import { controlLineKind } from './controlLine.ts';
import { decisionKind } from './decision.ts';
import { edgeCheckKind } from './edgeCheck.ts';
import { featureKind } from './feature.ts';
import { gateKind } from './gate.ts';
import { gaugeKind } from './gauge.ts';
import { hullKind } from './hull.ts';
import { importKind } from './import.ts';
import { laterKind } from './later.ts';
import { lineKind } from './line.ts';
import { noteKind } from './note.ts';
import { photoKind } from './photo.ts';
import { placementKind } from './placement.ts';
import { placementAcrossKind } from './placementAcross.ts';
import { readingKind } from './reading.ts';
import { repairKind } from './repair.ts';
import { runningParticularsKind } from './runningParticulars.ts';
import { seaTrialKind } from './seaTrial.ts';
import { sheetKind } from './sheet.ts';
import { signatureKind } from './signature.ts';
import { straightedgeKind } from './straightedge.ts';
import { supportKind } from './support.ts';
import { surveyKind } from './survey.ts';
import { trialPairKind } from './trialPair.ts';
import { voidKind } from './void.ts';
import { weightItemKind } from './weightItem.ts';

/** Every kind of entry that this room reads. A new kind is a file beside these, a line here, and an example
 *  in a file of fixtures/book/kinds-v1-*.json. Fields may be added to a kind; none changes its meaning, none becomes required. */
export const KINDS = {
  acceptance: acceptanceKind,
  cause: causeKind,
  complaint: complaintKind,
  condition: conditionKind,
  'control line': controlLineKind,
  decision: decisionKind,
  'edge check': edgeCheckKind,
  feature: featureKind,
  gate: gateKind,
  gauge: gaugeKind,
  hull: hullKind,
  import: importKind,
  later: laterKind,
  line: lineKind,
  note: noteKind,
  photo: photoKind,
  placement: placementKind,
  'placement across': placementAcrossKind,
  reading: readingKind,
  repair: repairKind,
  'running particulars': runningParticularsKind,
  'sea trial': seaTrialKind,
  sheet: sheetKind,
  signature: signatureKind,
  straightedge: straightedgeKind,
  support: supportKind,
  survey: surveyKind,
  'trial pair': trialPairKind,
  void: voidKind,
  'weight item': weightItemKind,
} as const;

export type KindName = keyof typeof KINDS;

/** The body of an entry of a kind. */
export type BodyOf<K extends KindName> = v.InferOutput<(typeof KINDS)[K]['schema']>;

/** Whether this room reads entries of that kind; other rooms have kinds of their own. */
export function isKind(kind: string): kind is KindName {
  return Object.hasOwn(KINDS, kind);
}
