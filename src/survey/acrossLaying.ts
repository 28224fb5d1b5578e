import type { PlacementAcross } from './survey.ts';

/** What a placement across says of how it was laid and read, without where and what was read. */
export function acrossLaying({
  side: _side,
  direction: _direction,
  readings: _readings,
  voids: _voids,
  later: _later,
  ...laying
}: PlacementAcross) {
  return laying;
}
