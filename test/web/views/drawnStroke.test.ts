import { describe, expect, it } from 'vitest';
import { withPoint } from '../../../web/views/drawnStroke.ts';

const FIELD = { left: 100, top: 50, width: 400 };
const at = (clientX: number, clientY: number) => ({ clientX, clientY });

describe('a stroke', () => {
  it('is places in parts of the field’s width, the same on every screen', () => {
    expect(withPoint([], at(300, 100), FIELD)).toEqual([0.5, 0.125]);
    expect(withPoint([], at(300, 100), { left: 200, top: 75, width: 200 })).toEqual([0.5, 0.125]);
  });

  it('runs along the edge where the pen leaves the field', () => {
    expect(withPoint([0.5, 0.1], at(0, 900), FIELD)).toEqual([0.5, 0.1, 0, 0.25]);
  });

  it('stays the same where the pen hardly moves, and when it is as long as one can be', () => {
    const stroke = [0.5, 0.125];
    expect(withPoint(stroke, at(301, 100), FIELD)).toBe(stroke);
    expect(withPoint(stroke, at(303, 100), FIELD)).toHaveLength(4);
    const full = Array<number>(4000).fill(0);
    expect(withPoint(full, at(300, 100), FIELD)).toBe(full);
  });
});
