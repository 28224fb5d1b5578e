import { max } from 'd3';
import type { HullFeature } from '../../src/survey/fold/hullOf.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Side } from '../../src/survey/survey.ts';
import { rounded, textSize, type DrawingSize } from './drawingSize.ts';
import { hatchPath, type Box } from './hatch.ts';
import { drawnAcross, type DrawnAcross, type PlanAcross } from './planAcross.ts';
import { planLineWords, type PlanLine, type PlanStation } from './planLines.ts';
import { stationText } from './profileTable.ts';
import { stationTicks, type Tick } from './profileTicks.ts';
import { LETTERS, sectionWords, type DrawnSection } from './sectionMarks.ts';

/** How the plan is seen. The bow is up either way: from below port lies on the right, from above on the left. */
export type SeenFrom = 'below' | 'above';

export interface PlanHull {
  readonly beamAtChine?: number | undefined;
  readonly features: readonly HullFeature[];
}

export interface PlanSide {
  readonly label: 'PORT' | 'STARBOARD';
  readonly x: number;
}

export interface DrawnPlanLine {
  readonly id: string;
  readonly name: string;
  readonly x: number;
  readonly labelY: number;
  /** Accessible name. */
  readonly words: string;
  /** What answers to a finger: up to the middle between it and its neighbours. */
  readonly target: Box;
  /** From its aft station to its foremost. */
  readonly path: string;
  readonly ticks: string;
  readonly voids: string;
  readonly later: readonly (readonly [x: number, y: number])[];
  readonly sections: readonly DrawnSection[];
}

/** The aft bottom with all its lines, one scale both ways; the deadrise is not drawn, offsets lie flat as measured
 *  along the bottom. Places in the drawing's own unit. */
export interface PlanView {
  readonly width: number;
  readonly height: number;
  readonly unitDrawn: DrawingSize['unit'];
  readonly em: number;
  readonly from: SeenFrom;
  readonly caption: string;
  /** What the broken line is, and what nobody stated. */
  readonly foot: string;
  readonly name: string;
  readonly summary: string;
  /** The bottom: chine to chine, transom to where the drawing breaks off. */
  readonly hull: Box;
  /** Nobody stated the beam: the chines are only a frame around the outermost line. */
  readonly beamKnown: boolean;
  readonly keel: number;
  /** Words at the sides, left and right on the drawing. */
  readonly sides: readonly [PlanSide, PlanSide];
  readonly stations: readonly Tick[];
  readonly unit: WorkUnit;
  readonly limit?: number;
  readonly lines: readonly DrawnPlanLine[];
  /** Straightedges that lie across lines, or are to. */
  readonly across: readonly DrawnAcross[];
  readonly features: readonly (Box & {
    readonly key: string;
    readonly words: string;
    readonly hatch: string;
  })[];
}

export interface PlanViewOptions {
  /** Room there is; the height taken may be less. */
  readonly size: DrawingSize;
  readonly from: SeenFrom;
  readonly unit: WorkUnit;
  /** How far forward lines are judged, mm. */
  readonly limit?: number | undefined;
  readonly across?: readonly PlanAcross[] | undefined;
}

const ROOM = { left: 3.2, right: 1.4, top: 5.4, bottom: 4.7 } as const;
const NARROWEST = 26;

export function planView(
  lines: readonly PlanLine[],
  hull: PlanHull,
  { size, from, unit, limit, across: laidAcross = [] }: PlanViewOptions,
): PlanView {
  const em = textSize(size);
  const beam = hull.beamAtChine;
  const outermost = max([100, ...lines.map((line) => line.offset)]) as number;
  const half = beam === undefined ? 1.18 * outermost : Math.max(beam / 2, 1.03 * outermost);
  const stations = lines.flatMap((line) => line.stations.map((s) => s.station));
  const length =
    1.06 * (max([300, ...stations, ...(limit === undefined ? [] : [limit])]) as number);
  const wide = size.width - (ROOM.left + ROOM.right) * em;
  const tall = size.height - (ROOM.top + ROOM.bottom) * em;
  const scale = Math.min(wide / (2 * half), tall / length);
  // No wider than it needs, so that its words stand beside what they name.
  const width = Math.min(
    size.width,
    Math.max(2 * half * scale + (ROOM.left + ROOM.right) * em, NARROWEST * em),
  );
  const keel = rounded((width + (ROOM.left - ROOM.right) * em) / 2);
  const aside = Math.max((half * scale) / 2, 6.2 * em);
  const top = rounded(ROOM.top * em);
  const transom = rounded(top + length * scale);
  const portIs = from === 'below' ? 1 : -1;
  const across = (side: Side, offset: number) =>
    rounded(keel + (side === 'centre' ? 0 : side === 'port' ? portIs : -portIs) * offset * scale);
  const y = (station: number) => rounded(transom - station * scale);
  const left = rounded(keel - half * scale);
  const box: Box = {
    x: left,
    y: top,
    width: rounded(2 * half * scale),
    height: rounded(transom - top),
  };
  const sorted = [...lines].sort((a, b) => across(a.side, a.offset) - across(b.side, b.offset));
  const places = sorted.map((line) => across(line.side, line.offset));
  const rows = labelRows(sorted, places, em);

  return {
    width: rounded(width),
    unitDrawn: size.unit,
    height: rounded(transom + ROOM.bottom * em),
    em,
    from,
    caption: `seen from ${from}, bow up`,
    foot: [
      ...(limit === undefined ? [] : [`broken line: limit ${stationText(limit, unit)} ${unit}`]),
      ...(beam === undefined ? ['beam not stated'] : []),
    ].join('; '),
    name: `Plan of the bottom, seen from ${from}, bow up, port on the ${from === 'below' ? 'right' : 'left'}`,
    summary: `${[...lines.map((line) => planLineWords(line, unit)), ...laidAcross.map(({ words }) => words)].join('; ')}.`,
    hull: box,
    beamKnown: beam !== undefined,
    keel,
    sides: [
      { label: from === 'below' ? 'STARBOARD' : 'PORT', x: rounded(keel - aside) },
      { label: from === 'below' ? 'PORT' : 'STARBOARD', x: rounded(keel + aside) },
    ],
    stations: stationTicks(0, length, (2 * em) / scale, unit).map(({ at, label }) => ({
      at: y(at),
      label,
    })),
    unit,
    ...(limit !== undefined && { limit: y(limit) }),
    lines: sorted.map((line, i) => drawnLine(line, i)),
    across: laidAcross.map((each) =>
      drawnAcross(
        each,
        ({ side, offset, station }) => [across(side, offset), Math.max(top, y(station))],
        em,
      ),
    ),
    features: hull.features.flatMap(drawnFeature),
  };

  function drawnLine(line: PlanLine, i: number): DrawnPlanLine {
    const x = places[i];
    const before = i === 0 ? box.x : (places[i - 1] + x) / 2;
    const after = i === places.length - 1 ? box.x + box.width : (x + places[i + 1]) / 2;
    const own = line.stations.map((s) => s.station);
    const tick = 0.35 * em;
    const at = (state: PlanStation['state']) => line.stations.filter((s) => s.state === state);
    const first = own[0];
    const last = own[own.length - 1];
    return {
      id: line.id,
      name: line.name,
      x,
      labelY: rounded(top - (0.6 + 1.15 * rows[i]) * em),
      words: planLineWords(line, unit),
      target: {
        x: rounded(before),
        y: rounded(top - 3 * em),
        width: rounded(after - before),
        height: rounded(transom - top + 3 * em),
      },
      path: first === undefined ? `M${x},${transom}V${top}` : `M${x},${y(first)}V${y(last)}`,
      ticks: [...at('read'), ...at('open')]
        .map(({ station }) => `M${rounded(x - tick)},${y(station)}h${rounded(2 * tick)}`)
        .join(''),
      voids: at('void')
        .map(({ station }) => {
          const r = rounded(0.7 * tick);
          return `M${rounded(x - r)},${rounded(y(station) - r)}l${2 * r},${2 * r}m0,${-2 * r}l${-2 * r},${2 * r}`;
        })
        .join(''),
      later: at('later').map(({ station }) => [x, y(station)] as const),
      sections: line.sections.map((section) => {
        const wideStrip = Math.min(0.95 * em, Math.max(0.5 * em, (after - before) * 0.45));
        const strip = {
          x: rounded(x - wideStrip / 2),
          y: y(section.to),
          width: rounded(wideStrip),
          height: rounded(y(section.from) - y(section.to)),
        };
        const is = section.class;
        const lean = is === 'hook' ? 'rising' : is === 'rocker' ? 'falling' : undefined;
        return {
          ...strip,
          key: `${section.from}-${section.to}`,
          class: is,
          letter: LETTERS[is],
          label: LETTERS[is],
          middle: [x, rounded(strip.y + strip.height / 2)] as const,
          hatch: lean === undefined ? '' : uprightHatch(strip, 0.55 * em, lean),
          words: sectionWords(section),
        };
      }),
    };
  }

  function drawnFeature(feature: HullFeature): PlanView['features'] {
    const { side, offsetFrom, offsetTo, stationFrom, stationTo } = feature;
    const on: readonly Side[] =
      side === 'both' || side === 'centre' ? ['port', 'starboard'] : [side];
    const [high, low] = [Math.max(top, y(stationTo.mm)), Math.min(transom, y(stationFrom.mm))];
    if (low <= top) return [];
    return on.map((each) => {
      const ends = [across(each, offsetFrom.mm), across(each, offsetTo.mm)];
      const place: Box = {
        x: Math.min(...ends),
        y: high,
        width: rounded(Math.max(Math.abs(ends[1] - ends[0]), 0.15 * em)),
        height: rounded(Math.max(low - high, 0.15 * em)),
      };
      const note = feature.note?.trim() ?? '';
      return {
        ...place,
        key: `${feature.id}/${each}`,
        words: `${feature.feature}${note === '' ? '' : `, ${note}`}, ${each}`,
        hatch: hatchPath(place, 0.45 * em, 'falling'),
      };
    });
  }
}

/** On which of three rows a name stands, so that neighbours' names do not touch. */
function labelRows(
  lines: readonly PlanLine[],
  places: readonly number[],
  em: number,
): readonly number[] {
  const ends: number[] = [];
  return lines.map(({ name }, i) => {
    const reach = (name.length * 0.58 * em) / 2 + 0.3 * em;
    const free = [0, 1, 2].find((row) => (ends[row] ?? -Infinity) <= places[i] - reach);
    const row = free ?? ends.indexOf(Math.min(...ends));
    ends[row] = places[i] + reach;
    return row;
  });
}

/** Hatching of a strip that is taller than wide: strokes at 45°, spaced along its height. */
function uprightHatch(box: Box, gap: number, lean: 'rising' | 'falling'): string {
  const { x, y, width, height } = box;
  const strokes: string[] = [];
  for (let at = gap / 2 - width; at < height; at += gap) {
    const start = Math.max(at, 0);
    const end = Math.min(at + width, height);
    if (end <= start) continue;
    const xAt = (down: number) => (lean === 'falling' ? x + (down - at) : x + width - (down - at));
    strokes.push(
      `M${rounded(xAt(start))},${rounded(y + start)}L${rounded(xAt(end))},${rounded(y + end)}`,
    );
  }
  return strokes.join('');
}
