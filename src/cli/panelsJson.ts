import type { AngleFound } from '../fit/surface/halves.ts';
import type { Agreement } from '../fit/surface/agreement.ts';
import type { PanelAssessment, PanelsAssessment } from '../survey/panels/assessPanels.ts';
import { rounded } from './rounded.ts';

/** Panels as a plain object, lengths in mm, angles in degrees. */
export function panelsJson({ panels, sides }: PanelsAssessment) {
  return {
    panels: panels.map(panelJson),
    ...(sides && {
      portAgainstStarboard: {
        ...agreementJson(sides),
        lines: sides.lines.map((pair) => pair.map(({ name }) => name)),
        ...(sides.planes && {
          planes: {
            along: angleJson(sides.planes.along),
            athwart: angleJson(sides.planes.athwart),
          },
        }),
      },
    }),
  };
}

function panelJson({ side, lines, across, outcome }: PanelAssessment) {
  const names = lines.map(({ name }) => name);
  const head = { side, lines: names, across: across.length };
  if (!outcome.ok) return { ...head, tied: false, reason: outcome.reason };
  const { panel, judged, twist, areas, neighbours, misclosure, placements, map } = outcome;
  const { range } = map();
  const outlier = misclosure.outlier === undefined ? undefined : placements[misclosure.outlier];
  return {
    ...head,
    tied: true,
    datum: panel.datum,
    from: rounded(judged[0], 1),
    to: rounded(judged[1], 1),
    offFlat: { size: rounded(range.size, 4), u: rounded(range.u, 4) },
    ...(twist && {
      twist: {
        verdict: twist.verdict,
        angle: rounded(twist.angle, 4),
        u: rounded(twist.u, 4),
        corner: rounded(twist.corner, 4),
        cornerU: rounded(twist.cornerU, 4),
        over: rounded(twist.over, 1),
        probability: rounded(twist.probability, 4),
      },
    }),
    verdict: areas.verdict,
    fairness: rounded(areas.fairness, 4),
    areas: areas.areas.map((area) => ({
      kind: area.kind,
      proven: area.proven,
      probability: rounded(area.probability, 4),
      size: rounded(area.size, 4),
      u: rounded(area.u, 4),
      at: { station: rounded(area.at.x, 1), line: names[area.at.line] },
      shown: area.shown,
      from: rounded(area.x[0], 1),
      to: rounded(area.x[1], 1),
      lines: area.lines.map((i) => names[i]),
      extent: rounded(area.extent, 0),
    })),
    neighbours: neighbours.map(({ inner, outer, ...rest }) => ({
      lines: [names[inner], names[outer]],
      ...agreementJson(rest),
    })),
    misclosure: {
      checks: misclosure.dof,
      chiSquare: rounded(misclosure.chiSquare, 3),
      ...(misclosure.probability !== undefined && {
        probability: rounded(misclosure.probability, 4),
      }),
      closes: misclosure.closes,
      ...(outlier && { placement: outlier.id }),
    },
  };
}

function angleJson({ angle, u }: AngleFound) {
  return { angle: rounded(angle, 4), u: rounded(u, 4) };
}

function agreementJson({ size, u, at, verdict }: Agreement) {
  return { verdict, difference: rounded(size, 4), u: rounded(u, 4), at: rounded(at, 1) };
}
