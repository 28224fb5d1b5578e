import { expect, test } from 'vitest';
import { bringIn, isClosest, pan, zoomIn, zoomOut } from '../../../web/views/profileZoom.ts';

const WHOLE = [0, 800] as const;

test('closer and wider are each other’s opposite, and wide enough is the whole', () => {
  const half = zoomIn(WHOLE, undefined, 400);
  expect(half).toEqual([200, 600]);
  expect(zoomOut(WHOLE, half)).toBeUndefined();
  expect(zoomOut(WHOLE, undefined)).toBeUndefined();
});

test('a zoom never leaves the line, whatever it is about', () => {
  expect(zoomIn(WHOLE, undefined, 0)).toEqual([0, 400]);
  expect(zoomIn(WHOLE, undefined, 800)).toEqual([400, 800]);
  expect(pan(WHOLE, [0, 400], -0.5)).toEqual([0, 400]);
  expect(pan(WHOLE, [0, 400], 0.5)).toEqual([200, 600]);
  expect(pan(WHOLE, undefined, 0.5)).toBeUndefined();
});

test('closest is an eighth of the line, and then it goes no closer', () => {
  let zoom = zoomIn(WHOLE, undefined, 400);
  for (let i = 0; i < 5; i++) zoom = zoomIn(WHOLE, zoom, 400);
  expect(zoom).toEqual([350, 450]);
  expect(isClosest(WHOLE, zoom)).toBe(true);
  expect(isClosest(WHOLE, [300, 500])).toBe(false);
  expect(isClosest(WHOLE, undefined)).toBe(false);
});

test('a station outside is brought in, one inside moves nothing', () => {
  expect(bringIn(WHOLE, [0, 200], 500)).toEqual([400, 600]);
  expect(bringIn(WHOLE, [0, 200], 100)).toEqual([0, 200]);
});
