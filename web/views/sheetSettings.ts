import type { BodyOf } from '../../src/survey/kinds/kinds.ts';
import { PANEL_TARGETS, type PanelTarget } from '../../src/fairing/panel/panelProgramme.ts';
import type { LinePlan, WorkPlan } from '../../src/fairing/plan/plan.ts';
import { WORK_STEP } from '../../src/fairing/workStep.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Typed } from '../../src/survey/survey.ts';
import { showLength } from '../../src/survey/units.ts';
import type { Paper, SheetChoices } from './sheetChoices.ts';
import { isPlanned } from './sheetFirst.ts';

/** A sheet's choices as they are typed on its screen. */
export interface SheetSettings {
  readonly paper: Paper;
  readonly way: SheetChoices['plan']['way'];
  readonly grindLimit: Typed | undefined;
  readonly fillLimit: Typed | undefined;
  readonly forward: Typed | undefined;
  readonly camberShape: 'convex' | 'concave' | undefined;
  readonly camberHeight: Typed | undefined;
  readonly alike: boolean;
  /** What whole panels are brought to; line by line without it. */
  readonly panel: PanelTarget | undefined;
  readonly passLimit: Typed | undefined;
  readonly density: number | undefined;
  readonly pot: number | undefined;
  /** Per cent. */
  readonly waste: number | undefined;
  readonly hoursPerLitre: number | undefined;
  readonly call: string | undefined;
  readonly withMaterial: boolean;
}

export type SheetBody = BodyOf<'sheet'>;

/** What a new sheet starts from: how the last one was issued, or the house's own. Paper by the unit. */
export function firstSettings(last: SheetBody | undefined, unit: WorkUnit): SheetSettings {
  return {
    paper: unit === 'in' ? 'Letter' : 'A4',
    way: last?.way ?? 'fill only',
    grindLimit: last?.grindLimit,
    fillLimit: last?.fillLimit,
    forward: last?.forward,
    camberShape: last?.camber?.shape,
    camberHeight: last?.camber?.height,
    alike: last?.alike ?? false,
    panel: PANEL_TARGETS.find((target) => target === last?.panel),
    passLimit: undefined,
    density: undefined,
    pot: undefined,
    waste: undefined,
    hoursPerLitre: undefined,
    call: undefined,
    withMaterial: false,
  };
}

export function choicesOf(settings: SheetSettings): SheetChoices {
  const { paper, way, grindLimit, fillLimit, forward, alike, panel, call, withMaterial } = settings;
  const { camberShape, camberHeight, passLimit, density, pot, waste, hoursPerLitre } = settings;
  return {
    paper,
    withMaterial,
    ...(call !== undefined && { call }),
    ...(panel && { panel }),
    plan: {
      way,
      ...(grindLimit && { grindLimit: grindLimit.mm }),
      ...(fillLimit && { fillLimit: fillLimit.mm }),
      ...(forward && { forward: forward.mm }),
      ...(camberShape &&
        camberHeight && { camber: { shape: camberShape, height: camberHeight.mm } }),
      ...(alike && { alike }),
      material: {
        ...(passLimit && { passLimit: passLimit.mm }),
        ...(density !== undefined && { density }),
        ...(pot !== undefined && { pot }),
        ...(waste !== undefined && { waste: Math.min(waste, 90) / 100 }),
        ...(hoursPerLitre !== undefined && {
          rate: { hours: hoursPerLitre, per: 'litre' as const },
        }),
      },
    },
  };
}

/** Every figure of a plan, as a sheet keeps it. */
export function figuresOf({ lines }: WorkPlan, unit: WorkUnit): SheetBody['figures'] {
  const as =
    unit === 'mm' ? ({ unit, decimals: 1 } as const) : ({ unit, denominator: 32 } as const);
  const depth = (mm: number): Typed => ({ mm, text: showLength(mm, as) });
  return lines.filter(isPlanned).flatMap((plan) =>
    plan.stations.flatMap((s) =>
      s.is === 'worked'
        ? [
            {
              line: plan.line.id,
              name: plan.line.name,
              station: { mm: s.station, text: s.text },
              fill: depth(s.fill.rounded),
              grind: depth(s.grind.rounded),
            },
          ]
        : [],
    ),
  );
}

/** A sheet's record as it leaves the tool. */
export function sheetBody(
  plan: WorkPlan,
  settings: SheetSettings,
  {
    unit,
    number,
    date,
    replaces,
    remainderOf,
  }: {
    readonly unit: WorkUnit;
    readonly number: number;
    readonly date: string;
    readonly replaces?: string;
    readonly remainderOf?: string;
  },
): SheetBody {
  const { way, grindLimit, fillLimit, forward, camberShape, camberHeight, alike, panel } = settings;
  const step = plan.options.step ?? WORK_STEP[unit];
  return {
    number,
    date,
    ...(replaces !== undefined && { replaces }),
    ...(remainderOf !== undefined && { remainderOf }),
    way,
    ...(grindLimit && { grindLimit }),
    ...(fillLimit && { fillLimit }),
    ...(forward && { forward }),
    ...(camberShape && camberHeight && { camber: { shape: camberShape, height: camberHeight } }),
    ...(alike && { alike }),
    ...(panel && { panel }),
    step: { mm: step, text: unit === 'mm' ? `${step} mm` : '1/32 in' },
    figures: figuresOf(plan, unit),
  };
}

/** Whether a sheet, as issued, says what the plan says now. */
export function saysTheSame(sheet: SheetBody, plan: WorkPlan, unit: WorkUnit): boolean {
  const now = figuresOf(plan, unit);
  return (
    sheet.figures.length === now.length &&
    now.every((figure, i) => {
      const then = sheet.figures[i];
      return (
        then.line === figure.line &&
        Math.abs(then.station.mm - figure.station.mm) < 0.5 &&
        Math.abs(then.fill.mm - figure.fill.mm) < 1e-6 &&
        Math.abs(then.grind.mm - figure.grind.mm) < 1e-6
      );
    })
  );
}

export function anythingToWork(lines: readonly LinePlan[]): boolean {
  return lines.some((line) => isPlanned(line) && line.fill.length + line.grind.length > 0);
}
