import { describe, expect, it } from 'vitest';

import { scaledSize, tooLarge } from '../../../src/survey/photo/pictureSize.ts';

describe('the size of a picture', () => {
  it('is brought down to a longest side in its own proportion, never up and never to nothing', () => {
    expect(scaledSize({ width: 4000, height: 3000 }, 1600)).toEqual({ width: 1600, height: 1200 });
    expect(scaledSize({ width: 3000, height: 4000 }, 1600)).toEqual({ width: 1200, height: 1600 });
    expect(scaledSize({ width: 300, height: 200 }, 1600)).toEqual({ width: 300, height: 200 });
    expect(scaledSize({ width: 20_000, height: 2 }, 1600)).toEqual({ width: 1600, height: 1 });
  });

  it('is refused before decoding where a tablet could not hold it', () => {
    expect(tooLarge({ width: 8000, height: 8000 })).toBeUndefined();
    expect(tooLarge({ width: 20_000, height: 3200 })).toBeUndefined();
    expect(tooLarge({ width: 8001, height: 8000 })).toEqual({
      found: '8001 × 8000 pixels',
      expected: 'at most 64 megapixels and 20000 pixels a side',
    });
    expect(tooLarge({ width: 100_000, height: 1 })?.found).toBe('100000 × 1 pixels');
  });
});
