import type { PanelTarget } from '../../src/fairing/panel/panelProgramme.ts';
import type { PlanOptions } from '../../src/fairing/plan/options.ts';

export type Paper = 'A4' | 'Letter';

/** What the person chooses for a sheet. What it was when it left the tool is kept with the sheet (kind `sheet`). */
export interface SheetChoices {
  readonly paper: Paper;
  /** How the work is planned; unit, stations and material come from the survey and the person's figures. */
  readonly plan: Omit<PlanOptions, 'unit' | 'planned' | 'panel'>;
  /** Whole panels are brought to this, where straightedges laid across tie their lines. */
  readonly panel?: PanelTarget;
  /** Whom to call before going on alone. */
  readonly call?: string;
  /** A page for whoever buys the material: weight, batches, hours. */
  readonly withMaterial: boolean;
}

export const FIRST_CHOICES: SheetChoices = {
  paper: 'A4',
  plan: { way: 'fill only' },
  withMaterial: false,
};
