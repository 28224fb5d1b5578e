import highsLoader from 'highs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Way } from '../../../src/fairing/plan/options.ts';
import { solveTarget, type Terms } from '../../../src/fairing/plan/targetProgramme.ts';
import { stretchOf, targetHeights, type Stretch } from '../../../src/fairing/plan/targetShape.ts';

let highs: Awaited<ReturnType<typeof highsLoader>>;
beforeAll(async () => {
  highs = await highsLoader();
});

/** Park and Miller's generator, so that every run tries the same surveys. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** A hook, a rocker or a wave with something of each, and roughness, over 600 to 2500 mm. */
function surface(next: () => number) {
  const n = 12 + Math.floor(next() * 30);
  const length = 600 + 1900 * next();
  const [hollow, turned, wave, rough] = [
    6 * (next() - 0.5),
    8 * (next() - 0.5),
    next(),
    0.4 * next(),
  ];
  const from = next() * 0.5;
  return Array.from({ length: n }, (_, i) => {
    const s = i / (n - 1);
    const bump = s > from && s < from + 0.5 ? Math.sin((Math.PI * (s - from)) / 0.5) ** 2 : 0;
    const aft = s < 0.4 ? ((0.4 - s) / 0.4) ** 2 : 0;
    return {
      x: s * length,
      z: hollow * bump + turned * aft + wave * Math.sin(9 * s) + rough * (next() - 0.5) + 3 - 2 * s,
    };
  });
}

function stretchFrom(next: () => number): Stretch {
  const profile = surface(next);
  const end = profile[profile.length - 1].x;
  const feather = { length: next() < 0.2 ? 0 : 400 * next(), turn: 0.002 * next() };
  const camber =
    next() < 0.3
      ? ({ shape: next() < 0.5 ? 'convex' : 'concave', height: 2 * next() } as const)
      : undefined;
  const stretch = stretchOf(profile, end * (0.7 + 0.3 * next()), feather, camber);
  if (stretch === undefined) throw new Error('a stretch expected');
  return stretch;
}

/** The same programme written out in full for another solver: each place's fill and grind are unknowns of their own. */
function oracle(stretches: readonly Stretch[], { way, grindWeight, grindLimit }: Terms): number {
  const cost: string[] = [];
  const rows: string[] = [];
  const bounds: string[] = [];
  let room = Infinity;
  const coefficient = (v: number) => `${v < 0 ? '-' : '+'} ${Math.abs(v).toPrecision(17)}`;
  stretches.forEach((stretch, s) => {
    const { x, z, feathered, turn, camber } = stretch;
    const [aft, fore] = [x[0], x[x.length - 1]];
    const end = z[z.length - 1];
    room = Math.min(room, turn * (fore - feathered));
    bounds.push(`r${s} free`);
    x.forEach((at, i) => {
      const width =
        i === 0
          ? (x[1] - x[0]) / 2
          : i === x.length - 1
            ? (x[i] - x[i - 1]) / 2
            : (x[i + 1] - x[i - 1]) / 2;
      const share = width / (fore - aft) / stretches.length;
      const inFeather = at > feathered;
      const last = i === x.length - 1;
      const onM = inFeather ? (at - feathered) / (fore - feathered) - 1 : -1;
      const along = (at - aft) / (fore - aft);
      const bow = camber
        ? (camber.shape === 'convex' ? 1 : -1) * camber.height * 4 * along * (1 - along)
        : 0;
      const [f, g] = [`f${s}_${i}`, `g${s}_${i}`];
      // z + f − g = end + bow + m·onM + r·(1 − along)
      rows.push(
        ` c${s}_${i}: ${coefficient(onM)} m ${coefficient(1 - along)} r${s} - ${f} + ${g} = ${(z[i] - end - bow).toPrecision(17)}`,
      );
      const fills = way !== 'grind only';
      const grinds = way !== 'fill only' && grindLimit !== undefined;
      if (fills) cost.push(`${coefficient(share)} ${f}`);
      else if (!inFeather && !last) bounds.push(`${f} = 0`);
      if (grinds) cost.push(`${coefficient(grindWeight * share)} ${g}`);
      if (!inFeather && !last) {
        const most = grinds ? grindLimit : 0;
        bounds.push(`${g} <= ${most.toPrecision(17)}`);
      }
    });
  });
  bounds.push(`-${room.toPrecision(17)} <= m <= ${room.toPrecision(17)}`);
  const model = `Minimize\n obj: ${cost.join(' ')}\nSubject To\n${rows.join('\n')}\nBounds\n ${bounds.join('\n ')}\nEnd\n`;
  const answer = highs.solve(model, { output_flag: false });
  if (answer.Status === 'Infeasible') return Infinity;
  if (answer.Status !== 'Optimal') throw new Error(answer.Status);
  return answer.ObjectiveValue;
}

const WAYS: readonly Way[] = ['fill only', 'grind only', 'least work'];

function termsFrom(next: () => number, way: Way): Terms {
  const limited = way === 'grind only' || next() < 0.8;
  return { way, grindWeight: 0.5 + 4 * next(), ...(limited && { grindLimit: 4 * next() }) };
}

const off = (stretch: Stretch, heights: readonly number[]) =>
  heights.map((height, i) => height - stretch.z[i]);

const costOf = (stretch: Stretch, heights: readonly number[], { grindWeight }: Terms) => {
  const { x } = stretch;
  const last = x.length - 1;
  return off(stretch, heights).reduce((sum, depth, i) => {
    const share = (x[Math.min(i + 1, last)] - x[Math.max(i - 1, 0)]) / 2 / (x[last] - x[0]);
    return sum + share * (depth > 0 ? depth : -grindWeight * depth);
  }, 0);
};

describe('the programme of a target', () => {
  test('finds on 540 random surveys what another solver finds, to a millionth of a mm, and agrees where nothing is possible', () => {
    const next = numbers(20261125);
    let impossible = 0;
    for (let k = 0; k < 540; k++) {
      const terms = termsFrom(next, WAYS[k % 3]);
      const stretches = [stretchFrom(next)];
      const solved = solveTarget(stretches, terms);
      const expected = oracle(stretches, terms);
      if (!solved.ok) {
        impossible++;
        expect(expected, `survey ${k}`).toBe(Infinity);
      } else {
        expect(Math.abs(solved.cost - expected), `survey ${k}`).toBeLessThan(1e-6);
      }
    }
    expect(impossible).toBeGreaterThan(30);
    expect(impossible).toBeLessThan(180);
  }, 60_000);

  test('finds on 60 random pairs that share a shape what another solver finds', () => {
    const next = numbers(31);
    for (let k = 0; k < 60; k++) {
      const terms = termsFrom(next, k % 2 === 0 ? 'fill only' : 'least work');
      const stretches = [stretchFrom(next), stretchFrom(next)];
      const solved = solveTarget(stretches, terms);
      if (!solved.ok) throw new Error('always possible where filling is allowed');
      expect(Math.abs(solved.cost - oracle(stretches, terms)), `pair ${k}`).toBeLessThan(1e-6);
      expect(solved.figures[0].miss).toBe(solved.figures[1].miss);
    }
  });

  test('never breaks a limit, and meets the hull at the forward limit', () => {
    const next = numbers(7);
    for (let k = 0; k < 300; k++) {
      const terms = termsFrom(next, WAYS[k % 3]);
      const stretch = stretchFrom(next);
      const solved = solveTarget([stretch], terms);
      if (!solved.ok) continue;
      const heights = targetHeights(stretch, solved.figures[0]);
      const depths = off(stretch, heights);
      expect(depths[depths.length - 1]).toBeCloseTo(0, 9);
      const aft = depths.filter((_, i) => stretch.x[i] <= stretch.feathered);
      const most = terms.way === 'fill only' ? 0 : (terms.grindLimit ?? 0);
      expect(Math.min(...aft)).toBeGreaterThan(-most - 1e-7);
      if (terms.way === 'grind only') expect(Math.max(...aft)).toBeLessThan(1e-7);
      const fore = stretch.x[stretch.x.length - 1];
      const room = stretch.turn * (fore - stretch.feathered);
      expect(Math.abs(solved.figures[0].miss)).toBeLessThan(room + 1e-7);
    }
  });

  test('least work never costs more than filling only, nor than any line through the forward limit such as the least-squares one', () => {
    const next = numbers(8);
    for (let k = 0; k < 200; k++) {
      const stretch = { ...stretchFrom(next), turn: 0 };
      const terms = { way: 'least work', grindWeight: 0.5 + 4 * next(), grindLimit: 100 } as const;
      const least = solveTarget([stretch], terms);
      const filled = solveTarget([stretch], { ...terms, way: 'fill only' });
      if (!least.ok || !filled.ok) throw new Error('always possible');
      const fillCost = costOf(stretch, targetHeights(stretch, filled.figures[0]), terms);
      expect(least.cost).toBeLessThan(fillCost + 1e-9);
      // Least squares of the rise, with the forward end held on the hull.
      const base = targetHeights(stretch, { miss: 0, rise: 0 });
      const lever = targetHeights(stretch, { miss: 0, rise: 1 }).map((h, i) => h - base[i]);
      const rise =
        lever.reduce((sum, q, i) => sum + q * (stretch.z[i] - base[i]), 0) /
        lever.reduce((sum, q) => sum + q * q, 0);
      const squares = costOf(stretch, targetHeights(stretch, { miss: 0, rise }), terms);
      expect(least.cost).toBeLessThan(squares + 1e-9);
    }
  });

  test('a line that cannot be ground to is told with the place that binds and the least that would have to come off', () => {
    // Straight but for a corner 3 mm hollow at the middle: a line below it everywhere that leaves the forward end
    // where it is cuts 6 mm off the aft end.
    const profile = Array.from({ length: 21 }, (_, i) => ({
      x: 50 * i,
      z: -3 * (1 - Math.abs(i - 10) / 10),
    }));
    const stretch = stretchOf(profile, 1000, { length: 0, turn: 0 });
    if (stretch === undefined) throw new Error('a stretch expected');
    const solved = solveTarget([stretch], { way: 'grind only', grindWeight: 1, grindLimit: 0.8 });
    expect(solved).toMatchObject({ ok: false, at: 0, allowed: 0.8 });
    expect(solved.ok ? NaN : solved.needs).toBeCloseTo(6, 6);
  });

  test('a parabola is filled to the chord from the transom to the forward limit', () => {
    const profile = Array.from({ length: 41 }, (_, i) => ({
      x: 25 * i,
      z: 4 * ((25 * i - 500) / 500) ** 2,
    }));
    const stretch = stretchOf(profile, 1000, { length: 0, turn: 0 });
    if (stretch === undefined) throw new Error('a stretch expected');
    const solved = solveTarget([stretch], { way: 'fill only', grindWeight: 1 });
    if (!solved.ok) throw new Error('possible');
    expect(targetHeights(stretch, solved.figures[0])).toEqual(
      stretch.x.map(() => expect.closeTo(4, 9) as number),
    );
  });
});
