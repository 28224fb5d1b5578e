import { describe, expect, it } from 'vitest';
import { athwartOf } from '../../../src/fit/surface/athwart.ts';

const PLACES = [0, 0.15, 0.4, 0.55, 0.85, 1];
const VALUES = [1, -2, 0.5, 3, -1, 2];
const across = athwartOf(PLACES);
const at = (place: number) => across.weightsAt(place).reduce((sum, w, i) => sum + w * VALUES[i], 0);
/** Second derivative of the cubic just above or below a place, from four of its values. */
const bend = (from: number, step: number) =>
  (2 * at(from) - 5 * at(from + step) + 4 * at(from + 2 * step) - at(from + 3 * step)) / step ** 2;

describe('between its lines a panel', () => {
  it('is the natural cubic spline: through every value, bending evenly over the lines, straight at its ends', () => {
    // These conditions have one solution. Source: Green & Silverman (1994), 2.1 and 2.2.
    PLACES.forEach((place, i) => expect(at(place)).toBeCloseTo(VALUES[i], 12));
    expect(bend(0, 0.01)).toBeCloseTo(0, 6);
    expect(bend(1, -0.01)).toBeCloseTo(0, 6);
    for (const place of PLACES.slice(1, -1)) {
      const [below, above] = [bend(place, -0.01), bend(place, 0.01)];
      expect(Math.abs(above)).toBeGreaterThan(1);
      expect(above).toBeCloseTo(below, 5);
      const slope = (step: number) =>
        (-11 * at(place) +
          18 * at(place + step) -
          9 * at(place + 2 * step) +
          2 * at(place + 3 * step)) /
        (6 * step);
      expect(slope(0.01)).toBeCloseTo(slope(-0.01), 6);
    }
  });

  it('is 3x − 4x³ up to the middle of three lines at 0, 1 and 0, its penalty 48', () => {
    const three = athwartOf([0, 0.5, 1]);
    for (const x of [0, 0.1, 0.25, 0.4, 0.5]) {
      expect(three.weightsAt(x)[1]).toBeCloseTo(3 * x - 4 * x ** 3, 12);
      expect(three.weightsAt(1 - x)[1]).toBeCloseTo(3 * x - 4 * x ** 3, 12);
    }
    expect(three.penalty[1][1]).toBeCloseTo(48, 10);
  });

  it('has the spline’s own ∫ (second derivative)² for its penalty, which is symmetric', () => {
    // A spline's second derivative is straight between lines: a (v² + v w + w²) / 3 for each piece.
    const bends = PLACES.map((place, i) =>
      i === 0 || i === PLACES.length - 1 ? 0 : bend(place, 0.01),
    );
    const whole = PLACES.slice(1).reduce((sum, place, i) => {
      const [v, w] = [bends[i], bends[i + 1]];
      return sum + ((place - PLACES[i]) * (v * v + v * w + w * w)) / 3;
    }, 0);
    const told = VALUES.reduce(
      (sum, v, i) => sum + VALUES.reduce((own, w, j) => own + v * w * across.penalty[i][j], 0),
      0,
    );
    expect(told / whole).toBeCloseTo(1, 6);
    across.penalty.forEach((row, i) =>
      row.forEach((v, j) => expect(v).toBeCloseTo(across.penalty[j][i], 7)),
    );
  });

  it('is as unsure as one more line there would be, were nothing read of it', () => {
    // A normal vector's variance given all others is one over its own entry of the precision, here the penalty.
    for (const place of [0.05, 0.1, 0.3, 0.5, 0.7, 0.95]) {
      const joined = [...PLACES, place].sort((a, b) => a - b);
      const own = athwartOf(joined).penalty[joined.indexOf(place)][joined.indexOf(place)];
      expect(across.openAt(place) * own).toBeCloseTo(1, 8);
    }
    PLACES.forEach((place) => expect(across.openAt(place)).toBeCloseTo(0, 14));
  });
});

describe('what a panel’s lines must be', () => {
  it('is at least three, and ascending', () => {
    expect(() => athwartOf([0, 1])).toThrow('at least 3 lines expected, got 2');
    expect(() => athwartOf([0, 0.6, 0.5, 1])).toThrow('lines in ascending places expected');
    expect(() => athwartOf([0, 0.5, 0.5, 1])).toThrow('lines in ascending places expected');
  });
});
