import type { WorkUnit } from '../../survey/figures.ts';
import type { TiedPanel } from '../../survey/panels/tiedPanels.ts';
import type { PanelTarget } from '../panel/panelProgramme.ts';
import type { Way } from '../../survey/kinds/sheet.ts';
import type { Typed } from '../../survey/survey.ts';

export type { Way };

/** A deliberate camber: how far the target lies off its own chord at the middle of the worked stretch. Convex bulges
 *  towards the water, concave is hollow; said in words so that no sign can be mistaken. */
export interface Camber {
  readonly shape: 'convex' | 'concave';
  /** mm, above 0. */
  readonly height: number;
}

/** How the target meets the untouched hull. */
export interface Feather {
  /** Length over which it turns, aft of the forward limit, mm; 0 for none. */
  readonly length: number;
  /** The most that it may turn there, mm per mm. */
  readonly turn: number;
}

/** What the person says of the filler and the work; without a figure nothing is worked out from it. */
export interface Material {
  /** g/cm³, confirmed by the person from the product's own sheet. */
  readonly density?: number;
  /** The label's limit of one pass, mm. */
  readonly passLimit?: number;
  /** What is mixed at once, litres. */
  readonly pot?: number;
  /** Part of what is mixed that does not end up on the hull: 0.1 is a tenth. */
  readonly waste?: number;
  /** Hours of work: for a square metre of one pass, or for a litre put on. */
  readonly rate?: { readonly hours: number; readonly per: 'square metre and pass' | 'litre' };
}

/** A panel as a whole for the target, and the panels that its straightedges across tie. */
export interface PanelChoice {
  readonly target: PanelTarget;
  readonly tied: readonly TiedPanel[];
}

/** What a person asks of a plan. Lengths in mm. */
export interface PlanOptions {
  readonly unit: WorkUnit;
  /** `least work` needs a grind limit to grind at all. */
  readonly way: Way;
  /** What a mm ground costs against a mm filled, for `least work`. House default 1. */
  readonly grindWeight?: number;
  /** Deepest that may be ground off: gelcoat or laminate, the person's own figure. None stated: nothing is ground. */
  readonly grindLimit?: number;
  /** Deepest that may be filled without laminate under it; beyond, laminate comes first. */
  readonly fillLimit?: number;
  readonly camber?: Camber;
  /** How far forward the hull is worked; without it, to the end of each line's judged stretch. */
  readonly forward?: number;
  /** House default: 300 mm, turning by a tenth of the tolerance over that length. */
  readonly feather?: Feather;
  /** Whether port and starboard lines at one offset (within 10 mm) get one shape of target, and are both worked when
   *  either has to be. */
  readonly alike?: boolean;
  /** Whole panels are brought to one target, all their lines when any of them has to be; then `alike` says nothing. */
  readonly panel?: PanelChoice;
  /** The step that depths are rounded to; without it that of the unit (`WORK_STEP`). */
  readonly step?: number;
  /** Ids of lines that are planned for although nothing is proven of them. */
  readonly also?: readonly string[];
  /** Stations that were to be read: those that were not are listed as unread. */
  readonly planned?: readonly Typed[];
  /** Width that a line stands for, by the line's id; without it half way to the neighbouring lines. */
  readonly widths?: Readonly<Record<string, number>>;
  readonly material?: Material;
}
