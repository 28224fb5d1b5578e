import { showWorkDepth } from '../../src/fairing/workStep.ts';
import type { WorkPlan } from '../../src/fairing/plan/plan.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Side } from '../../src/survey/survey.ts';
import { isPlanned, nameOf } from './sheetFirst.ts';
import { inColumn } from './readingText.ts';
import { rounded } from './drawingSize.ts';

/** The figures of fill and grind where they lie, as the glass tech lies under them: from below, bow up, PORT right of
 *  the KEEL. mm on paper. Stations are to scale along; lines stand in their order across, evenly. */
export interface FiguresPlan {
  readonly width: number;
  readonly height: number;
  readonly transom: number;
  readonly forward: number;
  readonly keel: number;
  readonly lines: readonly {
    readonly key: string;
    readonly name: string;
    readonly x: number;
    readonly figures: readonly {
      readonly y: number;
      readonly is: 'fill' | 'grind';
      readonly text: string;
      /** Half the width of its bar: the deeper the wider. */
      readonly half: number;
    }[];
    /** Stations of this line with neither. */
    readonly bare: readonly number[];
  }[];
  readonly stations: readonly { readonly y: number; readonly text: string }[];
}

const WIDE = 184;
const TALL = 208;
const ROOM = { top: 14, bottom: 10, side: 16 } as const;
/** Closest that figures one above another can be read. */
const CLOSEST = 5.2;

/** The worked lines' figures. Undefined where nothing is worked. */
export function figuresPlan({ lines }: WorkPlan, unit: WorkUnit): FiguresPlan | undefined {
  const worked = lines.filter(isPlanned);
  const all = worked.flatMap(({ stations }) => stations);
  const inWork = worked.flatMap((plan) => [...plan.fill, ...plan.grind].map(({ to }) => to));
  if (inWork.length === 0) return undefined;
  const end = Math.max(...inWork);
  const shown = all.filter(({ station }) => station <= end * 1.02 + 1);
  const farthest = Math.max(1, ...shown.map(({ station }) => station));
  const distinct = [...new Map(shown.map((s) => [Math.round(s.station), s])).values()].sort(
    (a, b) => a.station - b.station,
  );
  const gaps = distinct.slice(1).map((s, i) => s.station - distinct[i].station);
  const closest = Math.min(farthest, ...gaps.filter((gap) => gap > 5));
  const scale = Math.min(
    (TALL - ROOM.top - ROOM.bottom) / farthest,
    Math.max(70 / farthest, 9 / closest),
  );
  const transom = ROOM.top + farthest * scale;
  const y = (mm: number) => rounded(transom - mm * scale);
  const columns = columnsOf(worked.map(({ line }) => ({ side: line.side, offset: line.offset })));
  const deepest = Math.max(
    1e-9,
    ...shown.map((s) => (s.is === 'worked' ? Math.max(s.fill.rounded, s.grind.rounded) : 0)),
  );
  const half = Math.min(9, columns.step / 2 - 0.6);
  let before = -Infinity;
  return {
    width: WIDE,
    height: rounded(transom + ROOM.bottom),
    transom: rounded(transom),
    forward: ROOM.top,
    keel: columns.keel,
    lines: worked.map((plan, i) => {
      const here = plan.stations.filter(({ station }) => station <= farthest + 1e-6);
      return {
        key: `${plan.line.id}/${plan.part}`,
        name: nameOf(plan),
        x: columns.x[i],
        figures: here.flatMap((s) => {
          if (s.is !== 'worked') return [];
          return (['fill', 'grind'] as const).flatMap((is) =>
            s[is].rounded === 0
              ? []
              : [
                  {
                    y: y(s.station),
                    is,
                    text: showWorkDepth(s[is], unit),
                    half: rounded(half * (0.55 + (0.45 * s[is].rounded) / deepest)),
                  },
                ],
          );
        }),
        bare: here.flatMap((s) =>
          s.is === 'worked' && s.fill.rounded === 0 && s.grind.rounded === 0 ? [y(s.station)] : [],
        ),
      };
    }),
    stations: distinct.flatMap(({ station, text }) => {
      const at = station * scale;
      if (at - before < CLOSEST) return [];
      before = at;
      return [{ y: y(station), text: inColumn({ mm: station, text }, unit) }];
    }),
  };
}

/** Columns from starboard to port, the keel between the sides. */
function columnsOf(lines: readonly { readonly side: Side; readonly offset: number }[]) {
  const signed = lines.map(({ side, offset }) =>
    side === 'port' ? offset : side === 'starboard' ? -offset : 0,
  );
  const order = signed.map((_, i) => i).sort((a, b) => signed[a] - signed[b]);
  const starboard = signed.filter((at) => at < 0).length;
  const centre = signed.filter((at) => at === 0).length;
  const step = Math.min(24, (WIDE - 2 * ROOM.side) / (lines.length + 1));
  const port = signed.length - starboard - centre;
  const middle = rounded(WIDE / 2 + ((starboard - port) / 2) * step);
  const x = new Array<number>(lines.length);
  order.forEach((i, place) => {
    const from = signed[i] < 0 ? place - starboard + 0.25 : place - starboard - centre + 0.75;
    x[i] = rounded(middle + (signed[i] === 0 ? 0 : from) * step);
  });
  return { x, step, keel: middle };
}
