import type { ReferenceKind } from '../../src/fairing/straightReference.ts';

export type Paper = 'A4' | 'Letter';

/** A gate as the person answers it. Nobody having looked is an answer of its own, never a no. */
export type Check = 'yes' | 'no' | 'NOT CHECKED';

export interface Checks {
  readonly sounded: Check;
  readonly flex: Check;
  readonly moisture: Check;
}

/** What the person chooses for a sheet; nothing of it is an entry of the record. */
export interface SheetChoices {
  readonly paper: Paper;
  readonly reference: ReferenceKind;
  /** Deepest that may be ground off, mm. */
  readonly grindLimit?: number;
  readonly checks: Checks;
}

export const FIRST_CHOICES: SheetChoices = {
  paper: 'A4',
  reference: 'touching the high spots',
  checks: { sounded: 'NOT CHECKED', flex: 'NOT CHECKED', moisture: 'NOT CHECKED' },
};
