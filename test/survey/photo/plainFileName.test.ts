import { describe, expect, it } from 'vitest';

import { PLAIN_NAME_LIMIT, plainFileName } from '../../../src/survey/photo/plainFileName.ts';

describe('the name of somebody else’s file', () => {
  it.each([
    ['DSC_0042.JPG', 'DSC_0042.JPG'],
    ['  a\tb\r\nc.jpg ', 'a b c.jpg'],
    ['inno\u202ecent.gpj.exe', 'inno cent.gpj.exe'],
    ['<img src=x>.jpg', '<img src=x>.jpg'],
    ['cafe\u0301.jpg', 'caf\u00e9.jpg'],
    ['half \ud83d.jpg', 'half .jpg'],
    ['\u200b\u0000', undefined],
    ['', undefined],
  ])('%j is kept as %j: one line, no control or direction characters', (name, kept) => {
    expect(plainFileName(name)).toBe(kept);
  });

  it('is cut to its limit with its ending kept, and never through a character', () => {
    const long = plainFileName(`${'long '.repeat(3000)}.jpeg`);
    expect(long?.length).toBe(PLAIN_NAME_LIMIT);
    expect(plainFileName(`${'x'.repeat(500)}.jpeg`)).toMatch(/^x+….jpeg$/);
    const emoji = plainFileName(`${'\ud83d\ude80'.repeat(200)}.jpg`) ?? '';
    expect(emoji).not.toMatch(/\p{Cs}/u);
    expect(emoji.length).toBeLessThanOrEqual(PLAIN_NAME_LIMIT);
  });
});
