import { describe, expect, it } from 'vitest';
import { fitLine, lineAt } from '../../src/fit/line.ts';
import { repeatScatter } from '../../src/fit/repeatScatter.ts';
import { readingsOf, seededNormals } from './support.ts';

const x = [0, 150, 300, 450, 700, 900, 1200];
const bend = (at: number) => 2e-6 * at * at - Math.sin(at / 200);

describe('scatter of repeats', () => {
  it('is nothing where repeats differ by their offset and tilt only, whatever the shape', () => {
    const first = readingsOf(bend, x, 0.2);
    const again = readingsOf(bend, x, 0.2, { offset: 3, tilt: -0.004 });
    const { squares, dof } = repeatScatter([first, again], 1);
    expect(dof).toBe(7 - 2);
    expect(squares).toBeLessThan(1e-20);
  });

  it('of two lays is half the squares that their difference leaves about its own line', () => {
    // Independent: differences of two readings have twice a reading's variance; line fit per NIST test.
    const first = readingsOf(bend, x, 0.2, { noise: seededNormals(1) });
    const again = readingsOf(bend, x, 0.2, { offset: 3, tilt: -0.004, noise: seededNormals(2) });
    const differences = again.gap.map((g, i) => g - first.gap[i]);
    const line = fitLine(x, differences);
    if (!line.ok) throw new Error(line.reason);
    const left = x.reduce((sum, at, i) => sum + (differences[i] - lineAt(line, at).y) ** 2, 0);
    const { squares, dof } = repeatScatter([first, again], 1);
    expect(squares).toBeCloseTo(left / 2, 12);
    expect(dof).toBe(line.dof);
  });

  it('of second looks in one lay is their squares about their mean, a degree of freedom each', () => {
    const looks = {
      x: [100, 100, 200, 300, 300, 300],
      gap: [1, 3, 9, 0, 1, 2],
      u: [1, 1, 1, 1, 1, 1],
    };
    expect(repeatScatter([looks], 1)).toEqual({ squares: 2 + 2, dof: 3 });
  });

  it('finds no degree of freedom where two shared stations only tie', () => {
    const first = readingsOf(bend, [0, 100, 200], 0.2, { noise: seededNormals(3) });
    const next = readingsOf(bend, [100, 200, 300], 0.2, { noise: seededNormals(4) });
    const { squares, dof } = repeatScatter([first, next], 1);
    expect(dof).toBe(0);
    expect(squares).toBeLessThan(1e-12);
  });

  it('recovers the deviation that was put in, within a tenth, from 40 lays', () => {
    const noise = seededNormals(77);
    const lays = Array.from({ length: 40 }, (_, i) =>
      readingsOf(bend, x, 0.3, { offset: i / 3, tilt: i * 1e-4, noise }),
    );
    const { squares, dof } = repeatScatter(lays, 1);
    expect(dof).toBe(40 * 7 - 7 - 2 * 39);
    expect(Math.abs(Math.sqrt(squares / dof) / 0.3 - 1)).toBeLessThan(0.1);
  });
});
