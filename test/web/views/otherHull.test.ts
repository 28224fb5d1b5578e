import { describe, expect, it } from 'vitest';
import { otherHullWords } from '../../../web/views/otherHull.ts';

describe('a file that names its hull', () => {
  it('is asked about where it would be kept with another, naming both', () => {
    const words = otherHullWords('Marsh Heron (invented)', 'Quiet Ebb');
    expect(words).toContain('“Marsh Heron (invented)”');
    expect(words).toContain('“Quiet Ebb”');
    expect(otherHullWords('Marsh Heron', undefined)).toContain('no name yet');
  });

  it('is not, where it names this one, whatever the case, the spaces and what stands in brackets', () => {
    expect(otherHullWords('quiet  ebb (invented)', 'Quiet Ebb')).toBeUndefined();
    expect(otherHullWords('Quiet Ebb', 'Quiet Ebb (invented)')).toBeUndefined();
  });

  it('is not, where it names none', () => {
    expect(otherHullWords(undefined, 'Quiet Ebb')).toBeUndefined();
    expect(otherHullWords('  ', 'Quiet Ebb')).toBeUndefined();
  });
});
