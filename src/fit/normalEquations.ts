import { arrowMatrix, type ArrowMatrix } from './arrowSystem.ts';
import type { SplineBasis } from './splineBasis.ts';

/** The sums that readings leave behind: all a fit needs to know of them, however many there are.
 *  Placement 0 carries the datum (its offset and tilt are none); every further placement adds an
 *  offset and a tilt of its own, so the unknowns are coefficients, then (offset, tilt) pairs. */
export interface NormalEquations {
  readonly basis: SplineBasis;
  readonly matrix: ArrowMatrix;
  readonly right: Float64Array;
  /** Σ w y². */
  readonly sumSquares: number;
  readonly n: number;
}

/** Adds readings one at a time, in any order; time and memory do not grow with their number. */
export class Accumulator {
  readonly #basis: SplineBasis;
  readonly #matrix: ArrowMatrix;
  readonly #right: Float64Array;
  readonly #values = new Float64Array(4);
  #sumSquares = 0;
  #n = 0;

  constructor(basis: SplineBasis, placements: number) {
    this.#basis = basis;
    this.#matrix = arrowMatrix(basis.size, 2 * (placements - 1));
    this.#right = new Float64Array(basis.size + 2 * (placements - 1));
  }

  /** A height y seen at x in placement p, with weight 1/u². */
  add(x: number, y: number, weight: number, placement: number): void {
    const values = this.#values;
    const first = this.#basis.valuesAt(x, values);
    const { band, border, corner, size, extra } = this.#matrix;
    for (let a = 0; a < 4; a++) {
      const wa = weight * values[a];
      for (let b = a; b < 4; b++) band[4 * (first + a) + b - a] += wa * values[b];
      this.#right[first + a] += wa * y;
    }
    if (placement > 0) {
      const e = 2 * (placement - 1);
      for (let a = 0; a < 4; a++) {
        const wa = weight * values[a];
        border[(first + a) * extra + e] -= wa;
        border[(first + a) * extra + e + 1] -= wa * x;
      }
      corner[e * extra + e] += weight;
      corner[e * extra + e + 1] += weight * x;
      corner[(e + 1) * extra + e] += weight * x;
      corner[(e + 1) * extra + e + 1] += weight * x * x;
      this.#right[size + e] -= weight * y;
      this.#right[size + e + 1] -= weight * y * x;
    }
    this.#sumSquares += weight * y * y;
    this.#n += 1;
  }

  sums(): NormalEquations {
    return {
      basis: this.#basis,
      matrix: this.#matrix,
      right: this.#right,
      sumSquares: this.#sumSquares,
      n: this.#n,
    };
  }
}
