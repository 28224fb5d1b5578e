import { describe, expect, it } from 'vitest';

import type { Photo } from '../../../src/survey/fold/photosOf.ts';
import { photoRow, printedPhotos, struckRow } from '../../../web/views/photosView.ts';

const photo: Photo = {
  id: 'a',
  ofHull: false,
  at: '2026-05-04T09:30:00.120Z',
  by: 'Yard hand',
  kept: {
    name: 'photo.jpg',
    type: 'image/jpeg',
    bytes: 312_044,
    sha256: 'a'.repeat(64),
    width: 1600,
    height: 1200,
  },
  original: {
    name: 'DSC.jpg',
    type: 'image/jpeg',
    bytes: 5_120_000,
    width: 4000,
    height: 3000,
  },
};
const lines = [{ ids: ['l', 'l2'], side: 'port', offset: { mm: 457.2, text: '18 in' } }] as const;

describe('a photo on its page', () => {
  it('says when and by whom it was added, and what it was made from', () => {
    expect(photoRow(photo, lines, 'in')).toEqual({
      id: 'a',
      alt: 'Photo without a caption',
      signed: 'Added 2026-05-04, 09:30 UTC by Yard hand',
      size: '1600 × 1200 pixels, 313 kB',
      source: 'scaled down from 4000 × 3000 pixels, 5.1 MB, “DSC.jpg”',
      ofHull: false,
      width: 1600,
      height: 1200,
    });
  });

  it('says so where nobody had said who was using the device', () => {
    expect(photoRow({ ...photo, by: 'not stated' }, lines, 'mm').signed).toBe(
      'Added 2026-05-04, 09:30 UTC by someone who is not named',
    );
  });

  it('names the line, by any of its ids, and the station that it shows', () => {
    const placed = { ...photo, line: 'l2', station: { mm: 304.8, text: '12 in' } };
    const where = 'port, 18 in from the keel, station 12 in';
    expect(photoRow(placed, lines, 'in')).toMatchObject({
      where,
      alt: `Photo without a caption, ${where}`,
    });
    expect(photoRow({ ...photo, line: 'x' }, lines, 'in').where).toBe('a line that is not here');
  });

  it('says who put its caption right, in the zone that was stated', () => {
    const corrected = { at: '2026-05-05T10:00:00+02:00', by: 'Jo (invented)' };
    expect(photoRow({ ...photo, caption: ' Strake ', corrected }, lines, 'mm')).toMatchObject({
      caption: 'Strake',
      alt: 'Strake',
      corrected: 'Put right 2026-05-05, 10:00 +02:00 by Jo (invented)',
    });
  });

  it('says who struck it and why, or that it was taken back', () => {
    const at = '2026-05-05T10:00:00Z';
    const struck = [
      { at, by: 'Jo', why: 'not this hull' },
      { at, by: 'Max' },
    ];
    expect(struckRow({ ...photo, struck }, lines, 'mm').why).toEqual([
      'Struck 2026-05-05, 10:00 UTC by Jo: not this hull',
      'Struck 2026-05-05, 10:00 UTC by Max, taken back',
    ]);
  });
});

describe('photos that are printed', () => {
  it('are those whose picture is there, with caption and place in one', () => {
    const other = { ...photo, id: 'b', caption: 'Strake', line: 'l' };
    const urls = new Map([['b', 'blob:b']]);
    expect(printedPhotos([photo, other], urls, lines, 'mm')).toEqual([
      {
        id: 'b',
        caption: 'Strake, port, 457 mm from the keel',
        at: '2026-05-04, 09:30 UTC',
        by: 'Yard hand',
        url: 'blob:b',
        width: 1600,
        height: 1200,
      },
    ]);
  });
});
