import { factor as factorArrow, type ArrowMatrix } from '../arrowSystem.ts';
import { backwardBand, bandMatrix, factorBand, forwardBand } from './bandSystem.ts';
import type { BandFactor, BandMatrix } from './bandSystem.ts';
import { eigenvalues } from './eigenvalues.ts';
import { liesAcross, type PanelPlacement } from './panelReadings.ts';
import { scaledStation, type PanelSpace } from './panelSpace.ts';

/** What the readings of a panel leave behind: all that its fits need to know of them. */
export interface PanelSystem {
  readonly space: PanelSpace;
  readonly matrix: BandMatrix;
  readonly right: Float64Array;
  readonly sumSquares: number;
  readonly n: number;
}

/** One fit, for a roughness along the lines and one athwart, both as multiples of the readings' uncertainty. */
export interface PanelFit {
  readonly coefficients: Float64Array;
  /** Σ w (y − z)² and the penalties, at the minimum. */
  readonly penalisedSquares: number;
  readonly factor: BandFactor;
}

/** A reading as weights on the unknowns: the spline of its line, less its placement's own line. Placements across run
 *  along y, those fore and aft along x, both scaled to 0..1. */
export function addReadingRow(
  { basis, domain, lines, athwart }: PanelSpace,
  reading: { readonly x: number; readonly line: number },
  placement: { readonly index: number; readonly across: boolean } | undefined,
  weight: number,
  into: Float64Array,
): void {
  const m = lines.length;
  const place = scaledStation(reading.x, domain);
  const first = basis.valuesAt(place, VALUES);
  for (let a = 0; a < 4; a++) into[(first + a) * m + reading.line] += weight * VALUES[a];
  if (placement === undefined) return;
  const e = basis.size * m + 2 * placement.index;
  into[e] -= weight;
  into[e + 1] -= weight * (placement.across ? athwart.places[reading.line] : place);
}

const VALUES = new Float64Array(4);

/** Adds up what the readings say, each with weight 1/u². */
export function panelSystem(space: PanelSpace, placements: readonly PanelPlacement[]): PanelSystem {
  const { basis, lines, athwart } = space;
  const m = lines.length;
  const size = basis.size * m;
  const extra = 2 * placements.length;
  const half = 4 * m - 1;
  const stride = half + 1;
  const matrix = bandMatrix(size, half, extra);
  const { band, border, corner } = matrix;
  const right = new Float64Array(size + extra);
  let sumSquares = 0;
  let n = 0;
  const values = new Float64Array(4);
  placements.forEach((placement, p) => {
    const across = liesAcross(placement);
    const { line, x, gap, u } = placement;
    const e = 2 * p;
    for (let i = 0; i < x.length; i++) {
      const place = scaledStation(x[i], space.domain);
      const first = basis.valuesAt(place, values);
      const along = across ? athwart.places[line[i]] : place;
      const w = 1 / (u[i] * u[i]);
      for (let a = 0; a < 4; a++) {
        const wa = w * values[a];
        const j = (first + a) * m + line[i];
        for (let b = a; b < 4; b++) band[j * stride + (b - a) * m] += wa * values[b];
        border[j * extra + e] -= wa;
        border[j * extra + e + 1] -= wa * along;
        right[j] -= wa * gap[i];
      }
      corner[e * extra + e] += w;
      corner[e * extra + e + 1] += w * along;
      corner[(e + 1) * extra + e + 1] += w * along * along;
      right[size + e] += w * gap[i];
      right[size + e + 1] += w * gap[i] * along;
      sumSquares += w * gap[i] * gap[i];
      n++;
    }
  });
  return { space, matrix, right, sumSquares, n };
}

/** Solves for penalties `fore` on ∫ z_xx² along each line and `across` on ∫∫ z_yy². Undefined where a line does not
 *  determine its own shape. */
export function solvePanel(
  system: PanelSystem,
  { fore, across }: { readonly fore: number; readonly across: number },
  held?: Uint8Array,
): PanelFit | undefined {
  const { space, matrix, right, sumSquares } = system;
  const factor = factorBand({ ...matrix, band: penalised(matrix, space, fore, across) }, held);
  if (!factor) return undefined;
  const half = new Float64Array(right);
  forwardBand(factor, half);
  let explained = 0;
  for (const value of half) explained += value * value;
  backwardBand(factor, half);
  return { coefficients: half, penalisedSquares: Math.max(0, sumSquares - explained), factor };
}

function penalised(
  { band: given, half }: BandMatrix,
  { basis, mass, athwart }: PanelSpace,
  fore: number,
  across: number,
): Float64Array {
  const band = new Float64Array(given);
  const m = athwart.places.length;
  const stride = half + 1;
  for (let k = 0; k < basis.size; k++) {
    for (let d = 0; d < 4 && k + d < basis.size; d++) {
      const along = fore * basis.penalty[4 * k + d];
      const between = across * mass[4 * k + d];
      for (let i = 0; i < m; i++) {
        const at = (k * m + i) * stride + d * m - i;
        band[at + i] += along;
        if (between === 0) continue;
        for (let j = d === 0 ? i : 0; j < m; j++) band[at + j] += between * athwart.penalty[i][j];
      }
    }
  }
  return band;
}

/** The penalties' matrix times coefficients: none where they are of a plane or a twist. */
export function penaltyTimes(
  { basis, mass, athwart }: PanelSpace,
  c: Float64Array,
  { fore, across }: { readonly fore: number; readonly across: number },
): Float64Array {
  const m = athwart.places.length;
  const bent = new Float64Array(c.length);
  for (let k = 0; k < basis.size; k++) {
    for (let l = Math.max(0, k - 3); l <= Math.min(basis.size - 1, k + 3); l++) {
      const at = 4 * Math.min(k, l) + Math.abs(k - l);
      for (let i = 0; i < m; i++) {
        let sum = fore * basis.penalty[at] * c[l * m + i];
        for (let j = 0; j < m; j++) sum += across * mass[at] * athwart.penalty[i][j] * c[l * m + j];
        bent[k * m + i] += sum;
      }
    }
  }
  return bent;
}

/** log of the determinant of the prior's precision, what no penalty touches (1, x, y and x·y) left out. The athwart
 *  penalty's eigenvalues part the panel into as many profiles as there are lines. */
export function priorLogDeterminant(
  { basis, mass, athwart }: PanelSpace,
  bends: Float64Array,
  { fore, across }: { readonly fore: number; readonly across: number },
): number {
  const straight = 2 * (basis.size - 2) * Math.log(fore);
  const sorted = Float64Array.from(bends).sort();
  let sum = straight;
  for (let i = 2; i < athwart.places.length; i++) {
    const band = mass.map((v, j) => fore * basis.penalty[j] + across * sorted[i] * v);
    const found = factorArrow({ size: basis.size, extra: 0, band, border: NONE, corner: NONE });
    if (!found) throw new RangeError('a prior that is positive definite expected');
    sum += found.logDeterminant;
  }
  return sum;
}

const NONE: ArrowMatrix['border'] = new Float64Array(0);

export function bendsOf({ athwart }: PanelSpace): Float64Array {
  return eigenvalues(athwart.penalty);
}
