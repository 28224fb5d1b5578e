import { CONDITION } from './kinds/condition.ts';
import type { Survey } from './survey.ts';

/** Whether somebody stated that this bottom is flat right across the keel where it is read, with nothing in the way, so that
 *  one straightedge lies along both sides of it. On a vee none does: it touches the keel alone and rocks. */
export function flatAcrossKeel({ conditions }: Pick<Survey, 'conditions'>): boolean {
  return conditions[CONDITION.flatAcross]?.trim().toLowerCase() === 'yes';
}
