import { describe, expect, it } from 'vitest';
import type { PanelTarget, TiedStretch } from '../../../src/fairing/panel/panelProgramme.ts';
import { solvePanelTarget } from '../../../src/fairing/panel/panelTarget.ts';
import { targetHeights } from '../../../src/fairing/plan/targetShape.ts';

type Surface = (x: number, y: number) => number;
const OFFSETS = [150, 300, 450, 600];
const FORE = 1500;
const FEATHERED = 1200;

/** Lines of a surface, each with heights off a straight line of its own. `taken`: what the feather takes up, mm. */
function linesOf(surface: Surface, taken = 0.75): readonly TiedStretch[] {
  const x = Array.from({ length: 31 }, (_, k) => 50 * k);
  return OFFSETS.map((y, i) => {
    const tie = { level: 2 * i - 3, slope: 0.004 * (i - 1) };
    const z = x.map((at) => surface(at, y) - tie.level - tie.slope * at);
    const turn = taken / (FORE - FEATHERED);
    return { stretch: { x, z, feathered: FEATHERED, turn }, y, tie };
  });
}

function targetOn(
  lines: readonly TiedStretch[],
  target: PanelTarget,
  {
    way,
    grindLimit,
    grindWeight = 3,
  }: {
    way: 'fill only' | 'least work' | 'grind only';
    grindLimit?: number;
    grindWeight?: number;
  },
  athwart = 0.75,
) {
  const terms = { way, grindWeight, ...(grindLimit !== undefined && { grindLimit }) };
  const solved = solvePanelTarget(lines, target, terms, athwart);
  if (!solved.ok) return solved;
  const heights = lines.map(({ stretch, tie }, i) =>
    targetHeights(stretch, solved.figures[i]).map(
      (z, k) => z + tie.level + tie.slope * stretch.x[k],
    ),
  );
  return { ...solved, heights };
}

const plane: Surface = (x, y) => 1 + 0.003 * x - 0.002 * y;
/** A cone's dent, 2 mm deep, on the second and third line, well inside. */
const dent: Surface = (x, y) => -2 * Math.max(0, 1 - Math.hypot((x - 600) / 300, (y - 375) / 200));

describe('one plane for a panel', () => {
  it('is the plane that a dent was made in, however each line was measured, and is filled by the dent', () => {
    const lines = linesOf((x, y) => plane(x, y) + dent(x, y));
    const found = targetOn(lines, 'one plane', { way: 'fill only' });
    if (!found.ok) throw new Error('a plane expected');
    found.heights.forEach((heights, i) => {
      heights.forEach((z, k) => expect(z).toBeCloseTo(plane(50 * k, OFFSETS[i]), 6));
    });
    const dents = OFFSETS.map((y) =>
      Array.from({ length: 31 }, (_, k) => -dent(50 * k, y)).reduce((sum, d) => sum + d / 30, 0),
    );
    // The outer lines stand for half the breadth of the inner ones.
    const mean = (dents[0] / 2 + dents[1] + dents[2] + dents[3] / 2) / 3;
    expect(found.cost).toBeCloseTo(mean, 6);
  });

  it('grinds a bump off rather than fill the rest up to it, as deep as the limit lets it', () => {
    const lines = linesOf((x, y) => plane(x, y) - dent(x, y));
    const found = targetOn(lines, 'one plane', {
      way: 'least work',
      grindLimit: 3,
      grindWeight: 1,
    });
    if (!found.ok) throw new Error('a plane expected');
    expect(found.heights[1][12]).toBeCloseTo(plane(600, 300), 6);
    const held = targetOn(lines, 'one plane', { way: 'least work', grindLimit: 0.5 });
    if (!held.ok) throw new Error('a plane expected');
    held.heights.forEach((heights, i) => {
      heights.forEach((z, k) => {
        const at = 50 * k;
        if (at > FEATHERED) return;
        expect(plane(at, OFFSETS[i]) - dent(at, OFFSETS[i]) - z).toBeLessThan(0.5 + 1e-6);
      });
    });
  });

  it('fills a twist up as a wedge from a forward edge that is straight', () => {
    const twist: Surface = (x, y) => 1e-5 * x * (y - 375);
    const found = targetOn(linesOf(twist), 'one plane', { way: 'fill only' });
    if (!found.ok) throw new Error('a plane expected');
    found.heights.forEach((heights, i) => {
      heights.forEach((z, k) => {
        if (50 * k <= FEATHERED) expect(z - twist(50 * k, OFFSETS[i])).toBeGreaterThan(-1e-6);
      });
    });
    expect(found.cost).toBeGreaterThan(0.1);
  });

  it('is refused where a line runs on low ahead, with the miss at the forward limit and what the feather takes', () => {
    // The second line is 2 mm low all along. The plane may lie 0.75 mm off at the forward limit; it would have to be
    // low there for that line and high for its neighbours, 1 mm each.
    const found = targetOn(
      linesOf((x, y) => plane(x, y) - (y === 300 ? 2 : 0)),
      'one plane',
      { way: 'fill only' },
    );
    expect(found).toMatchObject({ ok: false, limit: 'feather', at: FORE, allowed: 0.75 });
    if (!found.ok) expect(found.needs).toBeCloseTo(1, 1);
  });

  it('says what would have to come off where grinding alone cannot do it', () => {
    const lines = linesOf((x, y) => plane(x, y) + dent(x, y));
    const found = targetOn(lines, 'one plane', { way: 'grind only', grindLimit: 0.2 });
    expect(found).toMatchObject({ ok: false, limit: 'grind', allowed: 0.2 });
    if (!found.ok) expect(found.needs).toBeGreaterThan(0.2);
  });
});

describe('straight buttocks for a panel', () => {
  it('leave a twist as it is, and fill nothing where every line is straight', () => {
    const twist: Surface = (x, y) => plane(x, y) + 1e-5 * x * y;
    const found = targetOn(linesOf(twist), 'straight buttocks', { way: 'fill only' });
    if (!found.ok) throw new Error('a target expected');
    expect(found.cost).toBeCloseTo(0, 6);
    found.heights.forEach((heights, i) => {
      heights.forEach((z, k) => expect(z).toBeCloseTo(twist(50 * k, OFFSETS[i]), 6));
    });
  });

  it('fill a low line up until it stands no more than the limit off straight athwart', () => {
    // A trough 2 mm deep along the second line: straight fore and aft, so line by line there is nothing to do.
    const trough: Surface = (x, y) => plane(x, y) - (y === 300 ? 2 : 0);
    const by = (taken: number, athwart: number) =>
      targetOn(linesOf(trough, taken), 'straight buttocks', { way: 'fill only' }, athwart);
    const free = by(5, 10);
    const held = by(5, 0.5);
    if (!free.ok || !held.ok) throw new Error('targets expected');
    expect(free.cost).toBeCloseTo(0, 6);
    const off = held.heights.map((heights, i) => heights[0] - plane(0, OFFSETS[i]));
    expect(off[0]).toBeCloseTo(0, 6);
    expect(off[1] - (off[0] + off[2]) / 2).toBeCloseTo(-0.5, 6);
    // The rest of the trough runs on ahead, farther than the feather takes up.
    expect(by(0.1, 0.5)).toMatchObject({ ok: false, limit: 'feather' });
  });
});

it('takes no panel of fewer than three lines', () => {
  expect(() =>
    solvePanelTarget(
      linesOf(plane).slice(0, 2),
      'one plane',
      { way: 'fill only', grindWeight: 3 },
      1,
    ),
  ).toThrow(RangeError);
});
